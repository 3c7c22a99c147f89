package manoeuvre_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
	"wingproof/flightlog/manoeuvre"
	"wingproof/flightlog/rehearse"
	"wingproof/flightlog/statistic"
)

// Start, size and lowest speed against what the pilot did and the model felt.
func TestMeasuresOfSloppyFlights(t *testing.T) {
	count, from := 16, 401
	if testing.Short() {
		count = 4
	}
	var late, size, lowest []float64
	steps, inputs := 0, 0
	for _, log := range flights(t, from, count) {
		rec := log.Recording("rehearsed")
		found, airspeed := manoeuvre.Find(&rec), column(&log, flightlog.Airspeed)
		for _, s := range log.Stretches {
			m, ok := match(found, s)
			if !ok {
				continue
			}
			switch s.Card.Kind {
			case rehearse.Doublet, rehearse.Multistep:
				inputs++
				if want := map[rehearse.Kind]int{rehearse.Doublet: 2, rehearse.Multistep: 4}[s.Card.Kind]; len(m.Widths) == want {
					steps++
				}
				// half of the first movement is where an input starts
				late = append(late, m.Start-s.From-s.Card.Hand.Slope/2)
				size = append(size, math.Abs(m.Amplitudes[0]/(s.Card.Size*(1+s.Card.Hand.Sizes[0]))-1))
			case rehearse.Deceleration:
				least := math.Inf(1)
				for i, at := range log.Time {
					if at > s.From && at < s.End {
						least = math.Min(least, airspeed[i])
					}
				}
				lowest = append(lowest, math.Abs(m.Lowest-least))
			}
		}
	}
	t.Logf("%d inputs, %d with every step; start off by %.3f s in the median, %.3f s for 19 of 20; first step off by %.0f %% and %.0f %%; lowest speed off by %.2f m/s and %.2f m/s",
		inputs, steps, statistic.Median(statistic.Magnitudes(late)), statistic.Quantile(statistic.Magnitudes(late), 0.95),
		100*statistic.Median(size), 100*statistic.Quantile(size, 0.95), statistic.Median(lowest), statistic.Quantile(lowest, 0.95))
	require.GreaterOrEqual(t, float64(steps), 0.95*float64(inputs))
	require.Less(t, statistic.Quantile(statistic.Magnitudes(late), 0.95), 0.1)
	require.Less(t, statistic.Median(size), 0.1)
	require.Less(t, statistic.Quantile(lowest, 0.95), 1.0)
}

// match is the manoeuvre that shares half of the essential part with a card.
func match(found []manoeuvre.Manoeuvre, s rehearse.Stretch) (manoeuvre.Manoeuvre, bool) {
	for _, m := range found {
		if string(m.Kind) == string(s.Card.Kind) && sameControl(m, s.Card) && s.To > s.From && overlaps(m.Start, m.End, s.From, s.To) {
			return m, true
		}
	}
	return manoeuvre.Manoeuvre{}, false
}

// A break is told where the nose truly falls before the pilot lowers it, and only there. The pilot's notes say when that was.
func TestBreaksByTruth(t *testing.T) {
	count, from := 24, 402
	if testing.Short() {
		count = 6
	}
	told, right, quiet := 0, 0, 0
	for _, log := range flights(t, from, count) {
		rec := log.Recording("rehearsed")
		found := manoeuvre.Find(&rec)
		for _, s := range log.Stretches {
			m, ok := match(found, s)
			if !ok || m.Kind != manoeuvre.Deceleration {
				continue
			}
			fall := steepest(&log, s.To-3, s.To)
			if m.Break == 0 {
				quiet++
				require.Greater(t, fall, -6*degree, "a break near %.1f s escaped", s.To)
				continue
			}
			told++
			if m.Break > s.To-3 && m.Break < s.To+0.2 && fall < -3*degree {
				right++
			} else {
				t.Logf("break told at %.1f s, pilot lowered the nose at %.1f s, which fell by %.1f°/s before", m.Break, s.To, -fall/degree)
			}
		}
	}
	t.Logf("%d breaks told, %d of them true; %d decelerations without", told, right, quiet)
	require.GreaterOrEqual(t, float64(right), 0.9*float64(told))
	require.Positive(t, quiet)
}

// steepest is the fastest fall of the true pitch angle over 0.4 s within a stretch, rad/s.
func steepest(log *rehearse.Log, from, to float64) float64 {
	worst := math.Inf(1)
	step := log.Time[1] - log.Time[0]
	span := int(math.Round(0.4 / step))
	for i := span; i < len(log.Time); i++ {
		if log.Time[i-span] >= from && log.Time[i] <= to {
			worst = math.Min(worst, (log.Truth.Pitch[i]-log.Truth.Pitch[i-span])/(float64(span)*step))
		}
	}
	return worst
}
