package reduce

import (
	"fmt"
	"math"
	"strings"

	"wingproof/flightlog"
	"wingproof/flightlog/identify"
	"wingproof/flightlog/manoeuvre"
)

// slowestGyros is the rate [Hz] below which no segment is formed: at 20 Hz the delay of a servo is one sample. Common practice, no source.
const slowestGyros = 20.0

// segments turns every doublet and multistep into histories on a uniform grid, and says which gave none and why.
func (m *measurement) segments(found []manoeuvre.Manoeuvre, seen []flightlog.Finding) (out []identify.Segment, findings []flightlog.Finding) {
	inputs := m.inputs(found)
	if len(inputs) == 0 {
		return nil, nil
	}
	if why := m.noSegments(); why != "" {
		first, last := inputs[0], inputs[len(inputs)-1]
		return nil, []flightlog.Finding{{Severity: flightlog.Note, Start: first.Start, End: last.End,
			What:        fmt.Sprintf("%s of this flight cannot be used to fit derivatives, because %s", counted(len(inputs), "input"), why),
			Consequence: "damping, stiffness and control power get nothing from this flight"}}
	}
	s := newSampler(m)
	lost := m.noSegment(seen)
	for i, in := range inputs {
		segment, why := s.segment(in, m.spanOf(inputs, i, lost))
		if why != "" {
			findings = append(findings, flightlog.Finding{Severity: flightlog.Note, Channel: in.Control, Start: in.Start, End: in.End,
				What:        fmt.Sprintf("the %s %s is left out of the fits of derivatives: %s", spoken(in.Control), in.Kind, why),
				Consequence: "the others serve without it; where too few are left, fly it again in calm air"})
			continue
		}
		out = append(out, segment)
	}
	return out, findings
}

// inputs lists the doublets and multisteps in order of time. A hand mark does not name the control: it is then the one that travels most.
func (m *measurement) inputs(found []manoeuvre.Manoeuvre) []manoeuvre.Manoeuvre {
	var out []manoeuvre.Manoeuvre
	for _, in := range found {
		if in.Kind != manoeuvre.Doublet && in.Kind != manoeuvre.Multistep {
			continue
		}
		if in.Control == "" {
			in.Control, in.Size = m.moved(in.Start, in.End)
		}
		if in.Control != "" {
			out = append(out, in)
		}
	}
	return out
}

// moved names the control that travels most over a time, and half its travel.
func (m *measurement) moved(start, end float64) (control flightlog.Quantity, size float64) {
	for _, q := range []flightlog.Quantity{flightlog.Elevator, flightlog.Aileron, flightlog.RudderLeft, flightlog.RudderRight} {
		low, high := math.Inf(1), math.Inf(-1)
		c := m.g.clean[q]
		for i, t := range c.Time {
			if t >= start && t <= end {
				low, high = math.Min(low, c.Value[i]), math.Max(high, c.Value[i])
			}
		}
		if (high-low)/2 > size {
			control, size = q, (high-low)/2
		}
	}
	return control, size
}

// noSegments says why no input of the flight can be used; empty when they can.
func (m *measurement) noSegments() string {
	if m.flown == nil || len(m.flown.Time) < 2 {
		return "the path of the model through the air could not be reconstructed, so that rates, forces and attitude still hold the errors of their sensors"
	}
	if rate := 1 / m.gyroStep(); rate < slowestGyros {
		return fmt.Sprintf("the rates are logged at %.0f Hz; at least %.0f Hz are needed to tell a damping from the lag of a servo", rate, slowestGyros)
	}
	return ""
}

// powerOver is the propeller's state over a time; level where no throttle was logged.
func (m *measurement) powerOver(start, end float64) Power {
	if m.signals.throttle == nil {
		return Level
	}
	i, j := m.instants(start, end)
	return powerAt(m.signals.throttle.over(i, j).mean)
}

// spoken is the name of a control in a sentence.
func spoken(q flightlog.Quantity) string {
	if q == flightlog.RudderLeft || q == flightlog.RudderRight {
		return "rudder"
	}
	return strings.ReplaceAll(string(q), "_", " ")
}

// counted writes a number and what it counts.
func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
