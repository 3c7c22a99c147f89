package quality

import (
	"fmt"
	"math"

	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

const degree = math.Pi / 180

// angleSizes finds angles that no angle in radians can reach, and headings that never leave the first six degrees.
//
// What goes on is put right, so that one wrong unit is one finding.
func (e *evidence) angleSizes() {
	for _, a := range []struct {
		q      flightlog.Quantity
		share  float64 // quantile of the magnitudes that is looked at
		most   float64 // rad
		beyond string
	}{
		{flightlog.PitchAngle, 0.99, math.Pi/2 + 0.1, "a quarter turn"},
		{flightlog.RollAngle, 0.99, math.Pi + 0.1, "half a turn"},
		// past 45° for a quarter of the flight a model does not fly (common practice, no source)
		{flightlog.AngleOfAttack, 0.75, math.Pi / 4, "what a wing bears"},
		{flightlog.Sideslip, 0.9, math.Pi / 4, "what a fin allows"},
		// hinges end at 45° or so, 60° where an airbrake is mixed in (common practice, no source)
		{flightlog.Elevator, 0.99, 1.2, "any hinge's travel"},
		{flightlog.Aileron, 0.99, 1.2, "any hinge's travel"},
		{flightlog.RudderLeft, 0.99, 1.2, "any hinge's travel"},
		{flightlog.RudderRight, 0.99, 1.2, "any hinge's travel"},
	} {
		c := e.rec.Channels[a.q]
		if len(c.Value) == 0 {
			continue
		}
		top := statistic.Quantile(statistic.Magnitudes(sampled(c.Value)), a.share)
		if !(top > a.most) {
			continue
		}
		e.condemn(a.q, severityOf(a.q), fmt.Sprintf("the %s reaches %.3g rad, beyond %s", plainName(a.q), top, a.beyond),
			lostThroughout(a.q)+"; the column seems to be in degrees")
		e.reread(a.q, degree)
	}
	e.compass(flightlog.Heading)
	e.compass(flightlog.GroundTrack)
}

// compass looks at an angle that runs from 0 to 2π or from −π to π. A recorder may let it run on, so that large values
// alone are no mistake: degrees close their circle at 360.
func (e *evidence) compass(q flightlog.Quantity) {
	c := e.rec.Channels[q]
	if len(c.Value) < 50 {
		return
	}
	values := sampled(c.Value)
	top, low := statistic.Quantile(values, 0.995), statistic.Quantile(values, 0.005)
	switch {
	case top <= 361 && low >= -181 && math.Max(top, -low) > 12 && closesAt(c.Value, 360):
		e.condemn(q, flightlog.Loss, fmt.Sprintf("the %s runs from %.3g to %.3g rad, beyond a full turn", plainName(q), low, top),
			lostThroughout(q)+"; the column seems to be in degrees")
		e.reread(q, degree)
	case top < 360*degree*degree*1.02 && low > -180*degree*degree*1.02 && closesAt(c.Value, 360*degree*degree):
		e.condemn(q, flightlog.Loss, fmt.Sprintf("the %s never leaves %.3g to %.3g rad and jumps from one end to the other", plainName(q), low, top),
			lostThroughout(q)+"; the column seems to be in radians, not in degrees")
		e.reread(q, 1/degree)
	}
}

// closesAt tells whether an angle jumps by a full circle of a size, or covers most of it.
func closesAt(values []float64, circle float64) bool {
	low, high := math.Inf(1), math.Inf(-1)
	for i, v := range values {
		low, high = math.Min(low, v), math.Max(high, v)
		if i > 0 && math.Abs(math.Abs(v-values[i-1])-circle) < 0.1*circle {
			return true
		}
	}
	return high-low > 0.4*circle && high-low < 1.01*circle
}

// reread builds the cells of a channel again with its values multiplied, so that circles close where they should.
func (e *evidence) reread(q flightlog.Quantity, by float64) {
	if !e.s.has(q) {
		return
	}
	c := e.rec.Channels[q]
	turned := flightlog.Channel{Time: c.Time, Value: make([]float64, len(c.Value))}
	for i, v := range c.Value {
		turned.Value[i] = v * by
	}
	e.s.values[q] = e.s.cells(turned, circles(q), e.scans[q].step, e.spikes[q])
	e.forget(q)
}
