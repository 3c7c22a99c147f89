package lattice

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// weights turns a state into the coefficients of the basis states. Rotation is about momentPoint, the
// basis states rotate about the origin: the difference is a stream.
func (s *Solution) weights(state State, momentPoint r3.Vec) []float64 {
	w := make([]float64, len(s.circulation))
	r := s.airframe.Reference
	sinA, cosA := math.Sincos(state.Alpha)
	sinB, cosB := math.Sincos(state.Beta)
	stream := r3.Vec{X: cosA * cosB, Y: -sinB, Z: sinA * cosB}
	s.setStream(w, state, stream)
	addTurn(w, r3.Vec{X: -2 * state.RollRate / r.Span, Y: 2 * state.PitchRate / r.MeanChord, Z: -2 * state.YawRate / r.Span}, momentPoint)
	return w
}

// setStream puts a stream and the controls that turn it into the weights.
func (s *Solution) setStream(w []float64, state State, stream r3.Vec) {
	w[streamX], w[streamY], w[streamZ] = stream.X, stream.Y, stream.Z
	for c, control := range s.controls.controls {
		setControl(w, c, state.Controls[control.name], stream)
	}
}

// setControl puts a deflection in a stream into the weights.
func setControl(w []float64, c int, deflection float64, stream r3.Vec) {
	at := firstControl + 2*c
	w[at], w[at+1] = deflection*stream.X, deflection*stream.Z
}

// addTurn adds a rotation of the aircraft, datum axes, about a point.
func addTurn(w []float64, omega, about r3.Vec) {
	w[turnX] += omega.X
	w[turnY] += omega.Y
	w[turnZ] += omega.Z
	stream := r3.Cross(omega, about) // −ω×(r − r0) = −ω×r + ω×r0
	w[streamX] += stream.X
	w[streamY] += stream.Y
	w[streamZ] += stream.Z
}

// Coefficients returns forces and moments in a state, moments and rotation about momentPoint (datum axes, m).
//
// Lift, side force and moments are near-field, Drag is the far-field induced drag.
func (s *Solution) Coefficients(state State, momentPoint r3.Vec) aero.Coefficients {
	w := s.weights(state, momentPoint)
	c := s.resolve(s.loads.at(w, w), state.Alpha, momentPoint)
	c.Drag = s.farDrag(w, w)
	return c
}

// resolve turns a load into coefficients, without drag.
func (s *Solution) resolve(l load, alpha float64, momentPoint r3.Vec) aero.Coefficients {
	r := s.airframe.Reference
	sin, cos := math.Sincos(alpha)
	moment := r3.Sub(l.moment, r3.Cross(momentPoint, l.force))
	return aero.Coefficients{
		Lift:  (l.force.Z*cos - l.force.X*sin) / r.Area,
		Side:  l.force.Y / r.Area,
		Roll:  -moment.X / (r.Area * r.Span),
		Pitch: moment.Y / (r.Area * r.MeanChord),
		Yaw:   -moment.Z / (r.Area * r.Span),
	}
}

// farDrag is the drag coefficient of the form between two sets of weights.
func (s *Solution) farDrag(v, w []float64) float64 {
	sum := 0.0
	for i := range s.drag {
		for j := range s.drag[i] {
			sum += v[i] * w[j] * s.drag[i][j]
		}
	}
	return sum / s.airframe.Reference.Area
}

// InducedDrag is the far-field induced drag coefficient in a state; rotation is about the origin of
// the datum axes.
//
// Near-field values of the same lattice are lower by a few per cent at swept roots and converge slowly.
func (s *Solution) InducedDrag(state State) float64 {
	w := s.weights(state, r3.Vec{})
	return s.farDrag(w, w)
}

// SpanEfficiency is e in CDi = CL²/(π A e) with far-field lift and drag in a state and the aspect ratio
// A of the reference quantities. It exceeds 1 where winglets or a foreplane above the wing help; without lift it is 0.
//
// Over the ground, far-field lift exceeds that on the surfaces by some per cent, and e with it.
func (s *Solution) SpanEfficiency(state State) float64 {
	return s.SpanEfficiencyAbout(state, r3.Vec{})
}

// SpanEfficiencyAbout is SpanEfficiency with rotation about a point of the caller's.
func (s *Solution) SpanEfficiencyAbout(state State, momentPoint r3.Vec) float64 {
	w := s.weights(state, momentPoint)
	lift, drag := s.farLiftOf(w), s.farDrag(w, w)
	if lift == 0 {
		return 0
	}
	return lift * lift / (math.Pi * s.airframe.Reference.AspectRatio() * drag)
}

// farFieldLift is the lift coefficient from the trace of the wake.
func (s *Solution) farFieldLift(state State) float64 { return s.farLiftOf(s.weights(state, r3.Vec{})) }

func (s *Solution) farLiftOf(w []float64) float64 {
	sum := 0.0
	for i, k := range w {
		sum += k * s.farLift[i]
	}
	return sum / s.airframe.Reference.Area
}
