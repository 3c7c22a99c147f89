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

// responseOf fits ω̇(t) = Σ cₖ·δ(t − k·0.1 s)·(V/V̄)² + a·ω + b·f + d·ω' for the control's own rate ω, the specific force f that stands for
// the flow angle of its axis, and a rate ω' that couples in, all less their means over the second around. Delays up to 0.4 s cover
// command, servo and recorder; Σ cₖ is what the control does, however late.
//
// A pilot who works against disturbances moves the control against the motion, and trims slowly: without ω and f in the fit, and with
// slow changes in it, the sign would come out turned. With one delay that is off by half a period of the pilot's movements it
// would as well. A roll rate is there within a tenth of a second, so that the aileron is fitted to ω itself (steady) instead. Source: equation error, Klein and Morelli, Aircraft System Identification.
func (e *evidence) responseOf(control, rate, force, other flightlog.Quantity, steady bool) (effect, bool) {
	if !e.s.has(control, rate) {
		return effect{}, false
	}
	const late = 4 // cells
	omega := e.s.values[rate]
	delta, own, across, coupled := e.pushing(control), quickPart(omega), e.quickOrTrace(force, 2), e.quickOrTrace(other, 3)
	turning := missing(e.s.n)
	for i := 1; i+1 < e.s.n; i++ {
		turning[i] = (omega[i+1] - omega[i-1]) / (2 * cell)
	}
	turning = quickPart(turning)
	if steady {
		turning, own = own, e.quickOrTrace("", 5)
	}
	r := newRegression(late + 4)
	squares := 0.0
	var x [late + 4]float64
	for i := late; i < e.s.n; i++ {
		oldest := delta[i-late]
		sum := oldest + turning[i]
		x[0] = oldest // its coefficient is the sum, since the others are differences from it
		for k := range late {
			x[1+k] = delta[i-k] - oldest
			sum += x[1+k]
		}
		x[late+1], x[late+2], x[late+3] = own[i], across[i], coupled[i]
		if !e.s.flying[i] || math.IsNaN(sum+own[i]+across[i]+coupled[i]) {
			continue
		}
		r.add(turning[i], x[:]...)
		squares += oldest * oldest
	}
	c, sd, _, ok := r.solve()
	if !ok || !(sd > 0) {
		return effect{}, false
	}
	return effect{c[0], c[0] / sd, math.Sqrt(squares / float64(r.n)), r.n}, r.n >= 200
}

// pushing is what a control's quick movements push with: the angle times the dynamic pressure over its usual value.
func (e *evidence) pushing(control flightlog.Quantity) []float64 {
	out := quickPart(e.s.values[control])
	const k = 5 // cells: airspeed changes slowly against a control
	speed := e.speed(k)
	var inAir []float64
	for b, v := range speed {
		if e.s.inFlight(b, k) && !math.IsNaN(v) {
			inAir = append(inAir, v)
		}
	}
	usual := statistic.Median(inAir)
	if !(usual > 0) {
		return out
	}
	for i := range out {
		if v := speed[min(i/k, len(speed)-1)]; !math.IsNaN(v) {
			out[i] *= math.Max(0.2, math.Min(5, v*v/(usual*usual)))
		}
	}
	return out
}

// quickOrTrace is the quick part of a channel, or a trace that keeps its absence from making equations singular.
func (e *evidence) quickOrTrace(q flightlog.Quantity, period int) []float64 {
	if v := e.s.values[q]; v != nil {
		return quickPart(v)
	}
	out := make([]float64, e.s.n)
	for i := range out {
		out[i] = 1e-6 * float64(i%period)
	}
	return out
}

// quickPart is a series less its mean over half a second on either side.
func quickPart(v []float64) []float64 {
	const side = 5 // cells
	out := missing(len(v))
	sum, bad := 0.0, 0
	add := func(x, sign float64) {
		if math.IsNaN(x) {
			bad += int(sign)
			return
		}
		sum += sign * x
	}
	for i := range v {
		add(v[i], 1)
		if i >= 2*side+1 {
			add(v[i-2*side-1], -1)
		}
		if m := i - side; i >= 2*side && bad == 0 {
			out[m] = v[m] - sum/(2*side+1)
		}
	}
	return out
}

// clearResponse is how many standard deviations make a sign certain: residuals of neighbouring cells hang together, so that five
// of them are asked for where three would do.
const clearResponse = 5

// leastMoved is the least spread of a control's quick movements, rad, that says anything: a hand trembles by more.
const leastMoved = 0.03 * degree

// controlSigns checks that the aileron rolls right and that the rudders, trailing edge left, yaw left. The elevator's sign hangs on
// where it sits: see InAircraft.
func (e *evidence) controlSigns() {
	e.controlSign(flightlog.Aileron, flightlog.RollRate, flightlog.RightAcceleration, flightlog.YawRate, 1, "right aileron up and left one down must roll the model right")
	for _, q := range []flightlog.Quantity{flightlog.RudderLeft, flightlog.RudderRight} {
		e.controlSign(q, flightlog.YawRate, flightlog.RightAcceleration, flightlog.RollRate, -1, "a trailing edge that moves left must turn the nose left")
	}
}

func (e *evidence) controlSign(q, rate, force, other flightlog.Quantity, sign float64, right string) {
	if e.condemned[rate] {
		return
	}
	f, ok := e.responseOf(q, rate, force, other, q == flightlog.Aileron)
	if !ok || f.moved < leastMoved || sign*f.sigmas > -clearResponse {
		return
	}
	e.condemn(q, severityOf(q), fmt.Sprintf("the %s turns the model the wrong way, for where it goes up, the %s changes to the wrong side", plainName(q), plainName(rate)),
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
