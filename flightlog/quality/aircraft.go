package quality

import (
	"fmt"
	"math"
	"slices"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// Aircraft is what the crew states about the model that a recording is said to be of. What is zero or nil is not stated, and
// nothing is checked by it, but for ForeplaneElevator, which has no third state. The weight is checked where Mass, WingArea and one of
// AspectRatio and LiftSlope are stated.
type Aircraft struct {
	Mass              float64 // kg, as weighed for the flight
	WingArea          float64 // m², at model size
	AspectRatio       float64 // of the wing, b²/S
	LiftSlope         float64 // 1/rad: trimmed lift slope that theory expects on WingArea
	ForeplaneElevator bool    // the elevator sits on a foreplane: trailing edge down raises the nose; false is an elevator on a tail
	Travel            map[flightlog.Quantity]Travel
}

// Travel is the range of a control, rad. An empty one is not stated.
type Travel struct{ Min, Max float64 }

func (t Travel) stated() bool { return t.Max > t.Min }

// InAircraft looks for what is wrong with a recording when it is said to be of an aircraft: weight against the lift that is carried,
// the sign of the elevator, controls at the ends of their travel. It does not repeat what Inspect finds, and is silent where
// Inspect refuses the recording.
func InAircraft(rec *flightlog.Recording, a Aircraft) []flightlog.Finding {
	e, _ := inspect(rec)
	if e == nil {
		return nil
	}
	return sorted(e.inAircraft(a))
}

// inAircraft is InAircraft after inspect.
func (e *evidence) inAircraft(a Aircraft) []flightlog.Finding {
	before := len(e.found)
	defer func() { e.found = e.found[:before:before] }()
	for _, f := range e.found {
		if f.Severity == flightlog.Refusal && f.Channel != flightlog.Elevator {
			return nil
		}
	}
	e.elevatorSign(a)
	e.weight(a)
	e.travelEnds(a)
	return slices.Clone(e.found[before:])
}

// elevatorSign: trailing edge down on a foreplane must bring nose-up pitch acceleration, on a tail nose-down.
func (e *evidence) elevatorSign(a Aircraft) {
	if e.condemned[flightlog.PitchRate] {
		return
	}
	sign, where, how := -1.0, "a tail", "lower"
	if a.ForeplaneElevator {
		sign, where, how = 1, "a foreplane", "raise"
	}
	// the elevator's own lift is in the down acceleration as well, but what is left for a given lift, Cm_δe − Cm_α·CL_δe/CL_α, is within a tenth of
	// Cm_δe on every aircraft of package rehearse: its arm is many times the static margin
	f, ok := e.responseOf(reaction{control: flightlog.Elevator, rate: flightlog.PitchRate, flow: e.s.values[flightlog.DownAcceleration], coupled: flightlog.RollRate})
	if !ok || f.moved < leastMoved || sign*f.sigmas > -clearResponse {
		return
	}
	e.condemn(flightlog.Elevator, flightlog.Refusal,
		fmt.Sprintf("the elevator pitches the model the wrong way (%+.0f rad/s² for each radian), where on %s trailing edge down must %s the nose", f.perRadian, where, how),
		lostThroughout(flightlog.Elevator)+": trim slopes and neutral point would have the wrong sign; look at the surface, and set the sign of the column")
}

// liftSlopes are the bounds of a trimmed lift slope that an aircraft may have.
//
// Source of the middle: Helmbold's equation for the wing alone, 2πA/(2 + √(A² + 4)) (Anderson, Aircraft Performance and Design, eq. 2.18).
// Derived spread: sweep up to 35° and a small Reynolds number take up to a fifth, and a foreplane's lift on top of the wing's, trimmed,
// adds up to a third. Theory for the very aircraft (a vortex lattice) is good to a tenth, and so is a flight that liftAgainstAlpha
// accepts (rehearsed: 0.86 to 1.13 of the truth).
func (a Aircraft) liftSlopes() (low, high float64, source string) {
	if a.LiftSlope > 0 {
		return 0.84 * a.LiftSlope, 1.2 * a.LiftSlope, "what theory expects of this aircraft"
	}
	wing := 2 * math.Pi * a.AspectRatio / (2 + math.Sqrt(a.AspectRatio*a.AspectRatio+4))
	return 0.78 * wing, 1.36 * wing, fmt.Sprintf("a wing of aspect ratio %.1f and its foreplane", a.AspectRatio)
}

// highestLift is more than a clean model wing and its foreplane carry together in steady flight, on the wing's area: 1.6 of a
// section at small Reynolds numbers and a fifth more for the foreplane's area (common practice, no source).
const highestLift = 1.9

// weight compares mass and airspeed with the lift that is carried: n·m·g/(q·S) against angle of attack must have a slope
// that such a wing has. A wrong mass, wing area or airspeed shows alike.
func (e *evidence) weight(a Aircraft) {
	if !(a.Mass > 0 && a.WingArea > 0) || !(a.AspectRatio > 0 || a.LiftSlope > 0) || e.condemned[flightlog.Airspeed] {
		return
	}
	start, end := overall(e.rec.Channels[flightlog.DownAcceleration])
	s, ok := e.liftAgainstAlpha(a)
	if !ok {
		e.found = append(e.found, flightlog.Finding{Severity: flightlog.Note, Start: start, End: end, What: "the flight holds too little straight flight at different speeds to hold its lift against the weight",
			Consequence: "a wrong weighing, wing area or aircraft would not show in this log; glides from slow to fast show it"})
		return
	}
	low, high, source := a.liftSlopes()
	what := ""
	switch {
	case s.slope < low || s.slope > high:
		word := "little"
		if s.slope > high {
			word = "much"
		}
		what = fmt.Sprintf("with %.4g kg on %.3g m² the lift coefficient rises by %.2f for each radian of angle of attack, too %s for %s (%.2f to %.2f)", a.Mass, a.WingArea, s.slope, word, source, low, high)
	case s.top > highestLift:
		what = fmt.Sprintf("with %.4g kg on %.3g m² the model flies steadily at a lift coefficient of %.2f, which no such wing carries", a.Mass, a.WingArea, s.top)
	default:
		return
	}
	e.found = append(e.found, flightlog.Finding{Severity: flightlog.Refusal, Start: start, End: end, What: what,
		Consequence: "no lift, drag or trim point of this log counts for this aircraft; check that log, " + flightlog.StatedWeight + ", wing area and airspeed are those of this flight"})
}

// liftCurve is a straight line through lift coefficients of a flight.
type liftCurve struct {
	slope float64 // 1/rad
	top   float64 // highest steady lift coefficient
	sd    float64 // of the slope
	n     int
}

// leastPrecise is the largest relative standard deviation of a lift slope that says anything about the aircraft.
const leastPrecise = 0.05

// liftAgainstAlpha fits α = α₀ + C_L/slope over blocks of two seconds with the wings nearly level, without quick pitching and near 1 g:
// in a turn sideslip enters α, and while the path bends the satellite's lag does. The errors sit in α, from vertical air and path,
// so that α is the side which is fitted.
func (e *evidence) liftAgainstAlpha(a Aircraft) (liftCurve, bool) {
	const steadyRate, bank, bump = 0.05, 15 * degree, 0.8 // rad/s; m/s²: a doublet pitches and pulls more
	if !e.s.has(flightlog.Airspeed, flightlog.DownAcceleration, flightlog.PitchAngle) {
		return liftCurve{}, false
	}
	speed, force, ahead := e.mean(flightlog.Airspeed, slow), e.mean(flightlog.DownAcceleration, slow), e.mean(flightlog.ForwardAcceleration, slow)
	alpha, roll, rate := e.incidence(slow), e.mean(flightlog.RollAngle, slow), e.mean(flightlog.PitchRate, slow)
	usual := statistic.Median(finiteOnly(speed))
	var lift, angle []float64
	for b := range speed {
		cl := a.Mass * (-force[b]*math.Cos(alpha[b]) + or(ahead, b, 0)*math.Sin(alpha[b])) / (atmosphere.SeaLevelDensity / 2 * speed[b] * speed[b] * a.WingArea)
		if e.s.inFlight(b, slow) && speed[b] > usual/2 && math.Abs(or(roll, b, 0)) < bank && math.Abs(or(rate, b, 0)-turning(roll, speed, b)) < steadyRate &&
			math.Abs(force[b]+standardGravity/math.Cos(or(roll, b, 0))) < bump && !math.IsNaN(cl+alpha[b]) {
			lift, angle = append(lift, cl), append(angle, alpha[b])
		}
	}
	if len(lift) < leastBlocks {
		return liftCurve{}, false
	}
	// near the stall lift bends over: the highest tenth is left out
	top := statistic.Quantile(lift, 0.97)
	bend := statistic.Quantile(lift, 0.9)
	var x, y []float64
	for i, cl := range lift {
		if cl <= bend {
			x, y = append(x, cl), append(y, angle[i])
		}
	}
	_, perLift, ok := robustLine(x, y)
	if !ok {
		return liftCurve{}, false
	}
	r := relation{}.relate(y, x, func(int) bool { return true })
	c := liftCurve{slope: 1 / perLift, top: top, n: len(x)}
	c.sd = math.Abs(c.slope) * math.Sqrt((1/(r.r*r.r)-1)/float64(len(x)))
	return c, perLift > 0 && c.sd < leastPrecise*c.slope
}

// turning is the pitch rate of a level turn at the bank flown, g·sin φ·tan φ/V.
func turning(roll, speed []float64, b int) float64 {
	phi := or(roll, b, 0)
	return standardGravity * math.Sin(phi) * math.Tan(phi) / speed[b]
}

// linkageSlack and calibrationSlack are how far from its stated end a control may be logged while it is there: play of a linkage, and what
// a careful bench calibration leaves on 20°, a fiftieth (common practice, no source; as package rehearse draws it).
const (
	linkageSlack     = 0.3 * degree
	calibrationSlack = 0.02
)

// atEnd tells whether an angle lies at the end of the travel or beyond it.
func (t Travel) atEnd(v float64) bool {
	slack := linkageSlack + calibrationSlack*math.Max(math.Abs(t.Min), math.Abs(t.Max))
	return v >= t.Max-slack || v <= t.Min+slack
}

// travelEnds finds controls at the ends of the travel that the aircraft states, for a second or more in flight.
func (e *evidence) travelEnds(a Aircraft) {
	for _, q := range flightlog.Quantities() {
		travel := a.Travel[q]
		c := e.rec.Channels[q]
		if !isControl(q) || e.condemned[q] || !travel.stated() {
			continue
		}
		for i := 0; i < len(c.Value); {
			j := i
			for j < len(c.Value) && travel.atEnd(c.Value[j]) && e.s.flyingAt(c.Time[j]) {
				j++
			}
			if j > i && c.Time[j-1]-c.Time[i] >= stopSeconds-e.scans[q].step && !e.told(q, c.Time[i], c.Time[j-1]) {
				e.found = append(e.found, stopFinding(q, c.Value[i], c.Time[i], c.Time[j-1]))
			}
			i = j + 1
		}
	}
}

// told tells whether a finding about a channel lies in a time range already.
func (e *evidence) told(q flightlog.Quantity, from, to float64) bool {
	for _, f := range slices.Concat(e.found, e.stops) {
		if f.Channel == q && f.Start <= to && f.End >= from {
			return true
		}
	}
	return false
}
