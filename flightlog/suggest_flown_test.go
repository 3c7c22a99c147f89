package flightlog_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
	"wingproof/flightlog/unit"
)

// flown is one rehearsed flight with inputs, turns and glides, as the loggers above would have seen it.
func flown(t testing.TB, sheet int, seed uint64) rehearse.Log {
	t.Helper()
	ac := rehearse.ExampleAircraft()
	stall := ac.StallSpeed(1.225)
	cards := rehearse.TrimCards(stall)
	if sheet >= 0 {
		cards = rehearse.ManoeuvreCards(stall)[sheet]
	}
	log, err := rehearse.Fly(ac, cards, rehearse.DefaultWeather(), rehearse.DefaultInstruments(), rand.New(rand.NewPCG(seed, 3)))
	require.NoError(t, err)
	return log
}

// write writes a flight in a dialect.
func (d dialect) write(l rehearse.Log, rows int) string {
	at := map[flightlog.Quantity]int{}
	for i, q := range rehearse.Quantities() {
		at[q] = i
	}
	var b strings.Builder
	heads := []string{d.time}
	for _, c := range d.columns {
		heads = append(heads, c.head)
	}
	b.WriteString(strings.Join(heads, d.separator) + "\n")
	if d.units != nil {
		b.WriteString(strings.Join(d.units, d.separator) + "\n")
	}
	columns := slices.Clone(d.columns)
	for k, c := range columns {
		columns[k].table, _ = unit.Lookup(c.unit, c.is.Dimension())
	}
	for row := range min(rows, len(l.Time)) {
		when := d.clock(l.Time[row])
		if d.comma {
			when = strings.Replace(when, ".", ",", 1)
		}
		b.WriteString(when)
		for k, c := range columns {
			text := strconv.FormatFloat(11.1-0.001*float64(row%7+k), 'f', 3, 64)
			if i, ok := at[c.is]; ok {
				text = c.number(l.Columns[i][row])
			}
			if d.comma {
				text = strings.Replace(text, ".", ",", 1)
			}
			b.WriteString(d.separator + text)
		}
		b.WriteString("\n")
	}
	return b.String()
}

func (c cellOf) number(si float64) string {
	if math.IsNaN(si) {
		return ""
	}
	sign, times := c.sign, c.times
	if sign == 0 {
		sign = 1
	}
	if times == 0 {
		times = 1
	}
	if c.unit == "pulse" && c.is == flightlog.Throttle {
		return strconv.FormatFloat(1000+1000*si, 'f', 0, 64)
	}
	if c.unit == "pulse" {
		return strconv.FormatFloat(1500+12*sign*si*180/math.Pi, 'f', 0, 64)
	}
	if c.half && si > math.Pi {
		si -= 2 * math.Pi
	}
	u := c.table
	if u.Factor == 0 {
		u, _ = unit.Lookup(c.unit, c.is.Dimension())
	}
	return strconv.FormatFloat(sign*times*u.From(si), 'f', 4, 64)
}
