package estimate

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog/identify"
)

// coverageTimes makes the coverage tests of derivatives, roads, differences and configurations into a long study.
var coverageTimes = flag.Float64("coverage-times", 1, "multiplies the synthetic programmes of the coverage tests of derivatives, roads and configurations")

// trials is a number of synthetic programmes.
func trials(n int) int {
	if testing.Short() {
		n /= 4
	}
	return max(1, int(float64(n)**coverageTimes))
}

// derivativeTrial is a world from which synthetic fits are drawn: value + shared errors + scatter between flights + the fit's own error.
type derivativeTrial struct {
	configurations, flights int
	between                 float64 // τ, in typical sd
	factor                  float64 // √φ: the true random error over the sd that the fit states
	spread                  float64 // sd of the log of the stated sd, from flight to flight
}

// fly draws a program: the truth and fits of each configuration. One draw of the airspeed error serves them all.
func (w derivativeTrial) fly(random *rand.Rand) (truth []float64, programme [][]identify.Fit) {
	const sd, scale = 0.01, 0.02
	shared := scale * random.NormFloat64()
	for c := range w.configurations {
		value := 0.12 * (1 + 0.3*random.NormFloat64())
		truth = append(truth, value)
		var fits []identify.Fit
		for f := range w.flights {
			stated := sd * math.Exp(w.spread*random.NormFloat64())
			y := value + w.between*sd*random.NormFloat64() + w.factor*stated*random.NormFloat64()
			fits = append(fits, fitOf(fmt.Sprintf("%d-%d", c, f), identify.DirectionalStiff, y*(1-2*shared), stated, map[string]float64{SourceAirspeedScale: -2 * scale * y}))
		}
		programme = append(programme, fits)
	}
	return truth, programme
}

func fitOf(flight, quantity string, value, sd float64, common map[string]float64) identify.Fit {
	return identify.Fit{Axis: identify.Lateral, Method: "output error", Flights: []string{flight}, Segments: 3, Power: "idle", MomentX: 0.58, LiftCoefficient: 0.5,
		Derivatives: []identify.Derivative{{Quantity: quantity, Value: value, SD: sd, Common: common, Determined: true}}}
}

// rate is how often intervals hold the truth.
type rate struct {
	inside, all int
	width       float64
}

func (r *rate) count(x Result, truth float64) {
	if x.Low == nil {
		return
	}
	r.all++
	if truth >= *x.Low && truth <= *x.High {
		r.inside++
	}
	r.width += *x.High - *x.Low
}

func (r rate) share() float64 { return float64(r.inside) / float64(r.all) }

// meets tells whether the 95 % binomial interval of the rate (normal) meets 93–97 %.
func (r rate) meets() bool {
	p, n := r.share(), float64(r.all)
	reach := 1.96 * math.Sqrt(p*(1-p)/n)
	return p+reach >= 0.93 && p-reach <= 0.97
}

// Flights by 2, 3, 5 and 10, one to six configurations; scatter between flights none, like and three times the fits' own; fits that state their own
// error right, half of it, a third, double. In every world the intervals hold the truth in 93 to 97 % of cases, within what so many
// programmes can tell.
func TestDerivativeIntervalsCover(t *testing.T) {
	for i, w := range []derivativeTrial{
		{1, 2, 1, 1, 0.3}, {1, 3, 1, 1, 0.3}, {1, 5, 1, 1, 0.3}, {1, 10, 1, 1, 0.3},
		{2, 2, 1, 1, 0.3}, {3, 2, 1, 1, 0.3}, {4, 3, 1, 1, 0.3}, {5, 3, 1, 1, 0.3},
		{6, 2, 1, 1, 0.3}, {6, 3, 1, 1, 0.3}, {6, 5, 1, 1, 0.3}, {6, 10, 1, 1, 0.3},
		{1, 5, 0, 2, 0.5}, {1, 5, 3, 1, 0.5}, {1, 10, 0, 3, 0.5},
		{3, 3, 0, 1, 0.5}, {3, 3, 0, 2, 0.5}, {3, 3, 0, 3, 0.5}, {3, 3, 3, 1, 0.5},
		{6, 2, 0, 2, 0.5}, {6, 5, 0, 3, 0.5}, {6, 5, 3, 1, 0.5}, {6, 3, 1, 2, 0.5}, {6, 3, 1, 0.5, 0.5},
	} {
		t.Run(fmt.Sprintf("%+v", w), func(t *testing.T) {
			t.Parallel()
			r := w.rate(uint64(i), trials(1200/w.configurations))
			t.Logf("%.1f %% of %d, mean width %.4f", 100*r.share(), r.all, r.width/float64(r.all))
			require.True(t, r.meets())
		})
	}
}

// Three flights that are known unequally well, and nothing else to tell whether they differ by more than that: Student's t of two
// degrees is too wide for unlike errors (98 %).
func TestThreeUnlikeFlightsAreWide(t *testing.T) {
	r := derivativeTrial{configurations: 1, flights: 3, between: 0, factor: 1, spread: 0.5}.rate(300, trials(1200))
	t.Logf("%.1f %% of %d", 100*r.share(), r.all)
	require.Greater(t, r.share(), 0.95)
	require.Less(t, r.share(), 0.99)
}

// One flight a configuration and nothing to pool: what flights differ by is not in the interval, so it is called weak. Student's t on three
// manoeuvres leaves room for as much scatter between flights as inside them (99 %), not for twice as much (92 %).
func TestOneFlightIsWide(t *testing.T) {
	for i, between := range []float64{0, 1} {
		r := derivativeTrial{configurations: 3, flights: 1, between: between, factor: 1, spread: 0.3}.rate(uint64(200+i), trials(400))
		t.Logf("scatter between flights %g sd: %.1f %% of %d", between, 100*r.share(), r.all)
		require.Greater(t, r.share(), 0.93)
	}
}

// rate flies programmes and counts.
func (w derivativeTrial) rate(seed uint64, programmes int) rate {
	random := rand.New(rand.NewPCG(seed, 7))
	var r rate
	for range programmes {
		truth, programme := w.fly(random)
		pooled := PoolDerivatives(programme)
		for c, fits := range programme {
			r.count(Derivatives(fits, nil, 0.25, pooled)[0], truth[c])
		}
	}
	return r
}
