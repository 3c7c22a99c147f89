package prediction

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
	"wingproof/aero/atmosphere"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
)

var inf = math.Inf(1)

// The trimmed elevator of the lattice against δ = δ0 + rate·(CG − NP)·CL: the same where the line touches, and within 0.2° of it over the
// lift coefficients and CGs near there.
func TestTrimmedElevatorIsALineInLiftAndCG(t *testing.T) {
	s := Setup{CG: r3.Vec{X: 2.1}}
	s.Lattice.Density = 0.5
	a := analysed(t, plain(), s)
	neutral, rate := a.Value(evidence.NeutralPoint), a.Value(evidence.ElevatorTrimRate)
	const lift, cg = 0.7, 2.0
	zero, err := ZeroLiftElevator(a, s, neutral, rate, lift, cg)
	require.NoError(t, err)
	for _, cl := range []float64{0.6, 0.7, 0.8} {
		for _, x := range []float64{2.0, 2.05, 2.1} {
			direct, err := TrimmedElevator(a, s, cl, x)
			require.NoError(t, err)
			require.InDelta(t, direct/deg, (zero+rate*(x-neutral)*cl)/deg, 0.2, "lift %.1f at %.2f m", cl, x)
		}
	}
	there, err := TrimmedElevator(a, s, lift, cg)
	require.NoError(t, err)
	require.InDelta(t, there, zero+rate*(cg-neutral)*lift, 1e-12)
	state, err := a.Solution.Trim(lift, "elevator", r3.Vec{X: cg}) // by the lattice's own road
	require.NoError(t, err)
	require.InDelta(t, state.Controls["elevator"], there, 1e-12)
	require.Positive(t, a.Solution.Derivatives(state, r3.Vec{X: cg}).ByControl["elevator"].Pitch, "trailing edge down raises the nose")
}

func TestZeroLiftElevatorNeedsAnElevator(t *testing.T) {
	a := plain()
	a.Surfaces[1].Hinges = nil
	s := Setup{CG: r3.Vec{X: 2.1}}
	got, err := ZeroLiftElevator(analysed(t, a, s), s, 2.4, -1, 0.7, 2.0)
	require.NoError(t, err)
	require.True(t, math.IsNaN(got))
	_, ok := NoseUpStop(a, s)
	require.False(t, ok)
	stop, ok := NoseUpStop(plain(), s)
	require.True(t, ok)
	require.Equal(t, 0.4, stop)
	behind := plain()
	behind.Surfaces[1].Role = aero.RoleFin
	stop, ok = NoseUpStop(behind, s)
	require.True(t, ok)
	require.Equal(t, behind.Surfaces[1].Hinges[0].TravelMin, stop)
}

// The foremost loading at the approach speed, by hand: 650 kg at 40 m/s on 8 m²: CL = 2·650·9.80665/(1.225·1600·8).
func TestApproach(t *testing.T) {
	p := stallProgram()
	_, _, ok := Approach(p, 8)
	require.False(t, ok, "no approach speed is stated")
	p.FullSize.ApproachSpeed = 40
	lift, cg, ok := Approach(p, 8)
	require.True(t, ok)
	require.InDelta(t, 0.813051, lift, 1e-6)
	require.InDelta(t, (400*2.3+250*2.1)/650, cg, 1e-12)
	require.InEpsilon(t, 650*atmosphere.Gravity, lift*8*atmosphere.SeaLevelDensity/2*1600, 1e-12)
	_, _, ok = Approach(&program.Program{FullSize: program.FullSize{ApproachSpeed: 40}}, 8)
	require.False(t, ok, "no loading flies")
}
