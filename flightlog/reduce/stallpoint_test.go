package reduce

import (
	"flag"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

// gusty is a day on which one still flies tests: gusts of 0.6 m/s.
func gusty() rehearse.Weather {
	return rehearse.Weather{WindSpeed: 4, Turbulence: 0.15, VerticalSD: 0.2}
}

// slowSheets are flights of four decelerations each.
func slowSheets(first rehearse.Stall, flights int) []sheet {
	ac := rehearse.ExampleAircraft()
	ac.Stall = first
	var out []sheet
	for seed := range flights {
		out = append(out, sheet{aircraft: ac, cards: rehearse.ManoeuvreCards(ac.StallSpeed(1.225))[2], weather: weathers(seed), seed: uint64(seed)})
	}
	return out
}

// The greatest of noisy values is too great: by one and a half standard deviations of the noise where lift levels off. Of that peakOf leaves two thirds of its own standard deviation at the worst, which
// is smaller; a stretch that is level for all of six seconds, which no deceleration is, keeps nine tenths.
func TestPeakIsNotFlattered(t *testing.T) {
	const n, cases, noise, width = 60, 120, 0.01, 0.15
	rng := rand.New(rand.NewPCG(8, 9))
	for _, c := range []struct {
		name  string
		curve func(x float64) float64
	}{
		{"level", func(x float64) float64 { return 1.3 }},
		{"then level", func(x float64) float64 { return 1.3 - 0.075*math.Max(0, 4-x) }},
		{"rising", func(x float64) float64 { return 1 + 0.05*x }},
		{"levelling off", func(x float64) float64 { return 1.3 - 0.15*math.Exp(-x) }},
		{"rounded", func(x float64) float64 { return 1.3 - 0.05*(x-4)*(x-4) }},
	} {
		name, curve := c.name, c.curve
		var z, plain []float64
		most := math.Inf(-1)
		for range cases {
			values := make([]float64, n)
			g := grid{n: n}
			raw := flightlog.Channel{}
			for k := -20; k < 170; k++ { // 25 samples a second
				raw.Time, raw.Value = append(raw.Time, float64(k)/25), append(raw.Value, rng.NormFloat64())
			}
			white := g.smoothOver(raw, width, 0, g.n)
			keeps := math.Sqrt(1 / (25 * 2 * math.SqrtPi * width))
			for i := range values {
				values[i] = curve(g.time(i)) + noise*white[i]/keeps
				most = math.Max(most, curve(g.time(i)))
			}
			_, peak, sd := peakOf(values, noise, width, rand.New(rand.NewPCG(1, 2)))
			z, plain = append(z, (peak-most)/sd), append(plain, (values[highest(values)]-most)/noise)
		}
		rms, bias := spreadOf(z)
		_, flattered := spreadOf(plain)
		t.Logf("%s: the greatest is %.2f standard deviations too great, what is given %.2f; spread %.2f", name, flattered, bias, rms)
		allowed := 0.8
		if name == "level" {
			allowed = 1.1
		}
		require.Less(t, math.Abs(bias), allowed, name)
		require.Less(t, rms, 0.9+allowed, name)
		require.Greater(t, rms, 0.7, name)
		require.Greater(t, flattered, -0.1, name)
	}
}

// flightsOfStudy is how many flights the studies of standard deviations fly; more tell more.
var flightsOfStudy = flag.Int("flights", 9, "flights of each study of standard deviations")

// weathers go from still air to gusts of 0.6 m/s, in turn.
func weathers(i int) rehearse.Weather {
	return [...]rehearse.Weather{{}, rehearse.DefaultWeather(), gusty()}[i%3]
}

// The greatest lift of a deceleration is that which an exact recorder finds in the same flight, within its standard deviation, and near the highest
// lift that the aircraft has.
func TestGreatestLiftIsHonest(t *testing.T) {
	ac := rehearse.ExampleAircraft()
	highest, _, err := ac.HighestLift()
	require.NoError(t, err)
	var z, alpha, off []float64
	for _, x := range trials(t, rehearse.DefaultInstruments(), slowSheets(rehearse.Stall{}, *flightsOfStudy)) {
		plain := x.reduce(t, x.truth)
		for _, p := range x.reduced.Stalls {
			if !p.Kept {
				continue
			}
			for _, q := range plain.Stalls {
				if q.Kept && math.Abs(p.Start-q.Start) < 4 {
					z = append(z, (p.Lift-q.Lift)/p.LiftSD)
				}
			}
			off = append(off, p.Lift/highest-1)
			alpha = append(alpha, (p.Alpha-over(x.log, x.log.Truth.Alpha, p.Time-0.05, p.Time+0.05))/p.AlphaAbsoluteSD)
			require.InDelta(t, 0.8, p.Slowing, 1.2)
		}
	}
	requireHonest(t, "greatest lift", z, 30)
	_, bias := spreadOf(z)
	require.Less(t, math.Abs(bias), 3/math.Sqrt(float64(len(z)))+0.1)
	scatter, mean := spreadOf(off)
	t.Logf("against the highest lift of the aircraft: %+.1f %%, scatter %.1f %%", mean*100, math.Sqrt(scatter*scatter-mean*mean)*100)
	require.Less(t, math.Abs(mean), 0.02)
	rms, _ := spreadOf(alpha)
	t.Logf("angle of attack there: %.2f", rms)
	require.Less(t, rms, 1.3)
}

// A foreplane that lets go first is told from a wing that does, in calm air and in gusts of 0.6 m/s; a foreplane is never called a wing, and a wing
// comes with a warning.
func TestWhoLetsGoFirst(t *testing.T) {
	for _, c := range []struct {
		name       string
		stall      rehearse.Stall
		first      string
		never      string
		leastShare float64
	}{
		{"foreplane", rehearse.Stall{}, FirstForeplane, FirstWing, 0.7},
		{"wing", rehearse.InventedWingStall(), FirstWing, FirstForeplane, 0.9},
	} {
		found, n := map[string]int{}, 0
		for _, x := range trials(t, rehearse.DefaultInstruments(), slowSheets(c.stall, 2**flightsOfStudy/3)) {
			warnings := 0
			for _, p := range x.reduced.Stalls {
				n++
				found[p.First]++
				require.NotEmpty(t, p.Sign)
				require.NotEmpty(t, p.Reason)
				warnings += ones(p.First == FirstWing)
			}
			for _, f := range x.reduced.Findings {
				if strings.HasPrefix(f.What, "DANGER") {
					warnings--
					require.Contains(t, f.Consequence, "fly no slower")
				}
			}
			require.Zero(t, warnings, "each wing has its warning")
		}
		t.Logf("%s first: %v", c.name, found)
		require.Zero(t, found[c.never])
		require.Greater(t, float64(found[c.first]), c.leastShare*float64(n))
		require.Greater(t, n, 15)
	}
}
