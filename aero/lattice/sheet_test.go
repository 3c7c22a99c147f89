package lattice

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// The terms of a sheet's two ends, each by itself, as the integral gives them.
func TestSheetTermsAreTheDifferenceOfBothEnds(t *testing.T) {
	plain := func(x, eta, zeta float64) (normal, along float64) {
		d := eta*eta + zeta*zeta
		s := math.Sqrt(x*x + d)
		if x >= 0 {
			normal = math.Log(math.Max(d, leastSquare) / (s + x))
		} else {
			normal = math.Log(s - x)
		}
		if zeta != 0 {
			along = math.Atan(eta/zeta) + math.Atan(x*eta/(zeta*s))
		}
		return normal, along
	}
	place := rapid.Float64Range(-3, 3)
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.OneOf(place, rapid.SampledFrom([]float64{0, 1e-7, farBehind, -50})).Draw(t, "x")
		zeta := rapid.OneOf(place, rapid.SampledFrom([]float64{0, 1e-6, -1e-6})).Draw(t, "zeta")
		a := rapid.OneOf(place, rapid.SampledFrom([]float64{0, -0.5})).Draw(t, "a")
		b := a - rapid.Float64Range(0.01, 2).Draw(t, "width")
		if x == 0 && zeta == 0 && (a == 0 || b == 0) {
			return // on the start of a filament both are infinite
		}
		na, ta := plain(x, a, zeta)
		nb, tb := plain(x, b, zeta)
		normal, along := sheetTerms(x, a, b, zeta)
		require.InDelta(t, na-nb, normal, 1e-9*math.Max(1, math.Abs(na)))
		require.InDelta(t, ta-tb, along, 1e-12)
	})
}

// A sheet is many filaments side by side.
func TestSheetIsTheSumOfItsFilaments(t *testing.T) {
	from, to := r3.Vec{X: 1, Y: 0.4, Z: 0.1}, r3.Vec{X: 1, Y: 0.9, Z: 0.25}
	for _, p := range []r3.Vec{{X: 3, Y: 0.6, Z: 0.5}, {X: 0.2, Y: 0.7, Z: -0.3}, {X: 1, Y: -0.2, Z: 0.1}, {X: 40, Y: 0.65, Z: 0.3}} {
		const n = 20000
		var sum r3.Vec
		for k := range n {
			q := r3.Add(from, r3.Scale((float64(k)+0.5)/n, r3.Sub(to, from)))
			y, z := p.Y-q.Y, p.Z-q.Z
			d := y*y + z*z
			strength := legStrength(p.X-q.X, math.Sqrt((p.X-q.X)*(p.X-q.X)+d), d, 0)
			sum = r3.Add(sum, r3.Scale(strength/n, r3.Vec{Y: -z, Z: y}))
		}
		v := sheetPiece(p, from, to)
		require.InDelta(t, sum.Y, v.Y, 1e-7)
		require.InDelta(t, sum.Z, v.Z, 1e-7)
	}
}
