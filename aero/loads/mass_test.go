package loads

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

func TestMassSpreadLikeLiftCancelsIt(t *testing.T) {
	// Lift by chord times width at mid-chord, mass by chord times width at mid-chord: nothing is left at any
	// station, whatever it cuts, up or down.
	rapid.Check(t, func(t *rapid.T) {
		strips := drawWing(t)
		n := rapid.Float64Range(-4, 6).Draw(t, "load factor")
		const mass = 130.0
		area := 0.0
		for _, s := range strips {
			area += s.Chord * s.Width
		}
		for i, s := range strips {
			lift := n * mass * gravity * s.Chord * s.Width / area
			strips[i].Force = r3.Vec{Z: lift}
			strips[i].Moment = r3.Vec{Y: -lift * 0.25 * s.Chord}
		}
		masses, err := SpreadByChord(mass, strips, []string{"wing"}, 0.5)
		require.NoError(t, err)
		tip := edges(strips)[len(strips)]
		at := []float64{0, 0.21 * tip, rapid.Float64Range(0, 1).Draw(t, "station") * tip, tip}
		air := Along(strips, []string{"wing"}, at, 1.2)
		for _, left := range [][]Section{
			Relieve(air, masses, n, 1.2),
			AddInertia(air, masses, Motion{SpecificForce: r3.Vec{Z: n * gravity}}),
		} {
			for i := range left {
				require.InDelta(t, 0, left[i].Shear, 1e-8)
				require.InDelta(t, 0, left[i].Bending, 1e-7)
				require.InDelta(t, 0, left[i].Torsion, 1e-7)
			}
		}
	})
}

func TestTipMassOnACantilever(t *testing.T) {
	// A winglet of 6 kg at y = 4, 0.8 m aft of the axis: shear −6·n·g all along, bending times the arm, and the leading
	// edge turns up at +n and down at −n.
	tip := []PointMass{{At: r3.Vec{X: 2.8, Y: 4, Z: 0.5}, Mass: 6}}
	for _, n := range []float64{3.8, -1.52} {
		force := -6 * n * gravity
		for _, s := range Relieve([]Section{{Y: 0}, {Y: 1.5}, {Y: 4}}, tip, n, 2) {
			require.InDelta(t, force, s.Shear, 1e-9)
			require.InDelta(t, force*(4-s.Y), s.Bending, 1e-9)
			require.InDelta(t, -0.8*force, s.Torsion, 1e-9)
		}
		require.Zero(t, Relieve([]Section{{Y: 4.1}}, tip, n, 2)[0].Shear)
	}
}

func TestReliefRelievesBothWays(t *testing.T) {
	strips := evenWing(8, 4, func(float64) float64 { return 10 })
	masses, err := SpreadByChord(50, strips, []string{"wing"}, 0.4)
	require.NoError(t, err)
	for _, sign := range []float64{1, -1} {
		air := Times(Along(strips, []string{"wing"}, []float64{0, 2.3}, 2), sign*100)
		for i, s := range Relieve(air, masses, sign*2, 2) {
			require.Less(t, math.Abs(s.Shear), math.Abs(air[i].Shear))
			require.Less(t, math.Abs(s.Bending), math.Abs(air[i].Bending))
		}
	}
}

func TestSpreadFuelBetweenStations(t *testing.T) {
	strips := evenWing(7, 4, func(float64) float64 { return 0 })
	fuel, err := SpreadBetween(80, strips, []string{"wing"}, 0.5, 2.1, 0.25)
	require.NoError(t, err)
	// 50 kg/m from 0.5 to 2.1 m: what lies outboard of a station, and its moment, by hand.
	at := []Section{{Y: 0}, {Y: 0.5}, {Y: 1.3}, {Y: 2.1}, {Y: 3}}
	outboard, arm := []float64{80, 80, 40, 0, 0}, []float64{1.3, 0.8, 0.4, 0, 0}
	for i, s := range Relieve(at, fuel, 1, 2) {
		require.InDelta(t, -outboard[i]*gravity, s.Shear, 1e-9)
		require.InDelta(t, -outboard[i]*gravity*arm[i], s.Bending, 1e-9)
		require.InDelta(t, 0, s.Torsion, 1e-9)
	}
}

func TestSpreadingKeepsMassAndCentroid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		strips := drawWing(t)
		masses, err := SpreadByChord(70, strips, []string{"wing"}, 0.45)
		require.NoError(t, err)
		one, err := AtCentroid(70, strips, "wing", 0.45)
		require.NoError(t, err)
		total, moment := 0.0, r3.Vec{}
		for _, m := range masses {
			total += m.Mass
			moment = r3.Add(moment, r3.Scale(m.Mass, m.At))
		}
		require.InDelta(t, 70, total, 1e-9)
		require.InDelta(t, 0, r3.Norm(r3.Sub(r3.Scale(1.0/70, moment), one.At)), 1e-9)
	})
}

func TestSpreadingRefusesWhatDoesNotFit(t *testing.T) {
	strips := append(evenWing(4, 4, func(float64) float64 { return 0 }), inboardWinglet()...)
	_, err := SpreadByChord(5, strips, []string{"foreplane"}, 0.4)
	require.EqualError(t, err, `spreading 5 kg: no strip with an area belongs to ["foreplane"]; the strips are of ["wing" "winglet"]`)
	_, err = AtCentroid(-5, strips, "winglet", 0.4)
	require.EqualError(t, err, `spreading a mass over ["winglet"]: -5 kg is no mass; give kilograms, zero or more`)
	_, err = SpreadBetween(5, strips, []string{"wing"}, 2, 1, 0.4)
	require.ErrorContains(t, err, "has to lie outboard of the first")
	_, err = SpreadBetween(5, strips, []string{"wing"}, 3, 5, 0.4)
	require.ErrorContains(t, err, "cover 1 m of it")
}
