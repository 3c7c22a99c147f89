package quality

import (
	"fmt"
	"math"

	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// effect is what a control does to the angular acceleration or rate about its axis, told apart from what the motion does by itself.
type effect struct {
	perRadian float64 // rad/s² per rad at the usual dynamic pressure; rad/s per rad where it is steady
	sigmas    float64 // over its standard deviation
	moved     float64 // spread of the control, rad
	n         int
}

// reaction is what a control is asked for, and what else is at work about its axis.
type reaction struct {
	control, rate flightlog.Quantity
	beside        flightlog.Quantity // a control that moves along with it and turns the model about the same axis; "" is none
	flow          []float64          // cells of what stands for the flow angle of the axis; nil leaves it out
	coupled       flightlog.Quantity // a rate that couples in
	steady        bool               // the control brings a rate, not an acceleration
}

// responseOf fits ω̇(t) = Σ cₖ·δ(t − k·0.1 s)·(V/V̄)² + Σ dₖ·ζ(t − k·0.1 s)·(V/V̄)² + a·ω + b·f + e·ω' for the control's own rate ω, a control ζ that
// moves along with it, what stands for the flow angle f, and a rate ω' that couples in, all less their means over the second around. Delays up to
// 0.4 s cover command, servo and recorder; Σ cₖ is what the control does, however late.
//
// A pilot who works against disturbances moves the control against the motion, and trims slowly: without ω and f in the fit, and with
// slow changes in it, the sign would come out turned. With one delay that is off by half a period of the pilot's movements it
// would as well. A roll rate is there within a tenth of a second, so that the aileron is fitted to ω itself (steady) instead. Source: equation error, Klein and Morelli, Aircraft System Identification.
func (e *evidence) responseOf(w reaction) (effect, bool) {
	if !e.s.has(w.control, w.rate) {
		return effect{}, false
	}
	turning, terms := e.equationOf(w)
	r := newRegression(len(terms))
	squares := 0.0
	x := make([]float64, len(terms))
	for i := range turning {
		sum := turning[i]
		for k := range terms {
			x[k] = terms[k][i]
			sum += x[k]
		}
		if e.s.flying[i] && !math.IsNaN(sum) {
			r.add(turning[i], x...)
			squares += x[0] * x[0]
		}
	}
	c, sd, _, ok := r.solve()
	if !ok || !(sd > 0) {
		return effect{}, false
	}
	return effect{c[0], c[0] / sd, math.Sqrt(squares / float64(r.n)), r.n}, r.n >= 200
}

// equationOf gives both sides of what responseOf fits.
func (e *evidence) equationOf(w reaction) (turning []float64, terms [][]float64) {
	omega := e.s.values[w.rate]
	terms = lagged(e.pushing(w.control))
	if e.s.has(w.beside) {
		if other := e.pushing(w.beside); e.spreadInAir(other) >= leastMoved { // one that rests explains nothing
			terms = append(terms, lagged(other)...)
		}
	}
	if w.flow != nil {
		terms = append(terms, quickPart(w.flow))
	}
	if e.s.has(w.coupled) {
		terms = append(terms, quickPart(e.s.values[w.coupled]))
	}
	if w.steady {
		return quickPart(omega), terms
	}
	return quickPart(change(omega)), append(terms, quickPart(omega))
}

// clearResponse is how many standard deviations make a sign certain: residuals of neighbouring cells hang together, so that five
// of them are asked for where three would do.
const clearResponse = 5

// leastMoved is the least spread of a control's quick movements, rad, that says anything: a hand trembles by more.
const leastMoved = 0.03 * degree

// controlSigns checks that the aileron rolls right and that the rudders, trailing edge left, yaw left. The elevator's sign hangs on
// where it sits: see InAircraft.
//
// The flow angle of both is the sideslip that bank and yaw rate bring. The right acceleration is no measure of it here: the rudder's own side force
// is in it. A fin makes most of the side force and all of the yawing moment, and a rudder on it pushes at the same place, so that for a given
// side force the rudder changes nothing: what is left of its power is Cn_δr − Cn_β·CY_δr/CY_β, a third of it on an aircraft of the
// literature (Roskam, Appendix B, the Cessna 182 as in package rehearse: −0.0645 + 0.0420), and noise turns that over.
//
// In a sideslip with crossed controls and in turns the aileron moves with the rudder and yaws as well (there a third of what the rudder does), so that
// the rudder is fitted beside it. What a rudder rolls is a fifteenth of what an aileron does, and the aileron needs no company; where
// a mixer moves the two as one, it is still told, and the rudder is not.
func (e *evidence) controlSigns() {
	slip := e.slipping()
	e.controlSign(reaction{control: flightlog.Aileron, rate: flightlog.RollRate, flow: slip, coupled: flightlog.YawRate, steady: true}, 1,
		"right aileron up and left one down must roll the model right")
	if slip == nil {
		return
	}
	for _, q := range []flightlog.Quantity{flightlog.RudderLeft, flightlog.RudderRight} {
		e.controlSign(reaction{control: q, rate: flightlog.YawRate, beside: flightlog.Aileron, flow: slip, coupled: flightlog.RollRate}, -1,
			"a trailing edge that moves left must turn the nose left")
	}
}

func (e *evidence) controlSign(w reaction, sign float64, right string) {
	if e.condemned[w.rate] {
		return
	}
	f, ok := e.responseOf(w)
	if !ok || f.moved < leastMoved || sign*f.sigmas > -clearResponse {
		return
	}
	q := w.control
	e.condemn(q, severityOf(q), fmt.Sprintf("the %s turns the model the wrong way, for where it goes up, the %s changes to the wrong side", plainName(q), plainName(w.rate)),
		lostThroughout(q)+"; "+right+": look at the surface, and set the sign of the column")
	e.correct(q, -1)
}

// quietControls finds controls whose angles are too small for what the model does: radians that were read as degrees.
func (e *evidence) quietControls() {
	// a flight that has several speeds or a turn asks for more elevator and aileron than this (common practice, no source)
	const least = 0.35 * degree
	for _, c := range []struct {
		q, rate flightlog.Quantity
	}{{flightlog.Elevator, flightlog.PitchRate}, {flightlog.Aileron, flightlog.RollRate}} {
		if e.condemned[c.q] || !e.s.has(c.q, c.rate) {
			continue
		}
		travel, rates := e.inFlightOnly(c.q), e.inFlightOnly(c.rate)
		if len(travel) < 200 {
			continue
		}
		moved := statistic.Quantile(travel, 0.99) - statistic.Quantile(travel, 0.01)
		busy := statistic.Quantile(rates, 0.99) - statistic.Quantile(rates, 0.01)
		if !(moved < least) || busy < 10*degree {
			continue
		}
		what := fmt.Sprintf("the %s moves by only %.2g degrees in the whole flight", plainName(c.q), moved/degree)
		if moved > 0 {
			e.condemn(c.q, severityOf(c.q), what, lostThroughout(c.q)+"; the column seems to be in radians, not in degrees")
		} else {
			e.condemn(c.q, severityOf(c.q), what, lostThroughout(c.q)+"; the column is not that of the control")
		}
	}
}

// inFlightOnly is the cells of a channel in the air.
func (e *evidence) inFlightOnly(q flightlog.Quantity) []float64 {
	var out []float64
	for i, v := range e.s.values[q] {
		if e.s.flying[i] && !math.IsNaN(v) {
			out = append(out, v)
		}
	}
	return out
}

// climbByThrottle: more throttle adds energy height, h + V²/2g, or stops it from falling.
func (e *evidence) climbByThrottle() {
	qs, vertical := e.climbs(slow)
	if e.condemned[flightlog.Throttle] || !e.s.has(flightlog.Throttle, flightlog.Airspeed) || len(qs) == 0 {
		return
	}
	throttle, speed := softened(e.mean(flightlog.Throttle, slow)), e.mean(flightlog.Airspeed, slow)
	gain := slopes(speed, slow)
	climb := combined(len(speed), func(b int) float64 { return vertical[0][b] + speed[b]*gain[b]/standardGravity })
	r := relation{least: 0.15}.relate(climb, throttle, e.inAir(slow)) // spread of throttle: glides beside climbs
	if r.n < leastBlocks || r.spreadX < r.least || r.r > -0.5 {
		return
	}
	e.condemn(flightlog.Throttle, flightlog.Refusal, fmt.Sprintf("the model gains energy where the throttle is closed and loses it where it is open (correlation %.2f)", r.r),
		"glides would be taken for powered flight; 0 is idle and 1 is full: turn the calibration of the throttle round")
}
