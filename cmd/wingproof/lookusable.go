package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"wingproof/flightlog"
	"wingproof/flightlog/manoeuvre"
	"wingproof/flightlog/reduce"
)

// leastShared is how much of a steady manoeuvre must be a kept test point [s]: the shortest one that the reduction keeps.
const leastShared = 3.0

// usableManoeuvres lists the manoeuvres of a reduction with what keeps each from being used.
func usableManoeuvres(r reduce.Reduction) []lookManoeuvre {
	out := []lookManoeuvre{}
	whole := 0.0
	for _, f := range r.Findings {
		whole = math.Max(whole, f.End)
	}
	for _, m := range r.Manoeuvres {
		why := ""
		switch {
		case refused(r):
			why = "no test point can be formed from this log"
		case steadyKind(m.Kind):
			why = noPointIn(m, r.Points) // the reduction has left out what is lost
		default:
			if why = lostDuring(m, r.Findings, whole); why == "" {
				why = droppedIn(m, r)
			}
		}
		out = append(out, lookManoeuvre{m, why == "", why})
	}
	return out
}

// refused tells whether the reduction formed no test point at all.
func refused(r reduce.Reduction) bool {
	return slices.ContainsFunc(r.Findings, func(f flightlog.Finding) bool { return f.Severity == flightlog.Refusal })
}

// lostDuring names a loss that falls into a manoeuvre and takes away a channel that it needs.
func lostDuring(m manoeuvre.Manoeuvre, findings []flightlog.Finding, whole float64) string {
	const touch = 0.2 // s: a loss that ends where a manoeuvre begins does no harm
	for _, f := range findings {
		// findings of the reader count rows that need not lie close together, and a finding about the log as a whole is no stretch
		if f.Severity != flightlog.Loss || f.Line > 0 || f.Channel == "" && f.End-f.Start > whole/2 {
			continue
		}
		if math.Min(f.End, m.End)-math.Max(f.Start, m.Start) >= math.Min(touch, f.End-f.Start) && needsChannel(m, f.Channel) {
			return fmt.Sprintf("%s lost from %.0f to %.0f s: %s", channelWords(f.Channel), f.Start, f.End, f.What)
		}
	}
	return ""
}

// needsChannel tells whether a manoeuvre is of no use without a channel.
func needsChannel(m manoeuvre.Manoeuvre, q flightlog.Quantity) bool {
	input := m.Kind == manoeuvre.Doublet || m.Kind == manoeuvre.Multistep
	switch q {
	case "", flightlog.Airspeed, flightlog.ForwardAcceleration, flightlog.DownAcceleration, flightlog.RollAngle, flightlog.PitchAngle, flightlog.StaticPressure:
		return true
	case flightlog.RollRate, flightlog.PitchRate, flightlog.YawRate:
		return input || m.Kind == manoeuvre.Deceleration
	case flightlog.Elevator:
		return true
	case flightlog.Heading, flightlog.GroundSpeed, flightlog.GroundTrack:
		return m.Kind == manoeuvre.Circle
	case flightlog.RightAcceleration:
		return m.Kind == manoeuvre.Sideslip || input && m.Control != flightlog.Elevator
	case flightlog.RudderRight:
		return m.Control == flightlog.RudderLeft
	}
	return q == m.Control
}

// steadyKind tells whether a manoeuvre is flown for a test point.
func steadyKind(k manoeuvre.Kind) bool {
	return k == manoeuvre.Level || k == manoeuvre.Climb || k == manoeuvre.Glide
}

// droppedIn says why the reduction dropped what a pull-up, a sideslip or a deceleration was flown for; empty when it kept it, or holds
// nothing of it. A pull-up is so no steady kind: its peak is a point of its own, judged by the reduction. Turns and circles serve the wind
// too, and inputs show in the fits.
func droppedIn(m manoeuvre.Manoeuvre, r reduce.Reduction) string {
	dropped := ""
	look := func(start, end float64, kept bool, reason string) (done bool) {
		if math.Min(end, m.End) < math.Max(start, m.Start) {
			return false
		}
		if !kept {
			dropped = reason
		}
		return kept
	}
	switch m.Kind {
	case manoeuvre.PullUp:
		for _, p := range r.Loads {
			if look(p.Start, p.End, p.Kept, p.Reason) {
				return ""
			}
		}
	case manoeuvre.Sideslip:
		for _, p := range r.Slips {
			if look(p.Start, p.End, p.Kept, p.Reason) {
				return ""
			}
		}
	case manoeuvre.Deceleration:
		for _, p := range r.Stalls {
			if look(p.Start, p.Time, p.Kept, p.Reason) {
				return ""
			}
		}
	}
	if dropped == "" {
		return ""
	}
	return "dropped: " + dropped
}

// noPointIn says why a steady manoeuvre gave no test point; empty when it did.
func noPointIn(m manoeuvre.Manoeuvre, points []reduce.TestPoint) string {
	why, most := "no steady stretch of 3 s or more in it", 0.0
	for _, p := range points {
		shared := math.Min(p.End, m.End) - math.Max(p.Start, m.Start)
		if p.Kept && shared >= math.Min(leastShared, m.End-m.Start)-0.5 {
			return ""
		}
		if shared > most {
			most = shared
			why = "test point dropped: " + p.Reason
			if p.Kept {
				why = "the test point lies mostly outside it"
			}
		}
	}
	return why
}

// channelWords says a channel as a crew does.
func channelWords(q flightlog.Quantity) string {
	if q == "" {
		return "part of the log"
	}
	return strings.ReplaceAll(string(q), "_", " ")
}
