package study

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/keep"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/flightlog/estimate"
	"wingproof/flightlog/reduce"
)

// slow is the invented aircraft of the demo in its baseline alone, with a limit on each quantity of slow flight, and nothing flown.
func slow(t *testing.T) *program.Program {
	t.Helper()
	p, err := program.Load("../demo/scenario")
	require.NoError(t, err)
	p.Dir, p.Flights, p.Choices, p.Parts, p.Built, p.Limits = t.TempDir(), nil, nil, nil, nil, nil
	p.FullSize.ApproachSpeed = 40
	return p
}

func limitsOn(quantities ...string) []program.Limit {
	var out []program.Limit
	for _, q := range quantities {
		out = append(out, program.Limit{Name: q, Quantity: q, AtLeast: evidence.Pointer(0.01), Evidence: "analysis", Source: "invented"})
	}
	return out
}

// Lattices of their own are solved only for limits that ask for them, once, and found again whatever the bounds are; the stall cases behind
// them, which the report draws, are not even read then.
func TestFullSizeIsComputedWhenAskedFor(t *testing.T) {
	p := slow(t)
	s, counts := asked(t, p, Judged, "one")
	require.Equal(t, keep.Counts{Computed: 2}, counts)
	require.Empty(t, s.Configurations[0].FullSize)

	p.Limits = limitsOn(evidence.StallingSpeed, evidence.StallOrderMargin, evidence.RotationSpeed, evidence.ElevatorRoom)
	s, counts = asked(t, p, Judged, "one")
	require.Equal(t, keep.Counts{Found: 1, Computed: 3}, counts) // stall cases, and what the limits rest on, and the verdict
	first := s.Configurations[0].FullSize
	require.Len(t, first.Beliefs, 3)
	require.Empty(t, first.Missing)
	require.Len(t, s.Verdict.Configurations[0].Limits, 4)
	for _, l := range s.Verdict.Configurations[0].Limits {
		require.Greater(t, l.High, l.Low, l.Limit)
	}

	p.Limits[0].AtLeast = evidence.Pointer(30.0)
	again, counts := asked(t, p, Judged, "one")
	require.Equal(t, keep.Counts{Found: 2, Computed: 1}, counts) // the verdict alone
	require.Equal(t, first, again.Configurations[0].FullSize)
	p.Limits = limitsOn(evidence.RotationSpeed)
	only, counts := asked(t, p, Judged, "one")
	require.Equal(t, keep.Counts{Found: 1, Computed: 2}, counts)
	require.Len(t, only.Configurations[0].FullSize.Beliefs, 1)
}

// What is handed to the judging: the model's greatest lift with a step up to full size, doubts of the section data at full size.
func TestWhatTheJudgingIsHanded(t *testing.T) {
	p := slow(t)
	p.Limits = limitsOn(evidence.StallingSpeed, evidence.StallOrderMargin, evidence.RotationSpeed)
	s := studied(t, p, Judged)
	missing, err := s.Stalls(context.Background())
	require.NoError(t, err)
	require.Empty(t, missing)
	problem, err := s.Problem()
	require.NoError(t, err)
	c, got := s.Configurations[0], problem.Predictions[0]
	require.Positive(t, got.Step[evidence.MaxLift], "section maxima rise with the Reynolds number")
	require.Positive(t, got.Doubt[evidence.MaxLift])
	require.Positive(t, got.Doubt[evidence.StallOrderMargin])
	require.NotContains(t, got.Step, evidence.StallOrderMargin, "it is computed at full size")
	require.InDelta(t, 26*math.Pi/180, got.NoseUpStop, 1e-12)
	for _, sc := range c.Stalls { // two roads: the least of the cases that are printed
		if v, ok := sc.Order.Margin.Value(); ok && sc.CanPass() {
			require.LessOrEqual(t, got.Values[evidence.StallOrderMargin], v, sc.Name)
		}
	}
	require.Equal(t, 40.0, problem.Aircraft.ApproachSpeed)
	require.Equal(t, c.Airframe.Reference.Area, problem.Aircraft.WingArea)
	require.Equal(t, p.FullSize.Iy.Value, problem.Aircraft.Iy.Value)
	full := 0
	for _, e := range s.Estimates {
		if e.Quantity == evidence.MaxLift && e.Scale == evidence.FullSize && e.Origin == evidence.Predicted {
			full++
			require.InDelta(t, got.Values[evidence.MaxLift]+got.Step[evidence.MaxLift], *e.Value, 1e-12)
			require.Equal(t, got.Doubt[evidence.MaxLift], e.Common[sectionData])
		}
	}
	require.Equal(t, 1, full)
}

// Without section data nothing is predicted, and it is said for want of what.
func TestSlowFlightWithoutSectionData(t *testing.T) {
	p := slow(t)
	p.Limits = limitsOn(evidence.StallingSpeed, evidence.StallOrderMargin)
	for i := range p.Aerofoils {
		p.Aerofoils[i].Polar = nil
	}
	_, err := Run(context.Background(), p, Options{Until: Judged})
	var input *InputError
	require.ErrorAs(t, err, &input)
	require.Equal(t, `program.toml: limit "stalling_speed" on stalling_speed cannot be judged with the only configuration: stall order and greatest lift are not predicted: `+
		`aerofoil "foreplane-15" has no polar, so that the stall order clean is not judged; it lies in surface "foreplane"`, input.What)
}

// Greatest lifts of flights are moved along the prediction to the foremost loading, with an error of their own for it.
func TestMeasuredGreatestLiftIsMoved(t *testing.T) {
	lift := func(cg, value float64, state string) estimate.Result {
		return estimate.Result{Quantity: evidence.MaxLift, State: state, Value: &value, SDOwn: evidence.Pointer(0.02), CG: cg, HasCG: true, Degrees: 3, Power: "idle",
			Flights: []string{"F1"}, Common: map[string]float64{"mass": 0.004}}
	}
	s := &Study{Configurations: []Configuration{{Name: "flown", FullSize: FullSize{ModelLifts: []LiftAt{{3.6, 0.56}, {3.8, 0.66}}}}, {Name: "not predicted"}},
		Fits: []Fit{{Configuration: "flown", Levels: map[string]string{"winglet": "mid"}, MaxLifts: []estimate.Result{
			lift(3.72, 0.60, estimate.Determined), lift(3.45, 0.5, estimate.Determined), lift(3.7, 0.6, estimate.Weak)}},
			{Configuration: "not predicted", MaxLifts: []estimate.Result{lift(3.7, 0.6, estimate.Determined)}}}}
	got := s.maxLiftEvidence()
	require.Len(t, got, 1)
	require.InDelta(t, 0.54, got[0].Value, 1e-12)
	require.InDelta(t, -0.012, got[0].Common[sourceMovedLift], 1e-12)
	require.Equal(t, 0.004, got[0].Common["mass"])
	require.Equal(t, "idle", got[0].Power)
	for i, want := range []string{"-0.060 is added", "too far from the CGs", "not determined well enough"} {
		_, says, _ := s.towardsForemost(s.Fits[0], s.Fits[0].MaxLifts[i])
		require.Contains(t, says[0], want)
	}
	_, says, ok := s.towardsForemost(s.Fits[1], s.Fits[1].MaxLifts[0])
	require.False(t, ok)
	require.Empty(t, says)
}

// Flights in which the wing let go first are told by configuration and place of the CG.
func TestFlightsWhoseWingLetGoFirst(t *testing.T) {
	mid := map[string]string{"winglet": "mid"}
	flight := func(name string, cg float64, first ...string) Flight {
		f := Flight{Flight: program.Flight{Name: name, CG: cg, Levels: mid}, Used: true}
		for _, surface := range first {
			f.Reduction.Stalls = append(f.Reduction.Stalls, reduce.StallPoint{First: surface, Kept: true})
		}
		return f
	}
	s := &Study{Configurations: []Configuration{{Levels: mid}}, Flights: []Flight{
		flight("F3", 3.80, reduce.FirstWing, reduce.FirstWing), flight("F1", 3.60, reduce.FirstForeplane), flight("F2", 3.61, reduce.FirstWing), flight("F4", 3.805, reduce.FirstWing)}}
	require.Equal(t, []decide.WingFirst{{Levels: mid, CG: 3.61, Flights: []string{"F2"}}, {Levels: mid, CG: 3.80, Flights: []string{"F3", "F4"}}}, s.wingFirst())
	s.Flights[2].Used = false
	require.Len(t, s.wingFirst(), 1)
}

// What limits on slow flight rest on has a stated error of theory; angles are stated in degrees and kept in radians, whatever the chord.
func TestSlowBeliefsHaveErrors(t *testing.T) {
	byName := map[string]decide.TheoryError{}
	for _, e := range TheoryErrors(&program.Program{}, 7) {
		byName[e.Quantity] = e
	}
	for quantity, relative := range map[string]bool{evidence.MaxLift: true, evidence.RotationMoment: true, evidence.StallOrderMargin: false, evidence.ZeroLiftElevator: false} {
		require.Equal(t, relative, byName[quantity].Relative, quantity)
		require.Positive(t, byName[quantity].Bias, quantity)
		require.Contains(t, byName[quantity].Source, "common practice, no source: ", quantity)
	}
	require.InDelta(t, 1.5*math.Pi/180, byName[evidence.ZeroLiftElevator].Bias, 1e-15)
	require.InDelta(t, 0.06, byName[evidence.MaxLift].Bias, 1e-15)
	require.Zero(t, byName[evidence.StallOrderMargin].FullSize["reynolds"], "it is computed at full size")
}
