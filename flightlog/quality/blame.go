package quality

import (
	"fmt"
	"math"

	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// blame finds the channels that the relations speak against: wrong signs, wrong units, strangers.
func (e *evidence) blame(relations []relation) {
	e.blameSigns(relations)
	e.blameUnits(relations)
	e.strangers(relations)
}

// blameSigns finds the fewest channels whose turned sign explains every relation that runs the wrong way: the channel with
// most contradictions over agreements is turned, until none is left. Where two channels have only one another as
// witness, the first of suspects is named and the finding says that it may be the other.
func (e *evidence) blameSigns(relations []relation) {
	for range flightlog.Quantities() { // each round turns one channel
		var best flightlog.Quantity
		bestScore, bestWith := 0, flightlog.Quantity("")
		var worst relation
		for _, q := range suspects() {
			score, with, strongest, ok := contradictions(q, relations)
			if ok && score > bestScore {
				best, bestScore, bestWith, worst = q, score, with, strongest
			}
		}
		if bestScore <= 0 {
			return
		}
		e.signFinding(best, bestWith, worst)
		e.correct(best, -1)
		for i := range relations {
			if relations[i].a == best || relations[i].b == best {
				relations[i].r = -relations[i].r
			}
		}
	}
}

// contradictions counts what speaks against a channel's sign, less what speaks for it. with is the other channel when it
// is the only one that speaks against it.
func contradictions(q flightlog.Quantity, relations []relation) (score int, with flightlog.Quantity, strongest relation, ok bool) {
	against := 0
	for _, r := range relations {
		if (r.a != q && r.b != q) || !r.speaks() {
			continue
		}
		if r.r > 0 {
			score--
			continue
		}
		score++
		against++
		other := r.a
		if other == q {
			other = r.b
		}
		with = other
		if math.Abs(r.r) > math.Abs(strongest.r) {
			strongest = r
		}
	}
	if against != 1 {
		with = ""
	}
	return score, with, strongest, against > 0
}

// suspects are the channels in the order in which they are named where the evidence is even: what a map gets wrong most
// easily comes first.
func suspects() []flightlog.Quantity {
	return []flightlog.Quantity{
		flightlog.PitchRate, flightlog.RollRate, flightlog.YawRate, flightlog.ForwardAcceleration, flightlog.ClimbRate, flightlog.Altitude,
		flightlog.RollAngle, flightlog.PitchAngle, flightlog.Heading, flightlog.GroundTrack, flightlog.StaticPressure,
	}
}

// severityOf tells what a channel that is wrong throughout costs: the recording where no test point can do without it, else
// what the channel feeds.
func severityOf(q flightlog.Quantity) flightlog.Severity {
	switch q {
	case flightlog.Airspeed, flightlog.ForwardAcceleration, flightlog.DownAcceleration, flightlog.PitchAngle, flightlog.RollAngle, flightlog.PitchRate,
		flightlog.StaticPressure, flightlog.Altitude, flightlog.Elevator, flightlog.Throttle:
		return flightlog.Refusal
	}
	return flightlog.Loss
}

func (e *evidence) signFinding(q, with flightlog.Quantity, r relation) {
	first, second := r.saysA, r.saysB
	if r.b == q {
		first, second = second, first
	}
	verdict := fmt.Sprintf("the %s has the wrong sign", plainName(q))
	if with != "" && !e.condemned[with] {
		verdict = fmt.Sprintf("one of the two has the wrong sign, most likely the %s", plainName(q))
	}
	e.condemn(q, severityOf(q), fmt.Sprintf("the %s runs against the %s (correlation %.2f), so that %s", first, second, r.r, verdict),
		lostThroughout(q)+"; "+handCheck(q))
}

// handCheck is what to do with the model in the hand.
func handCheck(q flightlog.Quantity) string {
	switch q {
	case flightlog.RollRate, flightlog.RollAngle:
		return "roll the model to the right by hand: roll angle and roll rate must both rise; set the sign of the one that falls"
	case flightlog.PitchRate, flightlog.PitchAngle:
		return "raise the nose of the model by hand: pitch angle and pitch rate must both rise; set the sign of the one that falls"
	case flightlog.YawRate, flightlog.Heading:
		return "turn the nose of the model to the right by hand: yaw rate and heading must both rise; set the sign of the one that falls"
	case flightlog.GroundTrack:
		return "the ground track counts clockwise from north: walk a right turn with the model, and set its sign"
	case flightlog.ForwardAcceleration:
		return "raise the nose of the model at rest: pitch angle and forward acceleration must both rise; set the sign of the one that falls"
	case flightlog.RightAcceleration:
		return "lower the right wing of the model at rest: the right acceleration must fall; set its sign"
	case flightlog.Altitude, flightlog.StaticPressure, flightlog.ClimbRate:
		return "carry the model upstairs: altitude and climb rate count up, static pressure falls; set the sign of the one that does not"
	}
	return "set its sign in the logger map"
}

// blameUnits does for factors what blameSigns does for signs.
func (e *evidence) blameUnits(relations []relation) {
	for range flightlog.Quantities() {
		var best flightlog.Quantity
		bestScore, bestFactor, bestWith := 0, 1.0, flightlog.Quantity("")
		var worst relation
		for _, q := range suspects() {
			score, factor, with, largest := misfits(q, relations)
			if score > bestScore {
				best, bestScore, bestFactor, bestWith, worst = q, score, factor, with, largest
			}
		}
		if bestScore <= 0 {
			return
		}
		e.unitFinding(best, bestWith, bestFactor, worst)
		e.correct(best, 1/bestFactor)
		for i := range relations {
			switch best {
			case relations[i].a:
				relations[i].gain /= bestFactor
			case relations[i].b:
				relations[i].gain *= bestFactor
			}
		}
	}
}

// misfits counts relations that ask for another size of a channel, less those that are content with it; factor is how many times
// too large it is.
func misfits(q flightlog.Quantity, relations []relation) (score int, factor float64, with flightlog.Quantity, largest relation) {
	var factors []float64
	for _, r := range relations {
		if (r.a != q && r.b != q) || r.tolerance == 0 || r.n < leastBlocks || math.Abs(r.r) < clearGain || !(r.gain > 0) {
			continue
		}
		if math.Abs(math.Log(r.gain)) < math.Log(r.tolerance) {
			score--
			continue
		}
		score++
		largest = r
		if r.a == q {
			factors, with = append(factors, r.gain), r.b
		} else {
			factors, with = append(factors, 1/r.gain), r.a
		}
	}
	if len(factors) != 1 {
		with = ""
	}
	return score, statistic.Median(factors), with, largest
}

func (e *evidence) unitFinding(q, with flightlog.Quantity, factor float64, r relation) {
	says, other := r.saysA, r.saysB
	if r.b == q {
		says, other = other, says
	}
	verdict := unitHint(q, factor)
	if verdict == "" {
		verdict = "check its unit and scale"
	}
	if with != "" && !e.condemned[with] {
		verdict = fmt.Sprintf("one of the two has the wrong unit; if it is the %s, %s", plainName(q), verdict)
	}
	e.condemn(q, severityOf(q), fmt.Sprintf("the %s is %.3g times the %s", says, factor, other), lostThroughout(q)+"; "+verdict)
}

// unitHint names the mix-up of units that makes a channel a factor too large; empty when none does.
func unitHint(q flightlog.Quantity, factor float64) string {
	type mixUp struct {
		factor      float64
		is, written string
	}
	var known []mixUp
	switch q.Dimension() {
	case "angle":
		known = []mixUp{{1 / degree, "degrees", "radians"}}
	case "angular rate":
		known = []mixUp{{1 / degree, "degrees a second", "radians a second"}}
	case "acceleration":
		known = []mixUp{{standardGravity, "m/s²", "g"}, {1 / 0.3048, "ft/s²", "m/s²"}}
	case "length":
		known = []mixUp{{1 / 0.3048, "ft", "m"}}
	case "speed":
		known = []mixUp{{3.6, "km/h", "m/s"}, {3600 / 1852.0, "kt", "m/s"}, {1 / 0.3048, "ft/s", "m/s"}, {1.852, "km/h", "kt"}, {3600 / 1609.344, "mph", "m/s"},
			{1.609344, "km/h", "mph"}, {1.15078, "mph", "kt"}, {60 / 0.3048, "ft/min", "m/s"}, {60, "m/min", "m/s"}}
	}
	for _, m := range known {
		switch away := math.Log(factor) / math.Log(m.factor); {
		case math.Abs(math.Log(factor)-math.Log(m.factor)) < 0.08:
			return fmt.Sprintf("the column seems to be in %s, not in %s", m.is, m.written)
		case away < 0 && math.Abs(math.Log(factor)+math.Log(m.factor)) < 0.08:
			return fmt.Sprintf("the column seems to be in %s, not in %s", m.written, m.is)
		}
	}
	return ""
}
