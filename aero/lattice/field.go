package lattice

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/spatial/r3"
)

// Wake says along what the vortex sheets run behind their trailing edges.
type Wake int

// The wakes on offer. They move induced drag, neutral point and bending by more than the grid does
// (package documentation): state which one a number was made with.
const (
	WakeAlongBody   Wake = iota // along the datum x axis
	WakeAlongStream             // along the stream at Options.WakeAlpha
)

// Ground is level ground beneath the aircraft.
type Ground struct {
	Height float64 // of the datum origin above it, m
	Pitch  float64 // of the datum x axis, nose up, rad
}

// field is how vortices act at a distance.
//
// Compressibility follows Prandtl and Glauert in Göthert's form: φ(x, y, z) = φ'(x/β, y, z) with φ' harmonic, so
// that a vortex of unit circulation has the velocity of the stretched arrangement with its x component over β
// (B. Göthert, Plane and Three-Dimensional Flow at High Subsonic Speeds, NACA TM 1105, 1946).
//
// A wake that leaves the datum x axis is the straight leg less its part behind the trailing edge plus that
// part along the stream: a correction by strip. The ground acts through the mirror image of every vortex.
type field struct {
	stretch  float64 // 1/β
	sin, cos float64 // of the rise of the wake over the datum x axis, in the stretched space
	steep    bool    // the wake leaves the x axis
	up       r3.Vec  // normal of the ground; zero without ground
	depth    float64 // of the datum origin below the ground along up: minus its height, m
	tall     float64 // heights over the ground in wake axes per height
}

func newField(o Options) (field, error) {
	f := field{stretch: 1, cos: 1}
	if o.Mach != 0 {
		if !(o.Mach >= 0 && o.Mach <= 0.7) {
			return f, fmt.Errorf("a Mach number of %.3g was asked for; Prandtl and Glauert's rule is of use from 0 to 0.7 on thin surfaces", o.Mach)
		}
		f.stretch = 1 / math.Sqrt(1-o.Mach*o.Mach)
	}
	alpha, steep := 0.0, o.Wake == WakeAlongStream
	if steep {
		alpha = o.WakeAlpha
	}
	if g := o.Ground; g != nil {
		if !(g.Height > 0) || !(math.Abs(g.Pitch) < math.Pi/4) {
			return f, fmt.Errorf("ground %.3g m below the datum at a pitch of %.3g° was asked for; give a height above zero and a pitch within ±45°", g.Height, g.Pitch*180/math.Pi)
		}
		sin, cos := math.Sincos(g.Pitch)
		f.up, f.depth = r3.Vec{X: -sin, Z: cos}, -g.Height
		alpha, steep = g.Pitch, true // the stream runs along the ground
	}
	if !(math.Abs(alpha) < math.Pi/3) {
		return f, fmt.Errorf("a wake at %.3g° was asked for; give an angle within ±60°", alpha*180/math.Pi)
	}
	sin, cos := math.Sincos(alpha)
	length := math.Hypot(f.stretch*cos, sin)
	f.tall = f.stretch / length
	f.sin, f.cos, f.steep = sin/length, f.stretch*cos/length, steep && sin != 0
	return f, nil
}

// grounded tells whether there is ground.
func (f *field) grounded() bool { return f.up != r3.Vec{} }

// below is the mirror image of a point in the ground.
func (f *field) below(p r3.Vec) r3.Vec { return r3.Sub(p, r3.Scale(2*(r3.Dot(p, f.up)-f.depth), f.up)) }

// turned is the mirror image of a velocity in the ground.
func (f *field) turned(v r3.Vec) r3.Vec { return r3.Sub(v, r3.Scale(2*r3.Dot(v, f.up), f.up)) }

// stretched carries a point into the space where the potential is harmonic.
func (f *field) stretched(p r3.Vec) r3.Vec { p.X *= f.stretch; return p }

// alongWake turns a point of the stretched space so that the wake runs along x.
func (f *field) alongWake(p r3.Vec) r3.Vec {
	return r3.Vec{X: f.cos*p.X + f.sin*p.Z, Y: p.Y, Z: f.cos*p.Z - f.sin*p.X}
}

// fromWake turns a velocity back.
func (f *field) fromWake(v r3.Vec) r3.Vec {
	return r3.Vec{X: f.cos*v.X - f.sin*v.Z, Y: v.Y, Z: f.cos*v.Z + f.sin*v.X}
}

// mirrored is the velocity of a mirror image of equal strength: both is the velocity at the mirrored point.
func mirrored(v r3.Vec) r3.Vec { v.Y = -v.Y; return v }

// leftOf is the mirror image of a point in the plane of symmetry.
func leftOf(p r3.Vec) r3.Vec { p.Y = -p.Y; return p }

// views are the places from which the vortices of the right half are looked at to get the velocity at a point: the point
// itself, its mirror image in the plane of symmetry, and both again below the ground.
func (f *field) views(p r3.Vec) (at [4]r3.Vec, count int) {
	at[0], at[1], count = f.stretched(p), f.stretched(leftOf(p)), 2
	if f.grounded() {
		deep := f.below(p)
		at[2], at[3], count = f.stretched(deep), f.stretched(leftOf(deep)), 4
	}
	return at, count
}

// gather turns what the views see of a strip into the velocities of its vortices and of their mirror images of equal strength.
func (f *field) gather(see *sight, own, image velocities, grounded, central bool) {
	own.between(see.inner[0], see.outer[0], 1)
	image.between(see.inner[1], see.outer[1], -1)
	if f.stretch != 1 {
		floats.Scale(f.stretch, own.x)
		floats.Scale(f.stretch, image.x)
	}
	if grounded {
		see.deep.between(see.inner[2], see.outer[2], 1)
		f.addTurned(own, see.deep)
		see.deep.between(see.inner[3], see.outer[3], -1)
		f.addTurned(image, see.deep)
	}
	if central {
		clear(image.x)
		clear(image.y)
		clear(image.z)
	}
}

// addTurned adds the mirror images in the ground of some velocities in the stretched space.
func (f *field) addTurned(to, deep velocities) {
	for k := range to.x {
		v := f.turned(r3.Vec{X: f.stretch * deep.x[k], Y: deep.y[k], Z: deep.z[k]})
		to.x[k] += v.X
		to.y[k] += v.Y
		to.z[k] += v.Z
	}
}

// join does for one velocity a view what gather does for those of a strip.
func (f *field) join(v *[4]r3.Vec, count int, central bool) (own, image r3.Vec) {
	own, image = v[0], mirrored(v[1])
	own.X *= f.stretch
	image.X *= f.stretch
	if count == 4 {
		v[2].X *= f.stretch
		v[3].X *= f.stretch
		own = r3.Add(own, f.turned(v[2]))
		image = r3.Add(image, f.turned(mirrored(v[3])))
	}
	if central {
		image = r3.Vec{}
	}
	return own, image
}
