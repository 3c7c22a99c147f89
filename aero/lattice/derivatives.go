package lattice

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// Derivatives returns the linear model about a state, moments and rotation about momentPoint (datum axes, m).
//
// All are exact derivatives of Coefficients. At holds the coefficients in the state with neutral
// controls, as aero.Derivatives asks; the derivatives belong to the state with its controls.
func (s *Solution) Derivatives(state State, momentPoint r3.Vec) aero.Derivatives {
	w := s.weights(state, momentPoint)
	neutral := state
	neutral.Controls = nil
	d := aero.Derivatives{
		Reference: s.airframe.Reference, MomentPoint: momentPoint.X, MomentZ: momentPoint.Z, Alpha: state.Alpha,
		At:        s.Coefficients(neutral, momentPoint),
		ByControl: make(map[string]aero.Coefficients, len(s.controls.controls)),
	}
	by := func(change func(w []float64)) aero.Coefficients {
		step := make([]float64, len(w))
		change(step)
		c := s.resolve(s.loads.at(w, step).times(2), state.Alpha, momentPoint)
		c.Drag = 2 * s.farDrag(w, step)
		return c
	}
	r := s.airframe.Reference
	turn := func(omega r3.Vec) aero.Coefficients {
		return by(func(step []float64) { addTurn(step, omega, momentPoint) })
	}
	d.ByRollRate = turn(r3.Vec{X: -2 / r.Span})
	d.ByPitchRate = turn(r3.Vec{Y: 2 / r.MeanChord})
	d.ByYawRate = turn(r3.Vec{Z: -2 / r.Span})
	sinA, cosA := math.Sincos(state.Alpha)
	sinB, cosB := math.Sincos(state.Beta)
	d.ByBeta = by(func(step []float64) {
		s.setStream(step, state, r3.Vec{X: -cosA * sinB, Y: -cosB, Z: -sinA * sinB})
	})
	d.ByAlpha = by(func(step []float64) {
		s.setStream(step, state, r3.Vec{X: -sinA * cosB, Z: cosA * cosB})
	})
	l := s.loads.at(w, w) // the lift axis turns with alpha
	d.ByAlpha.Lift -= (l.force.Z*sinA + l.force.X*cosA) / r.Area
	for c, control := range s.controls.controls {
		d.ByControl[control.name] = by(func(step []float64) {
			setControl(step, c, 1, r3.Vec{X: cosA * cosB, Y: -sinB, Z: sinA * cosB})
		})
	}
	return d
}

// NeutralPoint is the x, m aft of datum, about which the pitching moment does not change with angle of
// attack at fixed controls, seen from the quarter point of the mean aerodynamic chord at z = 0.
func (s *Solution) NeutralPoint(state State) float64 {
	r := s.airframe.Reference
	return s.NeutralPointAbout(state, r3.Vec{X: r.MeanChordLeadingEdge + 0.25*r.MeanChord})
}

// NeutralPointAbout is NeutralPoint seen from a moment point of the caller's:
// x_NP = x − c·Cm_α/CL_α. The height of the point matters a little where the forces along x change with angle of attack.
func (s *Solution) NeutralPointAbout(state State, momentPoint r3.Vec) float64 {
	d := s.Derivatives(state, momentPoint)
	return momentPoint.X - d.Reference.MeanChord*d.ByAlpha.Pitch/d.ByAlpha.Lift
}
