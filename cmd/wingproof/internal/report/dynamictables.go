package report

import (
	"fmt"
	"io"
	"math"
	"strings"

	"wingproof/flightlog"
	"wingproof/flightlog/identify"
	"wingproof/flightlog/manoeuvre"
	"wingproof/flightlog/reduce"
)

const inDegrees = 180 / math.Pi

// flightTable is one table over flights below a line of its own; rows gives those of one flight, without its name.
type flightTable struct {
	title string
	heads []string
	most  []int
	rows  func(f reduce.Reduction) [][]string
}

// dynamicTables are what flights hold beside steady points.
func dynamicTables() []flightTable {
	return []flightTable{
		{"stalls: the greatest lift of each deceleration", []string{"time, s", "power", "slowing, m/s²", "CL", "alpha, °", "elevator, °", "let go first", "kept or dropped, why"}, []int{6, 6, 8, 5, 6, 9, 11, 0}, stallRows},
		{"steady sideslips", []string{"time, s", "power", "CL", "beta, °", "rudder, °", "aileron, °", "bank, °", "kept or dropped, why"}, []int{10, 6, 5, 7, 7, 8, 6, 0}, slipRows},
		{"turns and pull-ups", []string{"time, s", "kind", "power", "load factor", "CL", "elevator, °", "pitch rate, °/s", "kept or dropped, why"}, []int{10, 8, 6, 6, 5, 9, 10, 0}, loadRows},
		{"inputs for the derivatives: doublets and multisteps", []string{"time, s", "input", "power", "taken or left out, why"}, []int{10, 20, 6, 0}, inputRows},
	}
}

func (d flightTable) write(w io.Writer, flights []reduce.Reduction, width int) error {
	t := textTable{heads: append([]string{"flight"}, d.heads...), most: append([]int{14}, d.most...)}
	for _, f := range flights {
		name := plain(f.Flight)
		for _, row := range d.rows(f) {
			t.add(append([]string{name}, row...)...)
			name = ""
		}
	}
	if len(t.rows) == 0 {
		return nil
	}
	if _, err := fmt.Fprintln(w, d.title); err != nil {
		return err
	}
	if err := t.write(w, width); err != nil {
		return err
	}
	_, err := fmt.Fprintln(w)
	return err
}

func stallRows(f reduce.Reduction) (rows [][]string) {
	for _, s := range f.Stalls {
		why := keptBecause(s.Kept, s.Reason)
		if s.Sign != "" && s.Broke {
			why += "; " + plain(s.Sign)
		}
		first := plain(s.First)
		if s.First == reduce.FirstWing {
			first = "WING, DANGER"
		}
		if s.Lift == 0 { // it could not be read
			rows = append(rows, []string{number(s.Time, 0), string(s.Power), "", "", "", "", "", why})
			continue
		}
		rows = append(rows, []string{number(s.Time, 0), string(s.Power), number(s.Slowing, 1), number(s.Lift, 2), number(s.Alpha*inDegrees, 1), number(s.Elevator*inDegrees, 1), first, why})
	}
	return rows
}

func slipRows(f reduce.Reduction) (rows [][]string) {
	for _, s := range f.Slips {
		rows = append(rows, []string{rangeOf(s.Start, s.End), string(s.Power), number(s.Lift, 2), number(s.Sideslip*inDegrees, 1), number(s.Rudder*inDegrees, 1),
			number(s.Aileron*inDegrees, 1), number(s.Bank*inDegrees, 1), keptBecause(s.Kept, s.Reason)})
	}
	return rows
}

func loadRows(f reduce.Reduction) (rows [][]string) {
	for _, l := range f.Loads {
		rows = append(rows, []string{rangeOf(l.Start, l.End), strings.ReplaceAll(plain(l.Kind), "_", "-"), string(l.Power), number(l.LoadFactor, 2), number(l.Lift, 2), number(l.Elevator*inDegrees, 1),
			number(l.PitchRate*inDegrees, 0), keptBecause(l.Kept, l.Reason)})
	}
	return rows
}

// inputRows lists the doublets and multisteps with whether the fits of derivatives take them.
func inputRows(f reduce.Reduction) (rows [][]string) {
	for _, m := range f.Manoeuvres {
		if m.Kind != manoeuvre.Doublet && m.Kind != manoeuvre.Multistep {
			continue
		}
		power, verdict := "", "left out: "+leftOutBecause(m, f.Findings)
		for _, s := range f.Segments {
			if s.Control == m.Control && s.Start <= m.Start && m.Start <= s.Start+s.Step*float64(len(s.Airspeed)) {
				power, verdict = s.Power, "taken: "+lengthWords(s)
			}
		}
		control := "input"
		if m.Control != "" {
			control = controlWords(m.Control)
		}
		rows = append(rows, []string{rangeOf(m.Start, m.End), control + " " + plain(string(m.Kind)), power, verdict})
	}
	return rows
}

func lengthWords(s identify.Segment) string {
	return number(s.Step*float64(len(s.Airspeed)), 1) + " s with what comes before and behind it"
}

// leftOutBecause finds the reduction's word on an input, else says that the flight gives none.
func leftOutBecause(m manoeuvre.Manoeuvre, findings []flightlog.Finding) string {
	const said = "left out of the fits of derivatives: "
	whole := ""
	for _, f := range findings {
		if _, why, ok := strings.Cut(f.What, said); ok && f.Channel == m.Control && f.Start <= m.Start && m.Start <= f.End {
			return plain(why)
		}
		if _, why, ok := strings.Cut(f.What, "cannot be used to fit derivatives, because "); ok {
			whole = plain(why)
		}
	}
	if whole != "" {
		return whole
	}
	return "it could not be cut out of the log"
}

// controlWords names a control as a crew does; both rudders go by the name of the left one.
func controlWords(q flightlog.Quantity) string {
	if q == flightlog.RudderLeft || q == flightlog.RudderRight {
		return "rudder"
	}
	return strings.ReplaceAll(plain(string(q)), "_", " ")
}

func rangeOf(start, end float64) string { return number(start, 0) + "–" + number(end, 0) }

// keptBecause is a verdict with its reasons, two at most.
func keptBecause(kept bool, reason string) string {
	return keptWords(reduce.TestPoint{Kept: kept, Reason: reason})
}
