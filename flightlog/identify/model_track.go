package identify

import (
	"math"

	"wingproof/aero/atmosphere"
	"wingproof/aero/stability"
	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// longestStep is the longest step of the integration, s: a quarter of the shortest rolling time constant of a model, 0.05 s, of which the
// Runge–Kutta rule leaves out (1/4)⁵/120, a hundred-thousandth. Three steps a sample at 25 samples a second.
const longestStep = 0.0134

// track is one segment made ready for a model: inputs on the grid of integration, outputs on that of the log.
type track struct {
	segment *Segment
	plant   plant
	samples int
	parts   int     // steps of integration between two samples
	step    float64 // of integration, s

	inputs   []instant
	middles  []instant            // inputs in the middle of each step
	fine     int                  // steps in which servos are followed, of one of integration
	measured []float64            // samples × outputs
	readings [mostOutputs]float64 // s between the readings of each output; 0 is one at each sample

	controls []control
	placed   []float64 // what the surfaces were placed by: the times of edges and the delays of servos
	edges    []edge
	moved    []movement // what each edge does to its surface
	lag      []movement // what a later servo does, for each surface whose servo is not known
	scratch  scratch

	own, mean, sd []float64 // the segment's own parameters and what was known of them beforehand; an sd of 0 is nothing
}

// surfacesOf lists the controls of an axis in the order of the inputs.
func surfacesOf(axis Axis) []flightlog.Quantity {
	if axis == Longitudinal {
		return []flightlog.Quantity{flightlog.Elevator}
	}
	return []flightlog.Quantity{flightlog.Aileron, flightlog.RudderLeft}
}

// newTrack prepares a checked segment.
func newTrack(s *Segment, l *layout, setup *Setup, e shifted) *track {
	s = s.turned(e.mounting)
	t := &track{segment: s, samples: len(s.PitchRate), parts: max(1, int(math.Ceil(s.Step/longestStep)))}
	t.step = s.Step / float64(t.parts)
	t.inputs = make([]instant, (t.samples-1)*t.parts+1)
	t.middles = make([]instant, len(t.inputs)-1)
	t.fine = max(1, int(math.Ceil(t.step/finestServo)))
	for _, control := range surfacesOf(l.axis) {
		t.addControl(control, setup, &e)
	}
	speed := make([]float64, t.samples)
	for k, v := range s.Airspeed {
		speed[k] = v * e.speedFactor()
	}
	if l.axis == Longitudinal {
		t.addLongitudinal(speed)
	} else {
		t.addLateral(speed)
	}
	t.plant = newPlant(s, l.axis, setup, &e)
	return t
}

// newPlant gives the motion of a segment its constants.
func newPlant(s *Segment, axis Axis, setup *Setup, e *shifted) plant {
	body, force, x, z := e.constants(s, setup)
	if axis == Longitudinal {
		return &longitudinal{
			body: body, force: force, chord: setup.Reference.MeanChord, x: x, z: z,
			alpha: mean(s.Alpha), elevator: mean(s.Elevator),
		}
	}
	return &lateral{
		body: body, force: force, span: setup.Reference.Span, x: x, z: z,
		aileron: mean(s.Aileron), rudder: mean(s.Rudder),
	}
}

// shifted are the shared figures with what may be put onto them, the lag of servos included.
type shifted struct {
	reported
	slow map[flightlog.Quantity]float64 // s of further lag
}

// speedFactor is on the true airspeed: a tube feels ½ρV², so that air reported denser is air reported slower.
func (e *shifted) speedFactor() float64 { return e.airspeed / math.Sqrt(e.density) }

// constants of the motion of a segment.
func (e *shifted) constants(s *Segment, setup *Setup) (b stability.Body, force, x, z float64) {
	b = s.Body
	b.Mass *= e.mass
	b.Ix, b.Iy, b.Iz = b.Ix*e.inertiaX, b.Iy*e.inertiaY, b.Iz*e.inertiaZ
	force = 0.5 * s.Density * e.density * setup.Reference.Area / b.Mass
	return b, force, setup.MomentX - s.CGX - e.cg, setup.MomentZ - s.CGZ
}

// addLongitudinal fills inputs and outputs of the longitudinal motion.
func (t *track) addLongitudinal(speed []float64) {
	s := t.segment
	t.spread(inRollRate, s.RollRate)
	t.spread(inYawRate, s.YawRate)
	t.spread(inSinRoll, mapped(s.Roll, math.Sin))
	t.spread(inCosRoll, mapped(s.Roll, math.Cos))
	t.spreadAs(mapped(s.Beta, math.Tan), func(in *instant, tan float64) { in[inFactor] = math.Sqrt(1 + tan*tan) })
	_, side, _ := s.path(speed)
	t.spread(inSide, side)
	t.spread(inAcceleration, s.ForwardForce)
	t.measure(s.PitchRate, s.DownForce, s.Pitch, speed)
	t.readings = [mostOutputs]float64{2: s.AttitudeStep, 3: s.AirspeedStep}
}

// addLateral fills inputs and outputs of the lateral motion.
func (t *track) addLateral(speed []float64) {
	s := t.segment
	t.spread(inAirspeed, steadied(speed, s.Step))
	forward, _, down := s.path(speed)
	t.spread(inForward, forward)
	t.spread(inDown, down)
	t.spread(inPitchRate, s.PitchRate)
	t.spreadAs(s.Pitch, func(in *instant, pitch float64) {
		sin, cos := math.Sincos(pitch)
		in[inWeight], in[inTanPitch] = atmosphere.Gravity*cos, sin/cos
	})
	t.measure(s.RollRate, s.YawRate, s.RightForce, s.Roll)
	t.readings = [mostOutputs]float64{3: s.AttitudeStep}
}

// spread puts a channel onto the grid of integration, straight between samples.
func (t *track) spread(input int, values []float64) {
	t.spreadAs(values, func(in *instant, v float64) { in[input] = v })
}

// spreadAs puts what a motion needs of a channel onto the grid of integration and into the middle of its steps, the channel itself being straight
// between samples. Only surfaces move while a fit goes on, so that this need not be done for each step of each integration.
func (t *track) spreadAs(values []float64, put func(in *instant, v float64)) {
	before := 0.0
	for k := range t.inputs {
		v := between(values, float64(k)/float64(t.parts))
		put(&t.inputs[k], v)
		if k > 0 {
			put(&t.middles[k-1], 0.5*(before+v))
		}
		before = v
	}
}

func (t *track) measure(channels ...[]float64) {
	t.measured = make([]float64, 0, t.samples*len(channels))
	for k := range t.samples {
		for _, c := range channels {
			t.measured = append(t.measured, c[k])
		}
	}
}

// read tells whether an output has a reading of its own at a sample, of every n-th of them.
func (t *track) read(output, sample, every int) bool {
	const onTime = 1e-3 // of a sample: rounding
	between := t.readings[output] / t.segment.Step
	if !(between > float64(every)) || sample == 0 {
		return true
	}
	number := func(k int) float64 { return math.Floor((float64(k) + onTime) / between) }
	return number(sample) > number(sample-every)
}

// between reads a slice at a fractional index, the last value beyond its end.
func between(values []float64, at float64) float64 {
	i := int(at)
	if i+1 >= len(values) {
		return values[len(values)-1]
	}
	share := at - float64(i)
	return values[i]*(1-share) + values[i+1]*share
}

// steadyTime is the window over which airspeed as an input is smoothed, s: noise of a tube lies above it, gusts and the motion below.
// Common practice, no source.
const steadyTime = 0.5

// steadied is the middle of the parabola through each sample's neighbourhood, which shrinks towards the ends so that it stays centred.
//
// Source: Savitzky and Golay, Analytical Chemistry 36, 1964: quadratic smoothing weights (from memory).
func steadied(values []float64, step float64) []float64 {
	half := int(math.Round(steadyTime / 2 / step))
	out := make([]float64, len(values))
	for i := range values {
		reach := min(half, i, len(values)-1-i)
		m := float64(reach)
		for k := -reach; k <= reach; k++ {
			weight := 3 * (3*m*m + 3*m - 1 - 5*float64(k*k)) / ((2*m - 1) * (2*m + 1) * (2*m + 3))
			out[i] += weight * values[i+k]
		}
	}
	return out
}

func mapped(values []float64, f func(float64) float64) []float64 {
	out := make([]float64, len(values))
	for i, v := range values {
		out[i] = f(v)
	}
	return out
}

func mean(values []float64) float64 {
	sum := 0.0
	for _, v := range values {
		sum += v
	}
	return sum / float64(len(values))
}

// finite tells whether all states are numbers.
func (x *state) finite() bool { return statistic.Finite(x[:]...) }
