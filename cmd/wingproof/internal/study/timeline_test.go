package study

import (
	"context"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/keep"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/flightlog/reduce"
)

// fiveFlights is a judged study of an invented program with four flights of the baseline and one of another winglet, whose trims are those of
// the lattice with a scatter of their own. Dates run against names.
func fiveFlights(t *testing.T, change func(*Flight)) *Study {
	t.Helper()
	p := invented(t)
	p.Limits = append(p.Limits, program.Limit{Name: "lift slope", Quantity: "lift_curve_slope", AtLeast: new(float64), Evidence: "flight"})
	configurations := p.Configurations()
	for i, cg := range []float64{-0.06, 0.06, -0.06, 0.06, 0} {
		p.Flights = append(p.Flights, program.Flight{Name: fmt.Sprintf("f%d", i+1), Date: fmt.Sprintf("2026-03-%02d", 20-i), Levels: configurations[i/4],
			Use: true, Mass: 14, MassSD: 0.05, CG: 3.5 + cg, CGSD: 0.004, Logger: "box"})
	}
	s := studied(t, p, Predicted)
	require.NoError(t, s.fullSize(context.Background()))
	for i, f := range p.Flights {
		flight := Flight{Flight: f, Used: true, Reduction: reduce.Reduction{Points: trims(s, f, 0.0008*float64(1-2*(i%3%2)))}}
		if change != nil {
			change(&flight)
		}
		s.Flights = append(s.Flights, flight)
	}
	require.NoError(t, s.conclude(context.Background(), Judged, newCounter(p, Options{Until: Judged})))
	for _, f := range s.Flights {
		require.True(t, f.Used, "%s: %s", f.Name, f.Why)
	}
	return s
}

// trims are the steady points that the lattice gives at the CG of a flight, bent by a departure of its own [rad].
func trims(s *Study, f program.Flight, departure float64) []reduce.TestPoint {
	var out []reduce.TestPoint
	for _, c := range s.Configurations {
		if c.Name != evidence.Name(f.Levels) {
			continue
		}
		for k := range 6 {
			lift := 0.3 + 0.12*float64(k)
			wave := departure * math.Sin(3*float64(k)+1)
			out = append(out, reduce.TestPoint{Flight: f.Name, Kept: true, Power: reduce.Idle, Lift: lift, LiftSD: 0.01, Alpha: 0.02 + lift/c.LiftSlope + wave, AlphaSD: 0.002,
				Elevator: 0.03 + c.ElevatorTrimRate*(f.CG-c.NeutralPoint)*lift + wave + departure*lift, ElevatorSD: 0.002, Airspeed: 20, Reynolds: 3e5})
		}
	}
	return out
}

// onBoard are the limits of a configuration as the board has them.
func onBoard(t *testing.T, s *Study, configuration string) []decide.LimitVerdict {
	t.Helper()
	for _, c := range s.Verdict.Configurations {
		if c.Configuration == configuration {
			return c.Limits
		}
	}
	require.Fail(t, "not on the board", configuration)
	return nil
}

// With all flights the timeline stands where the board does, to the last bit, and with none where theory alone does.
func TestTimelineRunsFromTheoryToTheBoard(t *testing.T) {
	s := fiveFlights(t, nil)
	names := []string{s.Configurations[0].Name, s.Configurations[1].Name}
	levels := []map[string]string{s.Configurations[0].Levels, s.Configurations[1].Levels}
	problem, err := s.Problem()
	require.NoError(t, err)
	require.NotEmpty(t, problem.TrimSlopes)

	all, err := s.limitsAfter(5, 0, levels)
	require.NoError(t, err)
	for c := range levels {
		for k, want := range onBoard(t, s, names[c]) {
			want.FlightsNeed = false
			require.Equal(t, want, all[c][k])
		}
	}
	problem.TrimSlopes, problem.Direct = nil, nil
	alone, err := decide.LimitVerdicts(problem, levels)
	require.NoError(t, err)
	none, err := s.limitsAfter(0, 0, levels)
	require.NoError(t, err)
	require.Equal(t, alone, none)
	require.NotEqual(t, alone, all)

	line, err := s.Timeline(context.Background(), names)
	require.NoError(t, err)
	require.Equal(t, []string{"f5", "f4", "f3", "f2", "f1"}, []string{line.Flights[0].Name, line.Flights[1].Name, line.Flights[2].Name, line.Flights[3].Name, line.Flights[4].Name})
	require.Len(t, line.Steps, 6)
	require.Equal(t, onBoard(t, s, names[0]), line.Steps[5].Limits[0])
	first, last := line.Steps[0].Limits[0][0], line.Steps[5].Limits[0][0]
	require.Equal(t, "static_margin", first.Quantity)
	require.Less(t, last.High-last.Low, 0.98*(first.High-first.Low), "four flights of this winglet narrow its margin")
	_, err = s.Timeline(context.Background(), []string{"winglet=huge"})
	require.ErrorContains(t, err, `no configuration "winglet=huge"`)
}

// Nothing of a later flight reaches an earlier step.
func TestEarlierStepsKnowNothingOfLaterFlights(t *testing.T) {
	s := fiveFlights(t, nil)
	other := fiveFlights(t, func(f *Flight) {
		if f.Name == "f1" { // the last one by date
			f.CGSD, f.MassSD = 0.05, 1
			for i := range f.Reduction.Points {
				f.Reduction.Points[i].Elevator *= 1.05
			}
		}
	})
	other.Program.Flights[0].CGSD, other.Program.Flights[0].MassSD = 0.05, 1
	levels := []map[string]string{s.Configurations[0].Levels}
	for n := range 6 {
		a, err := s.limitsAfter(n, 500, levels)
		require.NoError(t, err)
		b, err := other.limitsAfter(n, 500, levels)
		require.NoError(t, err)
		if n < 5 {
			require.Equal(t, a, b, n)
			continue
		}
		require.NotEqual(t, a, b)
	}
}

// The steps are kept: a second asking computes nothing, and a changed sample of a flight or a changed limit is another timeline.
func TestTimelineIsKept(t *testing.T) {
	s := fiveFlights(t, nil)
	ask := func() ([]TimelineStep, keep.Counts) {
		s.keep = keep.Open(s.Program.Dir, "one executable")
		line, err := s.Timeline(context.Background(), []string{s.Configurations[0].Name})
		require.NoError(t, err)
		return line.Steps, s.keep.Counts()
	}
	first, counts := ask()
	require.Equal(t, keep.Counts{Computed: 1}, counts)
	again, counts := ask()
	require.Equal(t, keep.Counts{Found: 1}, counts)
	require.Equal(t, first, again)
	s.reduced[0].Reduction.Points[0].Elevator += 1e-9
	_, counts = ask()
	require.Equal(t, 1, counts.Computed)
	s.Program.Limits[0].Name = "another name"
	_, counts = ask()
	require.Equal(t, 1, counts.Computed)
	s.Program.Parts = nil
	s.Program.Decisions = append(s.Program.Decisions, program.Decision{Number: 1})
	_, counts = ask()
	require.Equal(t, 1, counts.Found, "parts and decisions are judged by limits, not the other way round")
}

// Few flights are all judged; of seventeen the first three and then every second or third: 4 … 17 in six even parts.
func TestStepsAreThinned(t *testing.T) {
	require.Empty(t, stepsTo(0))
	require.Equal(t, []int{0, 1, 2}, stepsTo(3))
	require.Equal(t, []int{0, 1, 2, 3, 4, 5, 6, 7, 8}, stepsTo(9))
	require.Equal(t, []int{0, 1, 2, 3, 5, 7, 10, 12, 14}, stepsTo(17))
	for n := range 200 {
		steps := stepsTo(n)
		require.Less(t, len(steps), mostSteps)
		for i := range steps {
			require.True(t, i == 0 || steps[i] > steps[i-1])
			require.Less(t, steps[i], n)
		}
	}
}
