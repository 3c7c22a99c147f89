package estimate

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// everyDynamic runs the fits of sideslips, turns and stalls and returns their results as text, byte for byte.
func everyDynamic(t require.TestingT, p programme, s Systematics) string {
	point, perG := ManoeuvrePoint(p.loads[0], p.points[0], s, p.scatter)
	lift, alpha := MaximumLifts(p.stalls[0], s, p.scatter)
	directional, dihedral := StiffnessFromSideslip(p.slips[0], canard().lateralLoan(s), s, p.scatter)
	_, slopes := NeutralPoint(p.points[0], s, p.scatter)
	out, err := json.Marshal([]any{point, perG, lift, alpha, SideslipSlopes(p.slips[0], s, p.scatter), directional, dihedral,
		ElevatorPower(p.points[0], 1, s, p.scatter), ElevatorPerLift(slopes)})
	require.NoError(t, err, "every number is finite or nil")
	return string(out)
}

func TestOrderOfManoeuvresDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		random := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 2))
		p := flyProgramme(random, canard(), 2, 3, 5, []float64{2.30, 2.40}, usualErrors(), 0.2)
		s := usualErrors()
		p.pool()
		want := everyDynamic(t, p, s)
		p.points[0] = rapid.Permutation(p.points[0]).Draw(t, "points")
		p.loads[0] = rapid.Permutation(p.loads[0]).Draw(t, "loads")
		p.slips[0] = rapid.Permutation(p.slips[0]).Draw(t, "slips")
		p.stalls[0] = rapid.Permutation(p.stalls[0]).Draw(t, "stalls")
		p.pool()
		require.Equal(t, want, everyDynamic(t, p, s))
	})
}

// Any numbers at all: no panic, and every number in a result is finite.
func TestNoManoeuvrePanics(t *testing.T) {
	number := rapid.OneOf(rapid.Float64Range(-2, 2), rapid.SampledFrom([]float64{0, 1e-300, 1e300, math.NaN(), math.Inf(1), math.Inf(-1), 0.5}))
	power := rapid.SampledFrom([]string{"idle", "idle", "level"})
	flight := rapid.Custom(func(t *rapid.T) string { return fmt.Sprintf("F%d", rapid.IntRange(0, 4).Draw(t, "flight")) })
	point := rapid.Custom(func(t *rapid.T) Point {
		return Point{Flight: flight.Draw(t, "f"), CG: number.Draw(t, "cg"), Lift: number.Draw(t, "lift"), LiftSD: number.Draw(t, "sd"),
			Elevator: number.Draw(t, "elevator"), ElevatorSD: number.Draw(t, "sd"), Power: power.Draw(t, "power")}
	})
	load := rapid.Custom(func(t *rapid.T) Load {
		return Load{Flight: flight.Draw(t, "f"), CG: number.Draw(t, "cg"), Kind: rapid.SampledFrom([]string{"turn", pullUp}).Draw(t, "kind"), LoadFactor: number.Draw(t, "n") + 1.5,
			Lift: number.Draw(t, "lift"), LiftSD: number.Draw(t, "sd"), PitchRate: number.Draw(t, "rate"), Elevator: number.Draw(t, "e"), ElevatorSD: number.Draw(t, "sd"), Power: power.Draw(t, "power")}
	})
	slip := rapid.Custom(func(t *rapid.T) Slip {
		return Slip{Flight: flight.Draw(t, "f"), CG: number.Draw(t, "cg"), Lift: number.Draw(t, "lift"), Sideslip: number.Draw(t, "beta"), SideslipSD: number.Draw(t, "sd"),
			Rudder: number.Draw(t, "r"), RudderSD: number.Draw(t, "sd"), Aileron: number.Draw(t, "a"), SideForce: number.Draw(t, "y"), Bank: number.Draw(t, "bank"),
			RollRate: number.Draw(t, "p"), YawRate: number.Draw(t, "yaw"), Power: power.Draw(t, "power")}
	})
	stall := rapid.Custom(func(t *rapid.T) Stall {
		return Stall{Flight: flight.Draw(t, "f"), CG: number.Draw(t, "cg"), Lift: number.Draw(t, "lift"), LiftSD: number.Draw(t, "sd"), Alpha: number.Draw(t, "alpha"),
			AlphaSD: number.Draw(t, "sd"), Slowing: number.Draw(t, "slowing"), Reynolds: number.Draw(t, "re"), Broke: rapid.Bool().Draw(t, "broke"),
			First: rapid.SampledFrom([]string{"foreplane", "wing", "unknown"}).Draw(t, "first"), Power: power.Draw(t, "power")}
	})
	rapid.Check(t, func(t *rapid.T) {
		p := programme{points: [][]Point{rapid.SliceOfN(point, 0, 15).Draw(t, "points")}, loads: [][]Load{rapid.SliceOfN(load, 0, 10).Draw(t, "loads")},
			slips: [][]Slip{rapid.SliceOfN(slip, 0, 15).Draw(t, "slips")}, stalls: [][]Stall{rapid.SliceOfN(stall, 0, 10).Draw(t, "stalls")}}
		everyDynamic(t, p, usualErrors())
		p.pool()
		everyDynamic(t, p, usualErrors())
	})
}
