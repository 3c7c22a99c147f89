package loads

import (
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// levelAt is a condition of one kilogram figure at a speed with a dynamic pressure of 1000 Pa.
func levelAt(n float64, full bool) Condition {
	return Condition{Name: "trial", Mass: 900, LoadFactor: n, Speed: 40.406101, FuelFull: full} // √(2000/1.225)
}

func TestBeamIsAirLessInertia(t *testing.T) {
	strips := append(evenWing(8, 4, func(float64) float64 { return 3 }), inboardWinglet()...)
	structure, err := SpreadByChord(60, strips, []string{"wing"}, 0.4)
	require.NoError(t, err)
	fuel, err := SpreadBetween(40, strips, []string{"wing"}, 0, 1, 0.4)
	require.NoError(t, err)
	winglet, err := AtCentroid(6, strips, "winglet", 0.4)
	require.NoError(t, err)
	beam := Beam{Surfaces: []string{"wing", "winglet"}, Stations: []float64{0, 2}, Structure: append(structure, winglet), Fuel: fuel}
	for _, full := range []bool{false, true} {
		lines, err := beam.Lines(Flown{Condition: levelAt(2, full), Right: strips})
		require.NoError(t, err)
		require.Len(t, lines, 1)
		require.Equal(t, "trial", lines[0].Condition)
		root, middle := lines[0].Sections[0], lines[0].Sections[1]
		// At the root: 3·4·1000 of lift; 66 kg at 2 g, with 40 kg of fuel when full. The winglet's 2·1000 inboard
		// at half a metre bends up by 1000 everywhere.
		mass, moment := 66.0, 60.0*2+6*4
		if full {
			mass, moment = mass+40, moment+40*0.5
		}
		require.InDelta(t, 12000-mass*2*gravity, root.Shear, 1e-3)
		require.InDelta(t, 3000*8+1000-moment*2*gravity, root.Bending, 1e-3)
		require.InDelta(t, 3000*2+1000-(30+6*2)*2*gravity, middle.Bending, 1e-3)
		require.InDelta(t, (60*0.15+6*1.075)*2*gravity+fuelTorsion(full), root.Torsion, 1e-3)
	}
}

// fuelTorsion is that of 40 kg at 0.15 m aft of the quarter chord at 2 g: leading edge up.
func fuelTorsion(full bool) float64 {
	if full {
		return 40 * 0.15 * 2 * gravity
	}
	return 0
}

func TestBothHalvesOfARoll(t *testing.T) {
	// More lift on the left than on the right rolls to the right; half sum and half difference are the
	// symmetric and the antisymmetric load.
	right := evenWing(8, 4, func(y float64) float64 { return 3 - 0.4*y })
	left := evenWing(8, 4, func(y float64) float64 { return 3 + 0.4*y })
	even := evenWing(8, 4, func(float64) float64 { return 3 })
	structure, err := SpreadByChord(60, even, []string{"wing"}, 0.25)
	require.NoError(t, err)
	beam := Beam{Surfaces: []string{"wing"}, Stations: []float64{0, 1.7, 3}, Structure: structure}
	f := Flown{Condition: levelAt(2, false), Right: right, Left: left, SideLoadFactor: 0.1, RateChanges: Rotation{Roll: 1.5}, Rates: Rotation{Yaw: 0.2}}
	both, err := beam.Lines(f)
	require.NoError(t, err)
	require.Equal(t, []string{"trial, right half", "trial, left half"}, []string{both[0].Condition, both[1].Condition})
	alone, err := beam.Lines(Flown{Condition: levelAt(2, false), Right: even})
	require.NoError(t, err)
	for i, s := range alone[0].Sections {
		r, l := both[0].Sections[i], both[1].Sections[i]
		require.InDelta(t, s.Shear, (r.Shear+l.Shear)/2, 1e-6)
		require.InDelta(t, s.Bending, (r.Bending+l.Bending)/2, 1e-6)
		require.Less(t, r.Bending, l.Bending)
	}
	// Flown the other way round, the halves change places.
	f.Right, f.Left, f.SideLoadFactor = left, right, -0.1
	f.RateChanges.Roll, f.Rates.Yaw = -1.5, -0.2
	swapped, err := beam.Lines(f)
	require.NoError(t, err)
	require.Equal(t, both[0].Sections, swapped[1].Sections)
	require.Equal(t, both[1].Sections, swapped[0].Sections)
}

func TestFreeRollBalances(t *testing.T) {
	// Two statics: a rod that the ailerons turn with moment M and inertia Ix = 2·∫λy² speeds up by M/Ix, and then
	// air load less inertia leaves no rolling moment between the halves at the root.
	const lambda, l, n, pressure = 10.0, 4.0, 100, 1000.0
	right := evenWing(n, l, func(y float64) float64 { return -0.2 * y })
	left := evenWing(n, l, func(y float64) float64 { return 0.2 * y })
	rod, err := SpreadByChord(lambda*l, right, []string{"wing"}, 0.25)
	require.NoError(t, err)
	moment := 2 * pressure * 0.2 * l * l * l / 3
	inertia := 2 * lambda * l * l * l / 3
	beam := Beam{Surfaces: []string{"wing"}, Stations: []float64{0}, Structure: rod}
	lines, err := beam.Lines(Flown{Condition: levelAt(1, false), Right: right, Left: left, RateChanges: Rotation{Roll: moment / inertia}})
	require.NoError(t, err)
	// Bending in pieces leaves out 1/(4n²) of either.
	require.InDelta(t, 0, lines[1].Sections[0].Bending-lines[0].Sections[0].Bending, moment/(4*n*n))
}

func TestWingletBeam(t *testing.T) {
	strips := inboardWinglet()
	structure, err := SpreadByChord(6, strips, []string{"winglet"}, 0.25)
	require.NoError(t, err)
	beam := Beam{Surfaces: []string{"winglet"}, Upright: true, Stations: []float64{0, 0.5}, Axis: []float64{2.9, 2.9}, Structure: structure}
	lines, err := beam.Lines(Flown{Condition: levelAt(3, false), Right: strips, SideLoadFactor: 0.2})
	require.NoError(t, err)
	// Weight runs along a winglet that stands straight up: only the side load factor, to the right, pulls left: inboard
	// on the right half.
	foot := lines[0].Sections[0]
	require.InDelta(t, 2000+6*0.2*gravity, foot.Shear, 1e-3)
	require.InDelta(t, 1000+6*0.2*gravity*0.5, foot.Bending, 1e-3)
	require.InDelta(t, -0.1*foot.Shear, foot.Torsion, 1e-3)
	require.InDelta(t, 1000+3*0.2*gravity, lines[0].Sections[1].Shear, 1e-3)
}

func TestBeamRefusesWhatDoesNotFit(t *testing.T) {
	strips := inboardWinglet()
	for want, try := range map[string]struct {
		beam  Beam
		flown Flown
	}{
		`loads in "trial": no strip belongs to ["wing"]; the strips are of ["winglet"]`: {Beam{Surfaces: []string{"wing"}}, Flown{Condition: levelAt(1, false), Right: strips}},
		`loads in "trial": the beam stands up and names 2 surfaces`:                     {Beam{Surfaces: []string{"winglet", "wing"}, Upright: true}, Flown{Condition: levelAt(1, false), Right: strips}},
		`loads in "still": the speed is 0 m/s`:                                          {Beam{Surfaces: []string{"winglet"}}, Flown{Condition: Condition{Name: "still"}, Right: strips}},
		`loads in "trial", left half: no strip belongs to`:                              {Beam{Surfaces: []string{"winglet"}}, Flown{Condition: levelAt(1, false), Right: strips, Left: []aero.StripLoad{{Surface: "fin"}}}},
		`1 values of x for 2 stations`:                                                  {Beam{Surfaces: []string{"winglet"}, Stations: []float64{0, 1}, Axis: []float64{3}}, Flown{Condition: levelAt(1, false), Right: strips}},
	} {
		_, err := try.beam.Lines(try.flown)
		require.ErrorContains(t, err, want)
	}
	require.Equal(t, r3.Vec{Y: 1}, (Section{Y: 2}).frame().along)
}
