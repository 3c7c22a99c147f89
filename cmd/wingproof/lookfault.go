package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"wingproof/flightlog"
	"wingproof/flightlog/manoeuvre"
)

// mapFault is the first refusal of a log. Whatever is refused there is wrong throughout, in the logger map or in what was stated of
// the model, so that the log need not be flown again.
func mapFault(findings []flightlog.Finding) (flightlog.Finding, bool) {
	i := slices.IndexFunc(findings, func(f flightlog.Finding) bool { return f.Severity == flightlog.Refusal })
	if i < 0 {
		return flightlog.Finding{}, false
	}
	return findings[i], true
}

// hidesFlight tells whether nobody can say that the model flew before a fault is put right: of a speed, or of time.
func hidesFlight(f flightlog.Finding) bool {
	return f.Channel == flightlog.Airspeed || f.Channel == flightlog.GroundSpeed || f.Channel == "" && !ofWeight(f)
}

// ofWeight tells whether a refusal speaks of the weight that was stated.
func ofWeight(f flightlog.Finding) bool {
	return f.Channel == "" && strings.Contains(f.Consequence, flightlog.StatedWeight)
}

// correctFirst is the verdict on a log that waits for a correction on the ground.
func correctFirst(f flightlog.Finding) lookVerdict {
	what, wrong := firstClause(f.What), "the logger map is corrected"
	if ofWeight(f) {
		wrong = "the weighing or the wing area is corrected"
	}
	remedy := lastClauses(f.Consequence)
	if _, behind, found := strings.Cut(f.Consequence, flightlog.UntilPutRight+"; "); found {
		remedy = behind
	}
	return lookVerdict{goodBut, fmt.Sprintf("good, but only once %s: %s; %s; no need to fly", wrong, what, remedy)}
}

// inputsOfUse tells whether a log without test points was still worth its flight: a usable input, stall, sideslip or circle, or a
// planned card.
func (doc lookDocument) inputsOfUse() bool {
	return slices.ContainsFunc(doc.Manoeuvres, func(m lookManoeuvre) bool { return m.Usable && m.Kind != manoeuvre.Turn && !steadyKind(m.Kind) }) ||
		slices.ContainsFunc(doc.Cards, func(c lookCard) bool { return c.Fulfilled })
}

// nothingGiven judges a flight that gives nothing: by a channel that the map does not name or reads wrongly, else by the flight.
func (l *look) nothingGiven(doc lookDocument, again func(string, ...any) lookVerdict) lookVerdict {
	if len(l.recording.Channels[flightlog.Throttle].Time) < 2 {
		if !l.unmapped(flightlog.Throttle) {
			return again("the log holds no samples of throttle, and without them no glide can be told from powered flight")
		}
		return lookVerdict{goodBut, "good, but no test point can be kept yet: the logger map names no throttle; " + l.mapAdvice() + ", or fly again with one where the log holds none"}
	}
	for _, f := range doc.Findings {
		if f.Severity == flightlog.Loss && strings.Contains(f.Consequence, flightlog.UntilPutRight) {
			return correctFirst(f)
		}
	}
	for _, f := range doc.Findings {
		switch {
		case f.Severity != flightlog.Loss:
		case strings.HasPrefix(f.What, flightlog.NoneKept):
			return again("%s", f.What)
		case strings.HasPrefix(f.What, flightlog.NothingSteady):
			return again("%s; %s", f.What, lastClauses(f.Consequence))
		}
	}
	if doc.usable() > 0 {
		return again("no test point could be kept")
	}
	return again("%s", noneUsable(doc.Manoeuvres))
}

// breaksOff is when a log ends in the air in the middle of a line: its end was lost, not only its flight.
func (l *look) breaksOff(doc lookDocument, air airborne) (at float64, cut bool) {
	if !slices.ContainsFunc(doc.Findings, func(f flightlog.Finding) bool { return f.What == flightlog.CutLine }) {
		return 0, false
	}
	_, at = l.span()
	return at, air.seconds > 0 && at-air.end <= glitch
}

// span is the first and the last time of all channels, s.
func (l *look) span() (first, last float64) {
	first, last = math.Inf(1), math.Inf(-1)
	for _, c := range l.recording.Channels {
		if n := len(c.Time); n > 0 {
			first, last = math.Min(first, c.Time[0]), math.Max(last, c.Time[n-1])
		}
	}
	return first, last
}
