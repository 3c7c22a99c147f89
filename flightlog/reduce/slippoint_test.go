package reduce

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

// turningSheets are flights with four sideslips, and turns and circles to both sides.
func turningSheets(flights int) []sheet {
	ac := rehearse.ExampleAircraft()
	var out []sheet
	for seed := range flights {
		out = append(out, sheet{aircraft: ac, cards: rehearse.ManoeuvreCards(ac.StallSpeed(1.225))[1], weather: weathers(seed), seed: uint64(seed)})
	}
	return out
}

// Every sideslip that was flown gives a point with the sideslip, the surfaces and the side force that there were, as closely as the standard
// deviations say, and level flight at that speed gives the slopes their zero.
func TestSideslipsAreHonest(t *testing.T) {
	var beta []float64
	var changes, side [][]float64
	flown, kept := 0, 0
	for _, x := range trials(t, rehearse.DefaultInstruments(), turningSheets(*flightsOfStudy)) {
		var change, force []float64
		sides, zeros := map[bool]int{}, 0
		for _, s := range x.log.Stretches {
			flown += ones(s.Card.Kind == rehearse.Sideslip && s.To > s.From)
		}
		for _, p := range x.reduced.Slips {
			require.NotEmpty(t, p.Reason)
			if !p.Kept {
				continue
			}
			truth := over(x.log, x.log.Truth.Beta, p.Start, p.End)
			beta = append(beta, (p.Sideslip-truth)/p.SideslipAbsoluteSD)
			change = append(change, (p.Sideslip-truth)/p.SideslipSD)
			force = append(force, (p.SideForce-x.sideOver(p.Start, p.End))/p.SideForceSD)
			require.InDelta(t, over(x.log, x.log.Truth.Rudder, p.Start, p.End), p.Rudder, 0.2*degree)
			require.InDelta(t, over(x.log, x.log.Truth.Aileron, p.Start, p.End), p.Aileron, 0.4*degree) // the surface follows 0.06 s later
			require.InDelta(t, over(x.log, x.log.Truth.Roll, p.Start, p.End), p.Bank, 0.6*degree)
			require.InEpsilon(t, x.liftOver(p.Start, p.End), p.Lift, 0.03)
			if strings.Contains(p.Reason, "zero") {
				zeros++
				require.InDelta(t, 0, p.Rudder, 0.5*degree)
				continue
			}
			kept++
			require.Greater(t, math.Abs(p.Rudder), 5*degree)
			require.Less(t, p.SideForce*p.Sideslip, 0.0, "side force is against sideslip")
			sides[p.Sideslip > 0]++
		}
		require.Positive(t, sides[true]*sides[false], "to both sides")
		require.Positive(t, zeros)
		changes, side = append(changes, change), append(side, force)
	}
	t.Logf("%d of %d sideslips kept", kept, flown)
	require.Greater(t, float64(kept), 0.85*float64(flown))
	requireHonest(t, "sideslip", beta, 30)
	requireHonest(t, "sideslip within flights, random part", withinFlights(changes), 30)
	z := withinFlights(side)
	rms, _ := spreadOf(z)
	t.Logf("side force within flights: %.2f of its standard deviation, %d points", rms, len(z))
	require.Less(t, rms, 1.2, "the standard deviation of side force holds gusts that a mean over the same seconds shares with the truth")
}

// Without satellite speeds nothing tells the sideslip; the flight says so and gives none.
func TestNoSideslipWithoutAPath(t *testing.T) {
	s := turningSheets(1)[0]
	log := s.fly(t, rehearse.DefaultInstruments())
	rec := log.Recording("rehearsed")
	delete(rec.Channels, flightlog.GroundSpeed)
	r := s.reduceRecording(t, &rec)
	require.Empty(t, r.Slips)
	require.Empty(t, r.Loads)
	said := ""
	for _, f := range r.Findings {
		said += f.What + "\n"
	}
	require.Contains(t, said, "4 sideslips of this flight cannot be used, because the path of the model through the air could not be reconstructed")
}
