package stability

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"wingproof/aero"
)

// flatten lists every number of a set in a fixed order.
func flatten(d aero.Derivatives) []float64 {
	out := []float64{d.MomentPoint, d.MomentZ}
	for _, c := range []aero.Coefficients{d.At, d.ByAlpha, d.ByBeta, d.ByRollRate, d.ByPitchRate, d.ByYawRate,
		d.ByControl["elevator"], d.ByControl["aileron"], d.ByControl["rudder"]} {
		out = append(out, c.Lift, c.Drag, c.Side, c.Roll, c.Pitch, c.Yaw)
	}
	return out
}

func TestMovedThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := foreplane()
		d.Alpha = rapid.Float64Range(-0.1, 0.3).Draw(t, "alpha")
		x := rapid.Float64Range(2, 6).Draw(t, "x")
		z := rapid.Float64Range(-0.5, 0.5).Draw(t, "z")
		there := Moved(d, x, z)
		require.InDeltaSlice(t, flatten(d), flatten(Moved(there, d.MomentPoint, d.MomentZ)), 1e-11)
		require.InDeltaSlice(t, flatten(Moved(d, 4, 0.2)), flatten(Moved(there, 4, 0.2)), 1e-11, "the way does not matter")
	})
}

// element is one piece of a toy aircraft: a plate at a place with a lift slope, a side-force slope and drag.
type element struct {
	at                r3.Vec // datum axes
	lift, side, drag  float64
	incidence, toe    float64
	elevatorSetsAngle float64
}

func toy() []element {
	return []element{
		{at: r3.Vec{X: 0.5, Y: 0.9, Z: 0.25}, lift: 0.4, drag: 0.004, incidence: 0.03, elevatorSetsAngle: 0.5},
		{at: r3.Vec{X: 0.5, Y: -0.9, Z: 0.25}, lift: 0.4, drag: 0.004, incidence: 0.03, elevatorSetsAngle: 0.5},
		{at: r3.Vec{X: 4.4, Y: 2.0}, lift: 1.9, drag: 0.010, incidence: 0.01},
		{at: r3.Vec{X: 4.4, Y: -2.0}, lift: 1.9, drag: 0.010, incidence: 0.01},
		{at: r3.Vec{X: 6, Y: 4.3, Z: 0.6}, side: 0.3, toe: 0.02},
		{at: r3.Vec{X: 6, Y: -4.3, Z: 0.6}, side: 0.3, toe: -0.02},
	}
}

// flow gives the coefficients of the toy about a point for a motion of that point: the force of each element is
// quadratic in its own local velocity, so moment point and rotation centre matter as on a real aircraft.
func flow(ref aero.Reference, point r3.Vec, alpha, beta, p, q, r, elevator float64) aero.Coefficients {
	v := r3.Vec{X: math.Cos(alpha) * math.Cos(beta), Y: math.Sin(beta), Z: math.Sin(alpha) * math.Cos(beta)} // body axes, V = 1
	rate := r3.Vec{X: p * 2 / ref.Span, Y: q * 2 / ref.MeanChord, Z: r * 2 / ref.Span}
	var force, moment r3.Vec
	for _, e := range toy() {
		arm := r3.Vec{X: point.X - e.at.X, Y: e.at.Y - point.Y, Z: point.Z - e.at.Z}
		local := r3.Add(v, r3.Cross(rate, arm))
		f := r3.Vec{
			X: -e.drag*local.X*r3.Norm(local) + e.lift*local.Z*(local.Z+(e.incidence+elevator*e.elevatorSetsAngle)*local.X),
			Y: -e.side * local.X * (local.Y + e.toe*local.X),
			Z: -e.lift * local.X * (local.Z + (e.incidence+elevator*e.elevatorSetsAngle)*local.X),
		}
		force = r3.Add(force, f)
		moment = r3.Add(moment, r3.Cross(arm, f))
	}
	sin, cos := math.Sincos(alpha)
	return aero.Coefficients{
		Lift: force.X*sin - force.Z*cos, Drag: -force.X*cos - force.Z*sin, Side: force.Y,
		Roll: moment.X / ref.Span, Pitch: moment.Y / ref.MeanChord, Yaw: moment.Z / ref.Span,
	}
}

// differentiate takes the toy's derivatives about a point by central differences.
func differentiate(ref aero.Reference, x, z, alpha float64) aero.Derivatives {
	point := r3.Vec{X: x, Z: z}
	const h = 1e-4
	diff := func(f func(h float64) aero.Coefficients) aero.Coefficients {
		return f(h).Plus(f(-h).Times(-1)).Times(1 / (2 * h))
	}
	return aero.Derivatives{
		Reference: ref, MomentPoint: x, MomentZ: z, Alpha: alpha,
		At:          flow(ref, point, alpha, 0, 0, 0, 0, 0),
		ByAlpha:     diff(func(h float64) aero.Coefficients { return flow(ref, point, alpha+h, 0, 0, 0, 0, 0) }),
		ByBeta:      diff(func(h float64) aero.Coefficients { return flow(ref, point, alpha, h, 0, 0, 0, 0) }),
		ByRollRate:  diff(func(h float64) aero.Coefficients { return flow(ref, point, alpha, 0, h, 0, 0, 0) }),
		ByPitchRate: diff(func(h float64) aero.Coefficients { return flow(ref, point, alpha, 0, 0, h, 0, 0) }),
		ByYawRate:   diff(func(h float64) aero.Coefficients { return flow(ref, point, alpha, 0, 0, 0, h, 0) }),
		ByControl: map[string]aero.Coefficients{
			"elevator": diff(func(h float64) aero.Coefficients { return flow(ref, point, alpha, 0, 0, 0, 0, h) }),
		},
	}
}

// Two roads to the derivatives about a second point: moved there, or differentiated there afresh.
func TestMovedAgainstToyAircraft(t *testing.T) {
	ref := aero.Reference{Area: 1, Span: 8.6, MeanChord: 1.7}
	for _, alpha := range []float64{0, 0.08, 0.2} {
		from := differentiate(ref, 3.9, 0.05, alpha)
		want := differentiate(ref, 3.5, -0.15, alpha)
		require.InDeltaSlice(t, flatten(want), flatten(Moved(from, 3.5, -0.15)), 1e-6)
	}
}

// One degree of elevator on the foreplane of the toy raises the nose.
func TestElevatorRaisesTheNose(t *testing.T) {
	d := differentiate(aero.Reference{Area: 1, Span: 8.6, MeanChord: 1.7}, 3.6, 0, 0.05)
	require.Positive(t, d.ByControl["elevator"].Pitch)
}

// turnBodyAxes writes lateral derivatives and inertias in body axes turned nose up by an angle.
func turnBodyAxes(d aero.Derivatives, b Body, angle float64) (aero.Derivatives, Body) {
	s, c := math.Sincos(angle)
	moments := func(k aero.Coefficients) aero.Coefficients {
		k.Roll, k.Yaw = k.Roll*c-k.Yaw*s, k.Roll*s+k.Yaw*c
		return k
	}
	p, r := moments(d.ByRollRate), moments(d.ByYawRate)
	d.ByBeta = moments(d.ByBeta)
	d.ByRollRate = p.Times(c).Plus(r.Times(-s))
	d.ByYawRate = p.Times(s).Plus(r.Times(c))
	d.Alpha += angle
	ix, iz, ixz := b.Ix, b.Iz, b.Ixz
	b.Ix = ix*c*c + 2*ixz*s*c + iz*s*s
	b.Iz = ix*s*s - 2*ixz*s*c + iz*c*c
	b.Ixz = (iz-ix)*s*c + ixz*(c*c-s*s)
	return d, b
}
