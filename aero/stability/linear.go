package stability

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"

	"wingproof/aero"
	"wingproof/aero/atmosphere"
)

// Body is the rigid aircraft about its CG in body axes.
type Body struct {
	Mass            float64 // kg
	Ix, Iy, Iz, Ixz float64 // kg·m²; Ixz is the product of inertia ∫ x·z dm, which enters [Ix −Ixz; −Ixz Iz]
}

// Condition is steady level flight in still air.
type Condition struct {
	Density float64 // kg/m³
	Speed   float64 // true airspeed, m/s
	Gravity float64 // m/s²; 0 means standard gravity

	// AlphaRate holds derivatives per α̇c/2V (only Lift and Pitch enter). A lattice in steady flow does not
	// give them; zero leaves them out.
	AlphaRate aero.Coefficients

	// SpeedRatio holds the change of the coefficients per ΔV/V at constant angle of attack (Mach number, thrust that varies
	// with speed); only Lift, Drag and Pitch enter. The change of dynamic pressure is not part of it, and zero means a model in slow
	// flow under constant thrust. In the notation of books for level flight, C_xu with the thrust in it: Lift = −C_zu, Drag = −C_xu − 2·CD,
	// Pitch = C_mu.
	SpeedRatio aero.Coefficients
}

// Trimmed returns the derivatives at the trimmed state of a lift coefficient: angle of attack and lift
// from Trim, no moments, and the drag coefficient that the caller gives. Derivatives stay as they are.
func Trimmed(d aero.Derivatives, lift, drag float64) (aero.Derivatives, error) {
	alpha, _, err := Trim(d, lift)
	if err != nil {
		return aero.Derivatives{}, err
	}
	d.Alpha = alpha
	d.At = aero.Coefficients{Lift: lift, Drag: drag}
	return d, nil
}

// Longitudinal returns the 4×4 matrix of ẋ = A·x for x = (u, w, q, θ) in stability axes [m/s, m/s, rad/s,
// rad], with the CG at the moment point. Lift and drag of the state are d.At, which should hold the weight and the total drag:
// see Trimmed. The state counts as trimmed whatever d.At.Pitch says, and thrust as constant.
//
// Source: small-disturbance equations as in Etkin, Dynamics of Atmospheric Flight.
func Longitudinal(d aero.Derivatives, b Body, c Condition) (*mat.Dense, error) {
	if err := check(d, b, c); err != nil {
		return nil, err
	}
	if !(b.Iy > 0) {
		return nil, fmt.Errorf("stability: pitch inertia %g kg·m² must be positive", b.Iy)
	}
	v, g := c.Speed, gravity(c)
	force := 0.5 * c.Density * v * d.Reference.Area / b.Mass // q·S/(m·V)
	moment := 0.5 * c.Density * v * d.Reference.Area * d.Reference.MeanChord / b.Iy
	rate := d.Reference.MeanChord / (2 * v)

	inertia := 1 + force*c.AlphaRate.Lift*rate
	w := [4]float64{
		-(2*d.At.Lift + c.SpeedRatio.Lift) * force / inertia,
		-(d.ByAlpha.Lift + d.At.Drag) * force / inertia,
		(v - d.ByPitchRate.Lift*rate*force*v) / inertia,
		0,
	}
	lag := moment * c.AlphaRate.Pitch * rate
	return mat.NewDense(4, 4, []float64{
		-(2*d.At.Drag + c.SpeedRatio.Drag) * force, (d.At.Lift - d.ByAlpha.Drag) * force, -d.ByPitchRate.Drag * rate * force * v, -g,
		w[0], w[1], w[2], w[3],
		moment*c.SpeedRatio.Pitch + lag*w[0], moment*d.ByAlpha.Pitch + lag*w[1], moment*v*d.ByPitchRate.Pitch*rate + lag*w[2], 0,
		0, 0, 1, 0,
	}), nil
}

// Lateral returns the 4×4 matrix of ẋ = A·x for x = (β, p, r, φ) in body axes [rad, rad/s, rad/s, rad],
// with the CG at the moment point and the body X axis d.Alpha above the level flight path.
//
// Source: small-disturbance equations as in Etkin, Dynamics of Atmospheric Flight.
func Lateral(d aero.Derivatives, b Body, c Condition) (*mat.Dense, error) {
	if err := check(d, b, c); err != nil {
		return nil, err
	}
	if !(b.Ix > 0 && b.Iz > 0) {
		return nil, fmt.Errorf("stability: roll and yaw inertia %g and %g kg·m² must be positive", b.Ix, b.Iz)
	}
	det := b.Ix*b.Iz - b.Ixz*b.Ixz
	if !(det > 0) {
		return nil, fmt.Errorf("stability: product of inertia %g kg·m² is too large for Ix %g and Iz %g", b.Ixz, b.Ix, b.Iz)
	}
	v := c.Speed
	pressureArea := 0.5 * c.Density * v * v * d.Reference.Area
	rate := d.Reference.Span / (2 * v)
	row := func(by aero.Coefficients, k float64) (y, l, n float64) {
		roll, yaw := by.Roll*pressureArea*d.Reference.Span*k, by.Yaw*pressureArea*d.Reference.Span*k
		return by.Side * pressureArea * k / (b.Mass * v), (b.Iz*roll + b.Ixz*yaw) / det, (b.Ixz*roll + b.Ix*yaw) / det
	}
	yBeta, lBeta, nBeta := row(d.ByBeta, 1)
	yP, lP, nP := row(d.ByRollRate, rate)
	yR, lR, nR := row(d.ByYawRate, rate)
	sin, cos := math.Sincos(d.Alpha)
	return mat.NewDense(4, 4, []float64{
		yBeta, yP + sin, yR - cos, gravity(c) * cos / v,
		lBeta, lP, lR, 0,
		nBeta, nP, nR, 0,
		0, 1, sin / cos, 0,
	}), nil
}

func gravity(c Condition) float64 {
	if c.Gravity == 0 {
		return atmosphere.Gravity
	}
	return c.Gravity
}

func check(d aero.Derivatives, b Body, c Condition) error {
	r := d.Reference
	if !(r.Area > 0 && r.Span > 0 && r.MeanChord > 0) {
		return fmt.Errorf("stability: reference area %g m², span %g m and mean chord %g m must be positive", r.Area, r.Span, r.MeanChord)
	}
	if !(b.Mass > 0) {
		return fmt.Errorf("stability: mass %g kg must be positive", b.Mass)
	}
	if !(c.Density > 0 && c.Speed > 0) {
		return errors.New("stability: density and speed must be positive")
	}
	return nil
}
