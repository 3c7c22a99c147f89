package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"wingproof/flightlog"
)

// lookVerdict is the answer in one word and one sentence.
type lookVerdict struct {
	Word     string `json:"word"` // good, good_but, fly_again
	Sentence string `json:"sentence"`
}

// The words of a verdict.
const (
	good     = "good"
	goodBut  = "good_but"
	flyAgain = "fly_again"
)

// A log is a flight from this many seconds in the air on, and flown again when the airspeed is lost over this share of them:
// common practice, no source.
const (
	leastFlight  = 15.0
	mostBlocked  = 0.5
	clausesTold  = 2
	draftWarning = " (read with a guessed logger map)"
)

// verdict says whether the log is good, what is lost of it, or why it must be flown again.
func (l *look) verdict(doc lookDocument) lookVerdict {
	v := l.judge(doc)
	if l.guesses != nil {
		v.Sentence += draftWarning
	}
	return v
}

func (l *look) judge(doc lookDocument) lookVerdict {
	again := func(format string, parts ...any) lookVerdict {
		return lookVerdict{flyAgain, "fly again, because " + fmt.Sprintf(format, parts...)}
	}
	lacking := onlyLacking(l.reduction.Findings, l.lacking)
	fault, faulty := mapFault(doc.Findings)
	faulty = faulty && !lacking
	air := l.flying()
	switch {
	case faulty && hidesFlight(fault):
		return correctFirst(fault)
	case !air.known && l.unmapped(flightlog.Airspeed):
		return lookVerdict{goodBut, "good, but nothing can be said of the flight yet: the logger map names no airspeed; " + l.mapAdvice()}
	case !air.known:
		return again("the log holds no airspeed and no ground speed")
	case air.seconds == 0:
		return again("there is no flight in it: the speed never rose above %.0f m/s", leastFlying)
	case air.seconds < leastFlight:
		return again("there is no flight in it: the speed stays above %.0f m/s for %.1f s only, and reaches %.0f m/s", leastFlying, air.seconds, air.fastest)
	case lacking:
		return l.lackingVerdict(again)
	}
	share, start, end, what := l.blocked(air)
	switch {
	case share > mostBlocked:
		return again("the airspeed is lost over %.0f %% of the flight, from %.0f to %.0f s: %s; look into the tube", 100*share, start, end, firstClause(what))
	case faulty:
		return correctFirst(fault)
	case l.leftOut != "":
		return again("this log cannot count as flight %s: %s", doc.Flight, firstReason(l.leftOut))
	case doc.kept() == 0 && !doc.inputsOfUse():
		return l.nothingGiven(doc, again)
	}
	usable := doc.usable()
	if clauses := l.clauses(doc, air); len(clauses) > 0 {
		return lookVerdict{goodBut, "good, but " + joinClauses(clauses)}
	}
	lost := "nothing lost"
	if slices.ContainsFunc(doc.Findings, func(f flightlog.Finding) bool { return f.Severity == flightlog.Loss }) {
		lost = "nothing lost in flight"
	}
	return lookVerdict{good, fmt.Sprintf("good: %s kept, %s of use, %s", counted(doc.kept(), "test point"), counted(usable, "manoeuvre"), lost)}
}

// usable counts the manoeuvres of use.
func (doc lookDocument) usable() (n int) {
	for _, m := range doc.Manoeuvres {
		if m.Usable {
			n++
		}
	}
	return n
}

// kept counts the test points kept.
func (doc lookDocument) kept() (n int) {
	for _, p := range doc.Points {
		if p.Kept {
			n++
		}
	}
	return n
}

// lackingVerdict judges a log without a channel that test points need: one that the map does not name may be in the log.
func (l *look) lackingVerdict(again func(string, ...any) lookVerdict) lookVerdict {
	var unnamed, empty []string
	for _, f := range l.lacking {
		if f.Severity != flightlog.Refusal {
			continue
		}
		_, list, _ := strings.Cut(f.What, "no samples of ")
		for name := range strings.SplitSeq(list, ", ") {
			if l.unmapped(flightlog.Quantity(name)) {
				unnamed = append(unnamed, channelWords(flightlog.Quantity(name)))
			} else {
				empty = append(empty, channelWords(flightlog.Quantity(name)))
			}
		}
	}
	if len(empty) > 0 {
		return again("the log holds no samples of %s", strings.Join(empty, ", "))
	}
	return lookVerdict{goodBut, fmt.Sprintf("good, but no test point can be formed yet: the logger map names no %s; %s", strings.Join(unnamed, ", "), l.mapAdvice())}
}

func (l *look) unmapped(q flightlog.Quantity) bool {
	return !slices.ContainsFunc(l.logger.Columns, func(c flightlog.Column) bool { return c.Is == q })
}

func (l *look) mapAdvice() string {
	if l.guesses != nil {
		return "--suggest drafts the map and says what to complete"
	}
	return fmt.Sprintf("add the column to [logger.%s] in program.toml", l.logger.Name)
}

// blocked is the share of the flight over which the airspeed is lost, with the longest such stretch.
func (l *look) blocked(air airborne) (share, start, end float64, what string) {
	var lost []stretch
	for _, f := range l.reduction.Findings {
		if f.Severity != flightlog.Loss || f.Channel != flightlog.Airspeed || f.Line > 0 {
			continue
		}
		parts := air.during(stretch{f.Start, f.End})
		lost = append(lost, parts...)
		if n := len(parts); n > 0 && parts[n-1].end-parts[0].start > end-start {
			start, end, what = parts[0].start, parts[n-1].end, f.What
		}
	}
	if !(air.seconds > 0) {
		return 0, 0, 0, ""
	}
	seconds := 0.0
	for _, s := range joined(lost) {
		seconds += s.end - s.start
	}
	return seconds / air.seconds, start, end, what
}

// noneUsable says why no manoeuvre can be used.
func noneUsable(list []lookManoeuvre) string {
	if len(list) == 0 {
		return "no manoeuvre was found in it: hold speed, bank, elevator and throttle for ten seconds at a time"
	}
	first := list[0]
	what, _, _ := strings.Cut(first.Detail, " for ")
	if what == "" {
		what = string(first.Kind)
	}
	if len(list) == 1 {
		return fmt.Sprintf("its only manoeuvre, %s at %.0f s, cannot be used: %s", what, first.Start, firstReason(first.Why))
	}
	return fmt.Sprintf("none of its %d manoeuvres can be used, such as %s at %.0f s: %s", len(list), what, first.Start, firstReason(first.Why))
}

// clauses name what is lost, and planned cards of this very flight that it does not fulfil; what matters most first.
func (l *look) clauses(doc lookDocument, air airborne) []string {
	var losses []flightlog.Finding
	for _, f := range doc.Findings {
		if f.Severity == flightlog.Loss && !air.onGround(f) {
			losses = append(losses, f)
		}
	}
	slices.SortStableFunc(losses, func(a, b flightlog.Finding) int {
		switch x, y := harm(a, air), harm(b, air); {
		case x > y:
			return -1
		case x < y:
			return 1
		}
		return 0
	})
	out := dangerClauses(doc)
	if at, cut := l.breaksOff(doc, air); cut {
		out = append(out, fmt.Sprintf("the log breaks off in the air at %.0f s: what was flown after that is not in it", at))
	}
	for _, f := range losses {
		out = append(out, lossWords(f, air))
	}
	for _, c := range doc.Cards {
		if c.Flight != "" && c.ForThisFlight && !c.Fulfilled {
			out = append(out, fmt.Sprintf("card %q is not fulfilled (%s)", c.Card, c.Why))
		}
	}
	return out
}

// dangerClauses tell of a wing that let go first, before anything that was lost.
func dangerClauses(doc lookDocument) []string {
	var out []string
	for _, d := range doc.Dangers {
		out = append(out, fmt.Sprintf("the wing seems to have let go before the foreplane at %.0f s: do not slow it to the stall again before the cause is known", d.Time))
	}
	return out
}

// harm weighs a loss: by how much depends on its channel, and by how much of the flight it takes.
func harm(f flightlog.Finding, air airborne) float64 {
	weight := 1.0
	switch f.Channel {
	case flightlog.Airspeed, "":
		weight = 5
	case flightlog.ForwardAcceleration, flightlog.DownAcceleration, flightlog.Elevator:
		weight = 4
	case flightlog.RollAngle, flightlog.PitchAngle, flightlog.PitchRate, flightlog.RollRate, flightlog.YawRate, flightlog.StaticPressure:
		weight = 3
	case flightlog.Throttle, flightlog.Altitude, flightlog.RightAcceleration, flightlog.Aileron, flightlog.RudderLeft, flightlog.RudderRight:
		weight = 2
	}
	length := math.Max(1, air.end-air.start)
	return weight * (0.05 + math.Min(1, math.Max(0, math.Min(f.End, air.end)-math.Max(f.Start, air.start))/length))
}
