package program

import (
	"fmt"
	"strings"

	"wingproof/flightlog"
	"wingproof/flightlog/unit"
)

func (l *loader) readLoggers(all []*scope) {
	for _, s := range all {
		m := flightlog.Map{Name: s.v.text}
		if t := s.group("time", `time = { column = "...", unit = "s" }`, true); t != nil {
			t.name = "time"
			m.Time.Column, _ = t.text("column", true)
			m.Time.Unit = t.word("unit", []string{"s", "ms", "us", "iso"}, "")
			t.done()
		}
		seen := map[flightlog.Quantity]spot{}
		for _, c := range s.groups("channels", "a channel of logger "+m.Name, true) {
			col, at := readChannel(c)
			if first, twice := seen[col.Is]; twice && col.Is != "" {
				c.wrong(at, fmt.Sprintf("%s comes from two columns; line %d names it too", quoted(string(col.Is)), first.line), "keep the better one")
			}
			seen[col.Is] = at
			m.Columns = append(m.Columns, col)
		}
		m.Sensors = s.sensors()
		s.done()
		l.p.Loggers = append(l.p.Loggers, m)
	}
}

func (l *loader) loggerNames() []string {
	return namesOf(l.p.Loggers, func(x flightlog.Map) string { return x.Name })
}

func readChannel(s *scope) (flightlog.Column, spot) {
	c := flightlog.Column{Sign: 1, Scale: 1}
	c.Column, _ = s.text("column", true)
	var quantities []string
	for _, q := range flightlog.Quantities() {
		quantities = append(quantities, string(q))
	}
	is, at := s.text("is", true)
	if is != "" {
		name, ok := known(is, quantities)
		if !ok {
			s.wrong(at, "no quantity is called "+quoted(is), suggest(is, quantities, "quantity"))
		}
		c.Is = flightlog.Quantity(name)
	}
	written, unitAt := s.text("unit", true)
	sign := s.whole("sign", -1, 1, false, 1)
	if sign == 0 {
		s.wrong(s.v.get("sign").value.at, "sign = 0 would silence the channel", "write 1 or -1")
	}
	c.Sign = float64(sign)
	c.Scale, _ = s.number(number("scale", -1e12, 1e12).or(1))
	if c.Scale == 0 {
		s.wrong(s.v.get("scale").value.at, "scale = 0 would silence the channel", "write the factor, or leave scale out")
	}
	offset, _ := s.number(number("offset", -1e12, 1e12))
	c.Calibration = s.calibration()
	c.Delay, _ = s.number(delay())
	s.done()
	if c.Is == "" || written == "" {
		return c, at
	}
	u, ok := unit.Lookup(written, c.Is.Dimension())
	if !ok {
		s.wrong(unitAt, fmt.Sprintf("unit %s is no unit of %s, which %s has", quoted(written), c.Is.Dimension(), c.Is), unitAdvice(c))
		return c, at
	}
	c.Unit = u.Name
	c.Offset = offset * u.Factor
	return c, at
}

// unitAdvice names the units that fit, and the way out for a servo command in other units.
func unitAdvice(c flightlog.Column) string {
	right := "write " + strings.Join(unit.Of(c.Is.Dimension()), " or ")
	if c.Calibration == nil && c.Is.Dimension() == unit.Angle {
		right += "; a servo command needs calibration = [[1000, -20], [2000, 20]], and then the unit is that of the result"
	}
	return right
}

// calibration reads pairs of cell and value, rising in the cell.
func (s *scope) calibration() [][2]float64 {
	const right = "write calibration = [[1000, -20], [1500, 0], [2000, 20]]: cell, value; cells rising"
	list := s.list("calibration", false)
	var out [][2]float64
	for _, v := range list {
		pair := v.list
		if v.form != listForm || len(pair) != 2 || pair[0].form != numberForm || pair[1].form != numberForm {
			s.wrong(v.at, "an entry of calibration is not a pair of numbers", right)
			return nil
		}
		x, y := pair[0].number, pair[1].number
		if !finite(x) || !finite(y) || len(out) > 0 && x <= out[len(out)-1][0] {
			s.wrong(pair[0].at, fmt.Sprintf("cell %s of calibration does not rise", pair[0].text), right)
			return nil
		}
		out = append(out, [2]float64{x, y})
	}
	if k := s.v.get("calibration"); k != nil && k.value.form == listForm && len(out) < 2 {
		s.wrong(k.value.at, "calibration has fewer than two pairs", right)
		return nil
	}
	return out
}
