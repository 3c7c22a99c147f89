package flightlog_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero"
	"wingproof/aero/stability"
	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
	"wingproof/flightlog/unit"
)

// flown is one rehearsed flight with inputs, turns and glides, as the loggers above would have seen it.
func flown(t testing.TB, sheet int, seed uint64) rehearse.Log {
	t.Helper()
	d := aero.Derivatives{
		Reference:   aero.Reference{Area: 12.6, Span: 8.6, MeanChord: 1.7, MeanChordLeadingEdge: 4.0},
		MomentPoint: 3.9, MomentZ: 0.05, Alpha: 0.05,
		At:          aero.Coefficients{Lift: 0.35, Drag: 0.03, Pitch: 0.01},
		ByAlpha:     aero.Coefficients{Lift: 4.4, Drag: 0.2, Pitch: -0.44},
		ByBeta:      aero.Coefficients{Side: -0.55, Roll: -0.09, Yaw: 0.06},
		ByRollRate:  aero.Coefficients{Side: -0.05, Roll: -0.45, Yaw: -0.04},
		ByPitchRate: aero.Coefficients{Lift: 3.2, Drag: 0.1, Pitch: -9.5},
		ByYawRate:   aero.Coefficients{Side: 0.25, Roll: 0.12, Yaw: -0.13},
		ByControl: map[string]aero.Coefficients{
			"elevator": {Lift: 0.45, Drag: 0.02, Pitch: 0.95}, "aileron": {Roll: 0.15, Yaw: -0.01}, "rudder": {Side: 0.12, Roll: 0.01, Yaw: -0.05}},
	}
	ac := rehearse.DefaultAircraft(d, 0.25, 3.9, 0.05, stability.Body{Mass: 15, Ix: 1.2, Iy: 1.3, Iz: 2.3}, rehearse.Polar{Min: 0.028, Factor: 0.05, LiftAtMin: 0.1}, 1.3)
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
