package manoeuvre

import (
	"fmt"

	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// Missing tells what cannot be looked for in a recording, or only by a detour, and why. The findings are notes where a
// detour serves, and losses where a kind of manoeuvre stays hidden.
func Missing(rec *flightlog.Recording) []flightlog.Finding {
	start, end, ok := span(rec)
	if !ok {
		return []flightlog.Finding{unsearchable(start, end)}
	}
	l := lacks{rec: rec, start: start, end: end}
	l.air()
	l.attitude()
	l.controls()
	return l.findings
}

// unsearchable is the finding for a recording that holds no flight.
func unsearchable(start, end float64) flightlog.Finding {
	f := flightlog.Finding{Severity: flightlog.Loss, Consequence: "no manoeuvre is looked for"}
	if end-start > longestRecording {
		f.Start, f.End = start, end
		f.What = fmt.Sprintf("the recording runs for %.0f hours, longer than any model flies: the unit of the time column may be wrong", (end-start)/3600)
		return f
	}
	f.What = "the recording is shorter than a second, or holds no channel with two samples"
	if end >= start {
		f.Start, f.End = start, end
	}
	return f
}

// lacks gathers what a recording does not give.
type lacks struct {
	rec        *flightlog.Recording
	start, end float64
	findings   []flightlog.Finding
}

func (l *lacks) has(q flightlog.Quantity) bool {
	c := l.rec.Channels[q]
	return len(c.Time) >= 2 && len(c.Time) == len(c.Value)
}

func (l *lacks) add(s flightlog.Severity, q flightlog.Quantity, what, consequence string) {
	l.findings = append(l.findings, flightlog.Finding{Severity: s, Channel: q, Start: l.start, End: l.end, What: what, Consequence: consequence})
}

// air looks at speed, height and throttle.
func (l *lacks) air() {
	switch {
	case l.has(flightlog.Airspeed):
	case l.has(flightlog.GroundSpeed):
		l.add(flightlog.Loss, flightlog.Airspeed, "airspeed was not recorded",
			"speed over the ground stands in to find level runs, climbs, glides and turns, so wind may hide or split some; decelerations to the stall are not looked for, and no manoeuvre tells its airspeed")
	default:
		l.add(flightlog.Loss, flightlog.Airspeed, "neither airspeed nor ground speed was recorded",
			"level runs, climbs, glides, circles and decelerations are not looked for")
	}
	if !l.has(flightlog.ClimbRate) && !l.has(flightlog.Altitude) && !l.has(flightlog.StaticPressure) {
		l.add(flightlog.Loss, flightlog.Altitude, "neither altitude, climb rate nor static pressure was recorded",
			"level runs and climbs are not looked for, and a climbing turn counts as a turn")
	}
	if len(l.rec.Channels[flightlog.Throttle].Time) == 0 {
		l.add(flightlog.Loss, flightlog.Throttle, "throttle was not recorded",
			"glides are not looked for: nothing tells them from a powered descent")
	}
}

// attitude looks at bank, heading and pitch rate.
func (l *lacks) attitude() {
	bank, heading, track := l.has(flightlog.RollAngle), l.has(flightlog.Heading), l.has(flightlog.GroundTrack)
	moves := l.has(flightlog.Airspeed) || l.has(flightlog.GroundSpeed)
	switch {
	case bank:
	case (heading || track) && moves:
		l.add(flightlog.Note, flightlog.RollAngle, "bank angle was not recorded",
			"bank is worked out from the rate of turn as in coordinated flight; a sideslip shows none")
	default:
		l.add(flightlog.Loss, flightlog.RollAngle, "nothing tells the bank", "turns and circles are not looked for, and a level run may be a turn")
	}
	switch {
	case heading:
	case track:
		l.add(flightlog.Note, flightlog.Heading, "heading was not recorded", "the track over the ground stands in for it, with its delay; wind makes its rate uneven round a circle")
	case bank && moves:
		l.add(flightlog.Note, flightlog.Heading, "neither heading nor track was recorded", "the turn is worked out from bank and speed, so that a sideslip may look like a turn")
	default:
		l.add(flightlog.Loss, flightlog.Heading, "nothing tells the heading", "circles and sideslips are not looked for")
	}
	if l.has(flightlog.Airspeed) && !(l.has(flightlog.PitchRate) && len(l.rec.Channels[flightlog.Elevator].Time) > 0) {
		l.add(flightlog.Loss, flightlog.PitchRate, "pitch rate or elevator was not recorded", "a stall break at the end of a deceleration is not looked for")
	}
}

// controls looks at what inputs are read from, and what else pull-ups need.
func (l *lacks) controls() {
	for _, q := range [...]flightlog.Quantity{flightlog.Elevator, flightlog.Aileron} {
		l.control(q)
	}
	switch {
	case l.has(flightlog.RudderLeft):
		l.control(flightlog.RudderLeft)
	case l.has(flightlog.RudderRight):
		l.control(flightlog.RudderRight)
	default:
		l.add(flightlog.Loss, flightlog.RudderLeft, "no rudder was recorded", "doublets and multisteps on it and sideslips are not looked for")
	}
	if !l.has(flightlog.DownAcceleration) || !l.has(flightlog.RollAngle) {
		l.add(flightlog.Loss, flightlog.DownAcceleration, "down acceleration or bank was not recorded", "pull-ups are not looked for: nothing tells the load factor with wings level")
	}
}

// control looks at one control that inputs are read from.
func (l *lacks) control(q flightlog.Quantity) {
	if !l.has(q) {
		l.add(flightlog.Loss, q, fmt.Sprintf("%s was not recorded", spoken(q)), "doublets and multisteps on it are not looked for")
		return
	}
	c := l.rec.Channels[q]
	if step := c.Step(); step > slowControl && !onChange(c, hole(c)) {
		l.add(flightlog.Note, q, fmt.Sprintf("%s was recorded once in %.2f s", spoken(q), step),
			fmt.Sprintf("steps of an input shorter than %.1f s are not seen, and widths are no finer than that sample", 2*step))
	}
	if values := picked(c.Value, run{0, len(c.Value)}); len(values) > 0 && statistic.Quantile(values, 1) == statistic.Quantile(values, 0) {
		l.add(flightlog.Note, q, fmt.Sprintf("%s never moves in this recording", spoken(q)), "nothing flown with it can show; if it did move, its column in the logger's map is wrong")
	}
}
