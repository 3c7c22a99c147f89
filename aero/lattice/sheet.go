package lattice

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// The legs of a strip stand for a vortex sheet. Where that sheet passes a surface of another group within a panel
// width, single legs would load the panels that they happen to graze. There the legs are replaced, from the trailing
// edge on, by the sheet itself: circulation linear from control station to control station, down to zero at a free end,
// and its velocity is averaged over the width of the strip that feels it. Lift, which is an integral over the span, then
// does not depend on how the edges of the two surfaces lie to one another, and every surface keeps its own even
// spacing whatever passes ahead of it.

// averagePoints and averageWeights are the Gauss–Legendre rule on 0…1 by which a sheet's velocity is averaged over
// the receiving strip (Abramowitz & Stegun, Handbook of Mathematical Functions, table 25.4, n = 4).
var (
	averagePoints  = [8]float64{0.019855071751231884, 0.101666761293186630, 0.237233795041835507, 0.408282678752175098, 0.591717321247824902, 0.762766204958164493, 0.898333238706813370, 0.980144928248768116}
	averageWeights = [8]float64{0.050614268145188130, 0.111190517226687235, 0.156853322938943644, 0.181341891689180991, 0.181341891689180991, 0.156853322938943644, 0.111190517226687235, 0.050614268145188130}
)

// receiver is a point where a velocity is wanted.
type receiver struct {
	at        r3.Vec
	low, high r3.Vec // ends of the width of surface that it stands for
	group     int
	bound     bool // on a bound segment, where the x component is wanted too
}

// bends tells whether the wake of strip s needs a correction at points of a group: it leaves the x axis, or it passes
// close there.
func (f *field) bends(close bool) bool { return f.steep || close }

// wake is the correction, at a receiver, of the wake of a strip and of its mirror image: what the legs
// behind the trailing edge lack, per unit circulation of the whole strip.
func (f *field) wake(s *strip, r *receiver, close bool) (own, image r3.Vec) {
	own = f.wakeAt(s, r, close, func(p r3.Vec) r3.Vec { return p })
	if s.copies == 2 {
		image = mirrored(f.wakeAt(s, r, close, leftOf))
	}
	if f.grounded() {
		own = r3.Add(own, f.turned(f.wakeAt(s, r, close, f.below)))
		if s.copies == 2 {
			image = r3.Add(image, f.turned(mirrored(f.wakeAt(s, r, close, func(p r3.Vec) r3.Vec { return leftOf(f.below(p)) }))))
		}
	}
	return own, image
}

// wakeAt takes the receiver's points through the reflection given.
func (f *field) wakeAt(s *strip, r *receiver, close bool, through func(r3.Vec) r3.Vec) r3.Vec {
	core := 0.0
	if s.group != r.group {
		core = s.core
	}
	p := f.stretched(through(r.at))
	v := r3.Scale(-1, legsAlong(p, s.trail[0], s.trail[1], core))
	if !close {
		v = r3.Add(v, f.fromWake(legsAlong(f.alongWake(p), s.sheetEdge[0], s.sheetEdge[1], core)))
	} else {
		for i, t := range averagePoints {
			q := r3.Add(r3.Scale(1-t, r.low), r3.Scale(t, r.high))
			sheet := s.sheetVelocity(f.alongWake(f.stretched(through(q))))
			v = r3.Add(v, r3.Scale(averageWeights[i], f.fromWake(sheet)))
		}
	}
	v.X *= f.stretch
	return v
}

// legsAlong is the velocity at p of the two semi-infinite legs along +x of a strip of unit circulation, from its edges
// a (towards a) and b (away from b).
func legsAlong(p, a, b r3.Vec, core4 float64) r3.Vec {
	var v r3.Vec
	for i, q := range [2]r3.Vec{a, b} {
		x, y, z := p.X-q.X, p.Y-q.Y, p.Z-q.Z
		d := y*y + z*z
		n := math.Sqrt(x*x + d)
		if d <= 1e-16*n*n {
			continue
		}
		k := legStrength(x, n, d, core4)
		if i == 0 {
			k = -k
		}
		v.Y -= k * z
		v.Z += k * y
	}
	return v
}

// sheetVelocity is the velocity at p, wake axes, of the strip's share of the sheet per unit circulation: vorticity −1
// spread from the control station inboard of it to its own, +1 from there to the next outboard. At a free tip circulation
// falls like the root of the distance from the tip.
func (s *strip) sheetVelocity(p r3.Vec) r3.Vec {
	inner := sheetPiece(p, s.sheet[0], s.sheet[1])
	if !s.tip {
		return r3.Sub(sheetPiece(p, s.sheet[1], s.sheet[2]), inner)
	}
	v, from, share := r3.Scale(-1, inner), s.sheet[1], 1.0
	for range 3 { // a quarter of the distance each time, half of the circulation
		to := r3.Add(s.sheet[2], r3.Scale(0.25, r3.Sub(from, s.sheet[2])))
		v = r3.Add(v, r3.Scale(share/2, sheetPiece(p, from, to)))
		from, share = to, share/2
	}
	return r3.Add(v, r3.Scale(share, sheetPiece(p, from, s.sheet[2])))
}

// sheetPiece is the velocity at p of a flat sheet of vortices along +x, of unit strength in all, that starts between
// the points from and to (at the mean of their x) and runs to infinity.
//
// It is the integral over the width of the semi-infinite filament, ∫ (1 + x/s)(η n − ζ t)/(4π(η² + ζ²)) dη with s² = x² +
// η² + ζ², in closed form: logarithms along the normal n, arc tangents along the sheet t.
func sheetPiece(p, from, to r3.Vec) r3.Vec {
	width := math.Hypot(to.Y-from.Y, to.Z-from.Z)
	if width == 0 {
		return r3.Vec{}
	}
	ty, tz := (to.Y-from.Y)/width, (to.Z-from.Z)/width
	y, z := p.Y-from.Y, p.Z-from.Z
	first := y*ty + z*tz
	zeta := z*ty - y*tz
	x := p.X - (from.X+to.X)/2
	n1, t1 := sheetTerms(x, first, zeta)
	n2, t2 := sheetTerms(x, first-width, zeta)
	k := 1 / (fourPi * width)
	normal, along := k*(n1-n2), -k*(t1-t2)
	return r3.Vec{Y: along*ty - normal*tz, Z: along*tz + normal*ty}
}

// sheetTerms is the antiderivative of the integral of sheetPiece at η.
func sheetTerms(x, eta, zeta float64) (normal, along float64) {
	d := eta*eta + zeta*zeta
	s := math.Sqrt(x*x + d)
	if d < 1e-20 {
		d = 1e-20
	}
	if x >= 0 {
		normal = math.Log(d / (s + x))
	} else {
		normal = math.Log(s - x)
	}
	if zeta != 0 {
		along = math.Atan(eta/zeta) + math.Atan(x*eta/(zeta*s))
	}
	return normal, along
}
