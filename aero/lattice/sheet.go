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
	foreign := s.group != r.group
	views, count := f.views(r.at)
	var v [4]r3.Vec
	for i := range count {
		v[i] = r3.Scale(-1, s.legsAlong(views[i], &s.trail, foreign))
		if !close {
			v[i] = r3.Add(v[i], f.fromWake(s.legsAlong(f.alongWake(views[i]), &s.sheetEdge, foreign)))
		}
	}
	if close {
		for i, t := range averagePoints {
			spread, _ := f.views(r3.Add(r3.Scale(1-t, r.low), r3.Scale(t, r.high)))
			for k := range count {
				sheet := s.sheetVelocity(f.alongWake(spread[k]))
				v[k] = r3.Add(v[k], r3.Scale(averageWeights[i], f.fromWake(sheet)))
			}
		}
	}
	return f.join(&v, count, s.copies == 1)
}

// legsAlong is the velocity at p of the two semi-infinite legs along +x of the strip of unit circulation, from its inboard
// edge (towards it) and its outboard edge (away from it).
func (s *strip) legsAlong(p r3.Vec, from *[2]r3.Vec, foreign bool) r3.Vec {
	var ends [2]node
	cores := s.cores(foreign)
	for k := range ends {
		look(ends[k:k+1], p, from[k:k+1], cores[k])
	}
	return r3.Vec{Y: ends[1].legY - ends[0].legY, Z: ends[1].legZ - ends[0].legZ}
}

// cores are the fourth powers of the cores of the legs at the strip's edges: none towards its own group.
func (s *strip) cores(foreign bool) [2]float64 {
	if foreign {
		return s.core
	}
	return [2]float64{}
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
	n, t := sheetTerms(x, first, first-width, zeta)
	k := 1 / (fourPi * width)
	normal, along := k*n, -k*t
	return r3.Vec{Y: along*ty - normal*tz, Z: along*tz + normal*ty}
}

// leastSquare is the squared distance from a sheet's edge, m², below which the logarithm stays where it is.
const leastSquare = 1e-20

// sheetTerms is the antiderivative of the integral of sheetPiece at η = a less that at b:
//
//	along the normal  ln(d/(s + x)),  ahead of the sheet's start ln(s − x), with d = η² + ζ²
//	along the sheet   atan(η/ζ) + atan(xη/(ζs))
//
// The difference of two logarithms is one of a ratio, and that of two arc tangents between ±π/2 the angle of which their addition
// theorem gives sine and cosine: that halves the work.
func sheetTerms(x, a, b, zeta float64) (normal, along float64) {
	da, db := a*a+zeta*zeta, b*b+zeta*zeta
	sa, sb := math.Sqrt(x*x+da), math.Sqrt(x*x+db)
	if x >= 0 {
		normal = math.Log(math.Max(da, leastSquare) * (sb + x) / (math.Max(db, leastSquare) * (sa + x)))
	} else {
		normal = math.Log((sa - x) / (sb - x))
	}
	if zeta != 0 {
		along = math.Atan2(zeta*(a-b), zeta*zeta+a*b) + math.Atan2(x*zeta*(a*sb-b*sa), zeta*zeta*sa*sb+x*x*a*b)
	}
	return normal, along
}
