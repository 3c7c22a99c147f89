package reduce

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

// Turns and circles give points whose lift, load factor and angle of attack are what they were, as closely as the standard deviations say.
func TestTurnsAreHonest(t *testing.T) {
	var alpha, lift [][]float64
	flown, kept := 0, 0
	for _, x := range trials(t, rehearse.DefaultInstruments(), turningSheets(*flightsOfStudy)) {
		var a, l []float64
		for _, s := range x.log.Stretches {
			flown += ones(s.Card.Kind == rehearse.Turn || s.Card.Kind == rehearse.Circle)
		}
		for _, p := range x.reduced.Loads {
			require.NotEmpty(t, p.Reason)
			if !p.Kept {
				continue
			}
			kept++
			require.Greater(t, p.LoadFactor, leastLoad)
			require.InDelta(t, 1/math.Cos(over(x.log, x.log.Truth.Roll, p.Start, p.End)), p.LoadFactor, 0.06)
			require.InEpsilon(t, (p.LoadFactor-1/p.LoadFactor)*atmosphere.Gravity/p.Airspeed, p.PitchRate, 0.2, "q = (n − 1/n)·g/V in a level turn")
			a = append(a, (p.Alpha-over(x.log, x.log.Truth.Alpha, p.Start, p.End))/p.AlphaSD)
			l = append(l, (p.Lift-x.liftOver(p.Start, p.End))/p.LiftSD)
		}
		alpha, lift = append(alpha, a), append(lift, l)
	}
	t.Logf("%d points of %d cards", kept, flown)
	require.Greater(t, kept, flown)
	requireHonest(t, "alpha within flights", withinFlights(alpha), 30)
	z := withinFlights(lift)
	rms, _ := spreadOf(z)
	t.Logf("lift: %.2f of its standard deviation, %d points", rms, len(z))
	require.Less(t, rms, 1.2, "the standard deviation of lift holds gusts that a mean over the same seconds shares with the truth")
}

// pullSheets are flights of six pull-ups.
func pullSheets(flights int) []sheet {
	ac := rehearse.ExampleAircraft()
	stall := ac.StallSpeed(1.225)
	climb := rehearse.Card{Kind: rehearse.Climb, Speed: 1.55 * stall, Duration: 24, Altitude: 135}
	cards := []rehearse.Card{climb, {Kind: rehearse.Circle, Speed: 1.55 * stall, Duration: 60, Bank: 0.45}}
	for i, c := range []struct{ speed, load float64 }{{1.8, 1.6}, {1.8, 2}, {2.1, 2}, {2.1, 2.5}, {1.7, 1.4}, {2, 2}} {
		if i == 3 {
			cards = append(cards, climb)
		}
		cards = append(cards, rehearse.Card{Kind: rehearse.PullUp, Speed: c.speed * stall, Size: c.load, Duration: 10})
	}
	var out []sheet
	for seed := range flights {
		out = append(out, sheet{aircraft: ac, cards: cards, weather: weathers(seed), seed: uint64(seed)})
	}
	return out
}

// Pull-ups give points at the load factor that stands, and the elevator per load factor that the derivatives give.
func TestPullUpsAreHonest(t *testing.T) {
	var lift, elevator []float64
	flown, kept := 0, 0
	for _, x := range trials(t, rehearse.DefaultInstruments(), pullSheets(max(6, *flightsOfStudy*2/3))) {
		flown += 6
		for _, p := range x.reduced.Loads {
			if p.Kind != "pull_up" || !p.Kept {
				continue
			}
			kept++
			require.Greater(t, p.LoadFactor, 1.25)
			lift = append(lift, (p.Lift-x.liftOver(p.Start, p.End))/p.LiftSD)
			elevator = append(elevator, (p.Elevator-over(x.log, columnOf(x.log, flightlog.Elevator), p.Start, p.End))/degree)
			require.InDelta(t, (p.LoadFactor-1)*atmosphere.Gravity/p.Airspeed, p.PitchRate, 5*degree)
		}
	}
	t.Logf("%d of %d pull-ups kept", kept, flown)
	require.Greater(t, float64(kept), 0.9*float64(flown))
	requireHonest(t, "lift of pull-ups", lift, 30)
	rms, _ := spreadOf(elevator)
	require.Less(t, rms, 0.05)
}

// columnOf is a column of a log.
func columnOf(l rehearse.Log, q flightlog.Quantity) []float64 {
	for i, name := range l.Quantities() {
		if name == q {
			return l.Columns[i]
		}
	}
	return nil
}
