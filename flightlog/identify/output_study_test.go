package identify

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"sort"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
	"wingproof/flightlog/statistic"
)

// The long study is `go test ./flightlog/identify -run CoverageOfEstimate -v -estimate-seeds 60 -estimate-rates 25,100 -timeout 60m`.
var (
	estimateSeeds = flag.Int("estimate-seeds", 3, "flights in each weather of the coverage study")
	estimateRates = flag.String("estimate-rates", "25", "sample rates of the coverage study, Hz, comma between")
)

// studySheet is what one flight of the study flies: doublets and multisteps of the controls of an axis at two speeds. Nobody's steps last
// whole samples, so their lengths vary.
func studySheet(ac rehearse.Aircraft, axis Axis, rng *rand.Rand) []rehearse.Card {
	cards := append(inputCards(ac, "aileron", 4*math.Pi/180), inputCards(ac, "rudder", 8*math.Pi/180)[1:]...)
	if axis == Longitudinal {
		cards = inputCards(ac, "elevator", 3*math.Pi/180)
	}
	for i := range cards {
		for k := range cards[i].Hand.Times {
			cards[i].Hand.Times[k] = 0.15 * (2*rng.Float64() - 1)
		}
	}
	return cards
}

// studyWeather has gusts of a standard deviation [m/s] in each horizontal component, half of it in the vertical.
func studyWeather(gusts float64) rehearse.Weather {
	w := rehearse.DefaultWeather()
	w.Turbulence = gusts / w.WindSpeed
	return w
}

// studyRate is the rate at which the study's flights are integrated and logged before they are thinned out, Hz: fast beside any rate
// that is tried, so that edges lie anywhere between samples.
const studyRate = 400.0

// studySegments flies one sheet, cuts the inputs out of the log and thins them to a rate [Hz]. Airspeed is the logged one.
func studySegments(t testing.TB, axis Axis, gusts, rate float64, seed uint64) ([]Segment, rehearse.Aircraft) {
	t.Helper()
	ac := rehearse.ExampleAircraft()
	ac.Continuous = true
	hand := rand.New(rand.NewPCG(seed, 78))
	ins := rehearse.DefaultInstruments()
	ins.FastRate, ins.AirRate = studyRate, studyRate
	log, err := rehearse.Fly(ac, studySheet(ac, axis, hand), studyWeather(gusts), ins, rand.New(rand.NewPCG(seed, 77)))
	require.NoError(t, err)
	f := rehearsed{aircraft: ac, log: log, name: fmt.Sprintf("S%03d", seed)}
	segments := f.segments()
	calibrated, _ := logged(log, flightlog.Airspeed)
	for i := range segments {
		s := &segments[i]
		from := sort.SearchFloat64s(log.Time, s.Start-1e-9)
		s.Airspeed = append([]float64(nil), calibrated[from:from+len(s.PitchRate)]...)
		ratio := math.Sqrt(atmosphere.SeaLevelDensity / s.Density)
		for k := range s.Airspeed {
			s.Airspeed[k] *= ratio
		}
		s.Gusts = gusts
		n := int(studyRate / rate)
		thin(s, hand.IntN(n), n)
	}
	return segments, ac
}

// thin keeps every n-th sample, from some sample on: a recorder does not know when the pilot moves.
func thin(s *Segment, first, n int) {
	for _, channel := range []*[]float64{
		&s.RollRate, &s.PitchRate, &s.YawRate, &s.ForwardForce, &s.RightForce, &s.DownForce, &s.Roll, &s.Pitch, &s.Airspeed, &s.Alpha, &s.Beta,
		&s.Elevator, &s.Aileron, &s.Rudder,
	} {
		kept := (*channel)[:0]
		for k := first; k < len(*channel); k += n {
			kept = append(kept, (*channel)[k])
		}
		*channel = kept
	}
	s.Step *= float64(n)
}

// logged finds a column.
func logged(l rehearse.Log, q flightlog.Quantity) ([]float64, bool) {
	for i, name := range l.Quantities() {
		if name == q {
			return l.Columns[i], true
		}
	}
	return nil, false
}

// scores are (value − truth)/sd and sd of each derivative over flights.
type scores struct {
	names  []string
	z, sd  map[string][]float64
	errors map[string][]float64
}

func (s *scores) add(fit Fit, truth map[string]float64) {
	if s.z == nil {
		s.z, s.sd, s.errors = map[string][]float64{}, map[string][]float64{}, map[string][]float64{}
	}
	for _, d := range fit.Derivatives {
		if _, seen := s.z[d.Quantity]; !seen {
			s.names = append(s.names, d.Quantity)
		}
		s.z[d.Quantity] = append(s.z[d.Quantity], (d.Value-truth[d.Quantity])/d.SD)
		s.sd[d.Quantity] = append(s.sd[d.Quantity], d.SD)
		s.errors[d.Quantity] = append(s.errors[d.Quantity], d.Value-truth[d.Quantity])
	}
}

// print gives one line a derivative and returns coverage and spread over all of them.
func (s *scores) print(t testing.TB, truth map[string]float64) (covered, spread float64) {
	inside, n, squares := 0.0, 0.0, 0.0
	for _, name := range s.names {
		var m, v, in, ms float64
		k := float64(len(s.z[name]))
		for i, z := range s.z[name] {
			m += z / k
			v += z * z / k
			ms += s.errors[name][i] * s.errors[name][i] / k
			if math.Abs(z) < 1.96 {
				in++
			}
		}
		inside, n, squares = inside+in, n+k, squares+v*k
		t.Logf("%-26s truth %8.4f  z mean %6.2f sd %5.2f  covered %5.1f %%  median sd %.4f  rms error %.4f", name, truth[name], m,
			math.Sqrt(math.Max(0, v-m*m)), 100*in/k, statistic.Median(s.sd[name]), math.Sqrt(ms))
	}
	return inside / n, math.Sqrt(squares / n)
}

func TestCoverageOfEstimate(t *testing.T) {
	for _, axis := range []Axis{Longitudinal, Lateral} {
		for _, text := range strings.Split(*estimateRates, ",") {
			rate, err := strconv.ParseFloat(text, 64)
			require.NoError(t, err)
			for _, gusts := range []float64{0, 0.2, 0.5} {
				t.Run(fmt.Sprintf("%s/rate=%g/gusts=%g", axis, rate, gusts), func(t *testing.T) {
					var all scores
					var truth map[string]float64
					methods := map[string]int{}
					for seed := range *estimateSeeds {
						segments, ac := studySegments(t, axis, gusts, rate, uint64(seed))
						setup := setupOf(ac)
						truth = truths(ac, setup)
						fit, err := Estimate(segments, axis, setup)
						require.NoError(t, err)
						methods[fit.Method]++
						all.add(fit, truth)
					}
					covered, spread := all.print(t, truth)
					// derivatives of one flight go together: about three independent numbers each
					require.Less(t, spread, 1+3/math.Sqrt(6*float64(*estimateSeeds)))
					t.Logf("all: covered %.1f %%, spread of z %.2f, %v", 100*covered, spread, methods)
				})
			}
		}
	}
}
