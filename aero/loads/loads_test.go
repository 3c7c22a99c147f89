package loads

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// evenWing is a flat half wing of n strips from y = 0 to span/2 with the force per metre given.
func evenWing(n int, half float64, lift func(y float64) float64) []aero.StripLoad {
	strips := make([]aero.StripLoad, n)
	width := half / float64(n)
	for i := range strips {
		y := (float64(i) + 0.5) * width
		strips[i] = aero.StripLoad{
			Surface: "wing", Width: width, Chord: 1,
			Centre: r3.Vec{X: 2, Y: y}, Force: r3.Vec{Z: lift(y) * width},
		}
	}
	return strips
}

func TestEvenLoadOnACantilever(t *testing.T) {
	// Any text on beams: shear w(l − y), bending w(l − y)²/2. Stations fall inside strips on purpose.
	strips := evenWing(7, 4, func(float64) float64 { return 3 })
	for _, s := range Along(strips, []string{"wing"}, []float64{0, 0.3, 1.9, 3.99, 4, 5}, 1.5) {
		out := math.Max(0, 4-s.Y)
		require.InDelta(t, 3*out, s.Shear, 1e-12)
		require.InDelta(t, 3*out*out/2, s.Bending, 1e-12)
		require.InDelta(t, -0.5*3*out, s.Torsion, 1e-12) // the force acts 0.5 m aft of the axis: nose down
	}
}

func TestEllipticLoad(t *testing.T) {
	// Elliptic load of a half wing: root bending = L·(4/3π)·half span (centroid of a quarter ellipse).
	strips := evenWing(400, 4, func(y float64) float64 { return math.Sqrt(1 - y*y/16) })
	root := Along(strips, []string{"wing"}, []float64{0}, 2)[0]
	require.InDelta(t, math.Pi, root.Shear, 1e-3)
	require.InDelta(t, 4*4/(3*math.Pi), root.Bending/root.Shear, 1e-3)
	require.Equal(t, []float64{root.Bending}, Bending(strips, []string{"wing"}, []float64{0}))
	require.Equal(t, []float64{root.Shear}, Shear(strips, []string{"wing"}, []float64{0}))
}

// inboardWinglet is a winglet 1 m high at y = 4 that pulls inboard with 2 per metre.
func inboardWinglet() []aero.StripLoad {
	var strips []aero.StripLoad
	for i := range 10 {
		strips = append(strips, aero.StripLoad{
			Surface: "winglet", Width: 0.1, Chord: 0.5,
			Centre: r3.Vec{X: 3, Y: 4, Z: 0.05 + 0.1*float64(i)}, Force: r3.Vec{Y: -0.2},
		})
	}
	return strips
}

func TestWingletBendsTheWing(t *testing.T) {
	// An inboard force F at height h bends every wing station by F·h, whatever its y: here 2 · 0.5.
	strips := append(evenWing(5, 4, func(float64) float64 { return 0 }), inboardWinglet()...)
	for _, b := range Bending(strips, []string{"wing", "winglet"}, []float64{0, 2.2, 4}) {
		require.InDelta(t, 1.0, b, 1e-12)
	}
	require.Zero(t, Bending(strips, []string{"wing"}, []float64{0})[0])
	require.Equal(t, []float64{0, 0}, Bending(strips, []string{"nothing"}, []float64{0, 1}))
}

func TestAlongAWinglet(t *testing.T) {
	for _, s := range AlongUpright(inboardWinglet(), "winglet", []float64{0, 0.33, 0.9, 1}) {
		require.InDelta(t, 2*(1-s.Y), s.Shear, 1e-12)
		require.InDelta(t, (1-s.Y)*(1-s.Y), s.Bending, 1e-12)
	}
}

func TestScaleAndRelief(t *testing.T) {
	strips := evenWing(10, 4, func(float64) float64 { return 1 })
	air := Along(strips, []string{"wing"}, []float64{0}, 2)
	// Both halves carry 8 over the dynamic pressure: on 10 m² the lift coefficient is 0.8.
	q := Scale(900*gravity, 3.8, 0.8, 10)
	scaled := Times(air, q)
	require.InDelta(t, 3.8*900*gravity/2, scaled[0].Shear, 1e-9)
	// A wing as heavy as its own lift at every station bears nothing.
	var masses []PointMass
	for _, s := range strips {
		masses = append(masses, PointMass{At: s.Centre, Mass: 45})
	}
	relieved := Relieve(scaled, masses, 3.8, 2)[0]
	require.InDelta(t, 0, relieved.Shear, 1e-9)
	require.InDelta(t, 0, relieved.Bending, 1e-8)
	require.InDelta(t, 0, relieved.Torsion, 1e-9)
	require.Zero(t, Scale(900, 1, 0, 10))
}
