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

// everything runs all fits and returns their results as text, byte for byte.
func everything(t require.TestingT, points []Point, s Systematics, pooled *Scatter) string {
	np, slopes := NeutralPoint(points, s, pooled)
	lift, zero := TrimmedLiftCurve(points, 2.35, s, pooled)
	cd0, k, least := DragPolar(points, s, pooled)
	band := LiftBand(points, 2.35, s, pooled, []float64{0, 0.05, 0.1})
	out, err := json.Marshal([]any{np, slopes, lift, zero, LiftCurveSlope(points, s, pooled), cd0, k, least,
		StaticMargin(np, 2.3, 1), SpanEfficiency(k, 8), band})
	require.NoError(t, err, "every number is finite or nil")
	return string(out)
}

func drawProgramme(t *rapid.T) []Point {
	random := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1))
	flights := rapid.IntRange(4, 8).Draw(t, "flights")
	return canard().programme(random, flights, []float64{2.30, 2.40}, errors1())
}

func TestOrderOfPointsDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		points := drawProgramme(t)
		s := Systematics{CG: 0.003, AirspeedScale: 0.01, Mass: 0.01, GlideVertical: 0.2}
		want := everything(t, points, s, PoolScatter([][]Point{points, points}))
		shuffled := rapid.Permutation(points).Draw(t, "order")
		require.Equal(t, want, everything(t, shuffled, s, PoolScatter([][]Point{shuffled, shuffled})))
	})
}

func TestShiftOfDatumShiftsTheNeutralPoint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		points := drawProgramme(t)
		shift := rapid.Float64Range(-5, 5).Draw(t, "shift")
		before, _ := NeutralPoint(points, Systematics{}, nil)
		for i := range points {
			points[i].CG += shift
		}
		after, _ := NeutralPoint(points, Systematics{}, nil)
		require.Equal(t, before.Set, after.Set)
		if before.Value == nil { // scatter that no trim slope shows through
			require.Nil(t, after.Value)
			return
		}
		require.InDelta(t, *before.Value+shift, *after.Value, 1e-7*(1+math.Abs(*before.Value)))
		if before.Low != nil {
			require.InDelta(t, *before.Low+shift, *after.Low, 1e-6*(1+math.Abs(*before.Low)))
		}
	})
}

func TestScaleOfElevatorAndLiftCancels(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		points := drawProgramme(t)
		elevator := rapid.Float64Range(0.1, 10).Draw(t, "elevator")
		lift := rapid.Float64Range(0.2, 5).Draw(t, "lift")
		before, slopes := NeutralPoint(points, Systematics{}, nil)
		for i := range points {
			points[i].Elevator *= elevator
			points[i].ElevatorSD *= elevator
			points[i].Lift *= lift
			points[i].LiftSD *= lift
		}
		after, scaled := NeutralPoint(points, Systematics{}, nil)
		require.Equal(t, before.State, after.State)
		if before.Value == nil { // scatter that no trim slope shows through
			require.Nil(t, after.Value)
			return
		}
		require.InDelta(t, *before.Value, *after.Value, 1e-6*(1+math.Abs(*before.Value)))
		require.InEpsilon(t, slopes.Slope[0]*elevator/lift, scaled.Slope[0], 1e-6)
	})
}

func TestDegenerateInputsGiveWords(t *testing.T) {
	one := Point{Flight: "F1", CG: 2.3, Lift: 0.5, Alpha: 0.05, Elevator: 0.1, Drag: 0.04, HasDrag: true, Power: idlePower}
	two := one
	two.Lift, two.Alpha, two.Drag = 0.7, 0.09, 0.05
	bad := one
	bad.Lift, bad.Alpha, bad.Elevator = math.NaN(), math.Inf(1), math.NaN()
	cases := map[string][]Point{"none": nil, "one": {one}, "same twice": {one, one}, "two": {one, two}, "not numbers": {bad, bad, one}}
	for _, name := range []string{"none", "one", "same twice", "two", "not numbers"} {
		t.Run(name, func(t *testing.T) {
			points := cases[name]
			np, _ := NeutralPoint(points, Systematics{}, nil)
			slope, zero := TrimmedLiftCurve(points, 2.3, Systematics{}, nil)
			cd0, k, least := DragPolar(points, Systematics{}, nil)
			for _, r := range []Result{np, slope, zero, LiftCurveSlope(points, Systematics{}, nil), cd0, k, least} {
				require.Equal(t, NotDetermined, r.State, r.Quantity)
				require.NotEmpty(t, r.Warnings, r.Quantity)
				require.Nil(t, r.Low)
				require.Nil(t, r.High)
				require.Nil(t, r.SD)
			}
			everything(t, points, Systematics{}, PoolScatter([][]Point{points}))
		})
	}
}

// Any numbers at all: no panic, and every number in a result is finite.
func TestNothingPanics(t *testing.T) {
	number := rapid.OneOf(rapid.Float64Range(-2, 2), rapid.SampledFrom([]float64{0, 1e-300, 1e300, math.NaN(), math.Inf(1), math.Inf(-1), 0.5}))
	point := rapid.Custom(func(t *rapid.T) Point {
		return Point{
			Flight: fmt.Sprintf("F%d", rapid.IntRange(0, 4).Draw(t, "flight")), CG: number.Draw(t, "cg"),
			Alpha: number.Draw(t, "alpha"), AlphaSD: number.Draw(t, "alpha sd"), Lift: number.Draw(t, "lift"), LiftSD: number.Draw(t, "lift sd"),
			Elevator: number.Draw(t, "elevator"), ElevatorSD: number.Draw(t, "elevator sd"), Drag: number.Draw(t, "drag"),
			DragSD: number.Draw(t, "drag sd"), HasDrag: rapid.Bool().Draw(t, "has drag"),
			Power: rapid.SampledFrom([]string{"idle", "idle", "level"}).Draw(t, "power"), Reynolds: number.Draw(t, "reynolds"), Airspeed: number.Draw(t, "airspeed"),
		}
	})
	rapid.Check(t, func(t *rapid.T) {
		points := rapid.SliceOfN(point, 0, 25).Draw(t, "points")
		s := Systematics{AirspeedScale: 0.01, CG: 0.01, CGScale: 0.01, Alpha: 0.01, GlideVertical: number.Draw(t, "vertical")}
		everything(t, points, s, nil)
		everything(t, points, s, PoolScatter([][]Point{points, points}))
	})
}
