package decide

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/evidence"
)

// waitingProblem has a strake skin that waits for the aft margin, gear parts that wait for scales, and a winglet that waits for flights.
func waitingProblem() Problem {
	p := testProblem()
	p.Limits[0].AtLeast = at(5.5)
	p.Limits[5].AtLeast = at(17.9 * degree)
	p.Aircraft.EmptyX.SD = 0.02
	for i := range p.Predictions {
		p.Predictions[i].Doubt = map[string]float64{evidence.NeutralPoint: 0.01}
	}
	for i := range p.Parts {
		p.Parts[i].HoursLeft = float64(10 * (i + 1))
	}
	levels := levelsOf("winglet=mid foreplane=long")
	s := slopesAt(levels, 4.16, testRate, 0.006, []float64{3.95, 4.05}, "F1", "F2")
	s.Common = map[string][]float64{"cg": {0.004, 0.004}}
	p.TrimSlopes = []TrimSlopes{s}
	p.Direct = []Direct{{Levels: levels, Quantity: evidence.DirectionalStiffness, Value: 0.076, SDOwn: 0.004, Degrees: math.Inf(1),
		Common: map[string]float64{"inertia": 0.003}, Flights: []string{"F1", "F2"}}}
	return p
}

func candidates() []Candidate {
	levels := levelsOf("winglet=mid foreplane=short")
	s := slopesAt(levels, 0, 0, 0.004, []float64{3.95, 4.05}, "next 1", "next 2")
	s.Common = map[string][]float64{"cg": {0.004, 0.004}}
	return []Candidate{
		{Kind: "flights", Say: "fly", Flights: 2, TrimSlopes: []TrimSlopes{s},
			Direct: []Direct{{Levels: levels, Quantity: evidence.DirectionalStiffness, SDOwn: 0.002, Degrees: math.Inf(1), Common: map[string]float64{"inertia": 0.003}, Flights: []string{"next 1", "next 2"}}}},
		{Kind: "scales", Say: "weigh", Scales: &Scales{1, 0.003, 0.01}},
		{Kind: "proof load", Say: "load the spar", Proof: map[string]float64{"main-spar": 0.01}},
		{Kind: "sections", Say: "section data", Step: map[string]float64{"reynolds": 0.3}, Doubts: 0.3},
		{Kind: "calibration", Say: "weigh the model's CG", Calibrated: map[string]float64{"cg": 0.3, "inertia": 0.3}},
	}
}

// What a measurement will find is not known, so that the mean of all probabilities that it may lead to is the one of now. Every kind
// of candidate is held to it, over 150 outcomes.
func TestForecastsNeitherHopeNorFear(t *testing.T) {
	p := waitingProblem()
	p.Parts = nil
	n := 150
	if testing.Short() {
		n = 30 // the luck that the comparison allows for grows with it
	}
	f, err := newForecast(p, n, 1000)
	require.NoError(t, err)
	for _, c := range candidates() {
		var sum, square [2]float64
		moved := 0.0
		now := f.verdict.Configurations[3] // winglet mid, foreplane short or long by order; the same one throughout
		watched := []int{0, 5}             // aft margin and tip-back
		for m := range n {
			after, err := f.after(c, m)
			require.NoError(t, err)
			_, v, err := f.free(after)
			require.NoError(t, err)
			for k, r := range watched {
				got := v.Configurations[3].Limits[r].Probability
				sum[k] += got / float64(n)
				square[k] += got * got / float64(n)
				moved += math.Abs(got - now.Limits[r].Probability)
			}
			moved += math.Abs(v.Configurations[3].Limits[2].Probability-now.Limits[2].Probability) + math.Abs(v.Configurations[3].Limits[9].Probability-now.Limits[9].Probability)
		}
		require.NotZero(t, moved, "%s changes nothing", c.Say)
		for k, r := range watched {
			luck := 3.5*math.Sqrt(math.Max(0, square[k]-sum[k]*sum[k])/float64(n)) + 0.01
			require.InDelta(t, now.Limits[r].Probability, sum[k], luck, "%s: %s", c.Say, now.Limits[r].Limit)
		}
	}
}

// The ranking by hours, on a case where it is plain which measurement clears which part.
func TestNextRanksByHours(t *testing.T) {
	p := waitingProblem()
	endless := Candidate{Kind: "flights", Say: "without end", TrimSlopes: []TrimSlopes{slopesAt(levelsOf("winglet=mid foreplane=long"), 0, 0, 1e-6, []float64{3.9, 4.1}, "e1", "e2")}}
	steps := 0
	out, err := Next(t.Context(), p, candidates(), endless, func(done, total int) { steps++; require.LessOrEqual(t, done, total) })
	require.NoError(t, err)
	require.Equal(t, len(candidates())+1+mostPairs, steps, "each candidate, flying without end, and the best with the next ones")
	for i := 1; i < len(out.Prospects); i++ {
		require.GreaterOrEqual(t, out.Prospects[i-1].Hours, out.Prospects[i].Hours)
	}
	require.Positive(t, out.Waiting)
	for _, x := range out.Prospects {
		for _, part := range x.Parts {
			if part.Part == "gear well former" {
				require.Equal(t, "scales", x.Candidate.Kind, "only scales tell about tip-back")
			}
		}
	}
	again, err := Next(t.Context(), p, candidates(), endless, nil)
	require.NoError(t, err)
	require.Equal(t, out, again, "the same folder, the same forecast")
}
