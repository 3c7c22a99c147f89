package prediction

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
	"wingproof/aero/atmosphere"
	"wingproof/aero/lattice"
	"wingproof/cmd/wingproof/internal/program"
)

func grounded() *program.Program {
	return &program.Program{
		Gear:     &program.Gear{NoseX: 0.5, MainX: 3.0, Track: 2, GroundZ: -1},
		FullSize: program.FullSize{EmptyMass: program.Figure{Value: 500}, EmptyX: program.Figure{Value: 2.4}},
		Loadings: []program.Loading{
			{Name: "light", Flies: true, Items: []program.Item{{What: "pilot", Mass: 60, X: 1.8}}},
			{Name: "heavy nose", Flies: true, Items: []program.Item{{What: "two", Mass: 180, X: 1.5}}},
		},
	}
}

func TestTakeOffBalancesTheWeightAtTheSpeedFound(t *testing.T) {
	p := grounded()
	r, missing, err := TakeOff(p, plain(), Setup{})
	require.NoError(t, err)
	require.Empty(t, missing)
	require.Equal(t, "heavy nose", r.Loading)
	require.Equal(t, 0.4, r.Elevator)
	// by another road: forces and moment about the CG, carried to the wheels by hand
	solution, err := lattice.Solve(plain(), lattice.Options{Ground: &lattice.Ground{Height: 1}})
	require.NoError(t, err)
	state := lattice.State{Controls: map[string]float64{"elevator": 0.4}}
	cg := solution.Coefficients(state, r3.Vec{X: r.CG, Z: -1})
	ref := solution.Reference()
	q := atmosphere.SeaLevelDensity / 2 * r.Speed * r.Speed
	moment := q*ref.Area*ref.MeanChord*cg.Pitch + q*ref.Area*cg.Lift*(3-r.CG) // lift ahead of the wheels raises the nose
	require.InEpsilon(t, r.Mass*atmosphere.Gravity*(3-r.CG), moment, 1e-9)
}

// Solved together, every airframe has the numbers that it has alone, and one that lacks something keeps its place.
func TestTakeOffsAreThoseOfEachAlone(t *testing.T) {
	p := grounded()
	wider, err := plain().SetSpan("foreplane", 3.4)
	require.NoError(t, err)
	fixed := plain()
	fixed.Surfaces[1].Hinges = nil
	airframes := []aero.Airframe{plain(), fixed, wider}
	all, missing, err := TakeOffs(p, airframes, Setup{})
	require.NoError(t, err)
	require.Contains(t, missing[1][0], "travel_deg")
	require.Zero(t, all[1])
	for _, i := range []int{0, 2} {
		alone, _, err := TakeOff(p, airframes[i], Setup{})
		require.NoError(t, err)
		require.Empty(t, missing[i])
		require.InEpsilon(t, alone.Speed, all[i].Speed, 1e-9)
		require.Equal(t, alone.Loading, all[i].Loading)
	}
	require.NotEqual(t, all[0].Speed, all[2].Speed)
}

func TestGroundHoldsTheForeplaneUp(t *testing.T) {
	p := grounded()
	near, _, err := TakeOff(p, plain(), Setup{})
	require.NoError(t, err)
	p.Gear.GroundZ = -50
	far, _, err := TakeOff(p, plain(), Setup{})
	require.NoError(t, err)
	// about the wheels far below, the drag of a tall aircraft counts too; compare about one point: the foreplane's own gain
	require.False(t, math.IsInf(near.Speed, 1))
	lift := func(ground *lattice.Ground) float64 {
		s, err := lattice.Solve(plain(), lattice.Options{Ground: ground})
		require.NoError(t, err)
		return s.Derivatives(lattice.State{}, r3.Vec{}).ByControl["elevator"].Lift
	}
	require.Greater(t, lift(&lattice.Ground{Height: 1}), lift(nil))
	require.NotEqual(t, near.Moment, far.Moment)
}

func TestTakeOffSaysWhatIsMissing(t *testing.T) {
	_, missing, err := TakeOff(&program.Program{}, plain(), Setup{})
	require.NoError(t, err)
	require.Contains(t, missing[0], "[gear]")
	p := grounded()
	a := plain()
	a.Surfaces[1].Hinges[0].TravelMax = -0.3
	_, missing, err = TakeOff(p, a, Setup{})
	require.NoError(t, err)
	require.Contains(t, missing[0], "travel_deg")
	a.Surfaces[1].Hinges[0] = plain().Surfaces[1].Hinges[0]
	a.Surfaces[1].Hinges[0].TravelMin, a.Surfaces[1].Hinges[0].TravelMax = -0.9, -0.8 // nose down only: it never lifts
	r, _, err := TakeOff(p, a, Setup{})
	require.NoError(t, err)
	require.True(t, math.IsInf(r.Speed, 1))
}

// An airframe that fails is named by its place among all, whatever of the others was left out before.
func TestTheAirframeThatFailsIsNamed(t *testing.T) {
	why := errors.New("it crosses itself")
	var one *lattice.AirframeError
	require.ErrorAs(t, blamed(&lattice.AirframeError{Index: 1, Err: why}, []int{1, 2}, 3), &one)
	require.Equal(t, lattice.AirframeError{Index: 2, Err: why}, *one)
	require.ErrorAs(t, blamed(why, []int{1}, 2), &one, "solved alone, it has no place of its own")
	require.Equal(t, lattice.AirframeError{Index: 1, Err: why}, *one)
	require.Equal(t, why, blamed(why, []int{0}, 1))
	require.Equal(t, why, blamed(why, []int{0, 1}, 2))
}
