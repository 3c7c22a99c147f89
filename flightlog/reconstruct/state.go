package reconstruct

import "math"

// The states in their order. Attitude is a rotation matrix beside the vector; its error is a small rotation about
// the earth axes (tilt), true = exp([tilt]×)·estimate, so that gyros without error leave it as it is. Every other error is
// true − estimate.
const (
	atTilt         = 0  // 3, rad, about north, east, down
	atVelocity     = 3  // 3, m/s over the earth: north, east, down
	atHeight       = 6  // m above the start
	atWind         = 7  // 2, m/s, steady wind: north, east
	atVertical     = 9  // m/s, steady vertical air, down
	atGust         = 10 // 3, m/s: north, east, down
	atForceBias    = 13 // 3, m/s², body
	atRateBias     = 16 // 3, rad/s, body
	atScale        = 19 // indicated over true airspeed − 1
	atAttitudeBias = 20 // 3, rad, of the logged roll, pitch, heading
	atHeightBias   = 23 // m, of the barometric height
	atVaneBias     = 24 // 2, rad: angle of attack, sideslip
	atUpwash       = 26 // 2, share by which the vane turns more than the flow, less the usual share

	plainStates = 24 // without vanes
	most        = 28
)

// vector is one entry a state.
type vector [most]float64

// rotation holds by rows the turn from body to earth axes: X forward, Y right, Z down to north, east, down.
type rotation [9]float64

// estimate is the states at one instant.
type estimate struct {
	n        int
	attitude rotation
	x        vector // entries of tilt are unused
}

// belief is an estimate with its covariance.
type belief struct {
	estimate
	p matrix
}

// earth turns a vector of body axes into earth axes.
func (r *rotation) earth(v [3]float64) [3]float64 {
	return [3]float64{
		r[0]*v[0] + r[1]*v[1] + r[2]*v[2],
		r[3]*v[0] + r[4]*v[1] + r[5]*v[2],
		r[6]*v[0] + r[7]*v[1] + r[8]*v[2],
	}
}

// body turns a vector of earth axes into body axes.
func (r *rotation) body(v [3]float64) [3]float64 {
	return [3]float64{
		r[0]*v[0] + r[3]*v[1] + r[6]*v[2],
		r[1]*v[0] + r[4]*v[1] + r[7]*v[2],
		r[2]*v[0] + r[5]*v[1] + r[8]*v[2],
	}
}

// times is the product r·s.
func (r *rotation) times(s *rotation) rotation {
	return rotation{
		r[0]*s[0] + r[1]*s[3] + r[2]*s[6], r[0]*s[1] + r[1]*s[4] + r[2]*s[7], r[0]*s[2] + r[1]*s[5] + r[2]*s[8],
		r[3]*s[0] + r[4]*s[3] + r[5]*s[6], r[3]*s[1] + r[4]*s[4] + r[5]*s[7], r[3]*s[2] + r[4]*s[5] + r[5]*s[8],
		r[6]*s[0] + r[7]*s[3] + r[8]*s[6], r[6]*s[1] + r[7]*s[4] + r[8]*s[7], r[6]*s[2] + r[7]*s[5] + r[8]*s[8],
	}
}

// angles are roll, pitch and heading (ISO 1151-1), heading from −π to π.
func (r *rotation) angles() (roll, pitch, heading float64) { return r.roll(), r.pitch(), r.heading() }

func (r *rotation) roll() float64    { return math.Atan2(r[7], r[8]) }
func (r *rotation) pitch() float64   { return math.Asin(math.Max(-1, math.Min(1, -r[6]))) }
func (r *rotation) heading() float64 { return math.Atan2(r[3], r[0]) }

// rotationOf makes the matrix of roll, pitch and heading, R = Rz(ψ)·Ry(θ)·Rx(φ).
func rotationOf(roll, pitch, heading float64) rotation {
	sr, cr := math.Sincos(roll)
	sp, cp := math.Sincos(pitch)
	sh, ch := math.Sincos(heading)
	return rotation{
		cp * ch, sr*sp*ch - cr*sh, cr*sp*ch + sr*sh,
		cp * sh, sr*sp*sh + cr*ch, cr*sp*sh - sr*ch,
		-sp, sr * cp, cr * cp,
	}
}

// turn is exp([v]×), Rodrigues' formula.
func turn(v [3]float64) rotation {
	square := v[0]*v[0] + v[1]*v[1] + v[2]*v[2]
	// sin θ/θ and (1−cos θ)/θ², good to 1e-15 below 0.01 rad; factors, since divisions would take longer than all the rest
	a, b := 1-square*(1.0/6-square*(1.0/120)), 0.5-square*(1.0/24-square*(1.0/720))
	if square > 1e-4 {
		angle := math.Sqrt(square)
		sin, cos := math.Sincos(angle)
		a, b = sin/angle, (1-cos)/square
	}
	return rotation{
		1 - b*(v[1]*v[1]+v[2]*v[2]), b*v[0]*v[1] - a*v[2], b*v[0]*v[2] + a*v[1],
		b*v[0]*v[1] + a*v[2], 1 - b*(v[0]*v[0]+v[2]*v[2]), b*v[1]*v[2] - a*v[0],
		b*v[0]*v[2] - a*v[1], b*v[1]*v[2] + a*v[0], 1 - b*(v[0]*v[0]+v[1]*v[1]),
	}
}

func cross(a, b [3]float64) [3]float64 {
	return [3]float64{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

func dot(a, b [3]float64) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

func three(v *vector, at int) [3]float64 { return [3]float64{v[at], v[at+1], v[at+2]} }

// flow is the velocity of the CG through the air in earth axes.
func (b *estimate) flow() [3]float64 {
	x := &b.x
	return [3]float64{
		x[atVelocity] - x[atWind] - x[atGust],
		x[atVelocity+1] - x[atWind+1] - x[atGust+1],
		x[atVelocity+2] - x[atVertical] - x[atGust+2],
	}
}

// correct adds an error vector to the estimate.
func (b *estimate) correct(d *vector) {
	t := turn(three(d, atTilt))
	b.attitude = t.times(&b.attitude)
	for i := atVelocity; i < b.n; i++ {
		b.x[i] += d[i]
	}
}

// square makes the attitude orthonormal again: one step of R ← R·(3I − RᵀR)/2, quadratic in the round-off.
func (b *estimate) square() {
	r := &b.attitude
	transposed := rotation{r[0], r[3], r[6], r[1], r[4], r[7], r[2], r[5], r[8]}
	m := transposed.times(r)
	for i := range m {
		m[i] *= -0.5
		if i%4 == 0 {
			m[i] += 1.5
		}
	}
	b.attitude = r.times(&m)
}
