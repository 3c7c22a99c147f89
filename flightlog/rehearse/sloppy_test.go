package rehearse

import (
	"bytes"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/atmosphere"
)

// Departures stay within their bounds, fill them, and leave every card one that can be flown.
func TestSloppyStaysWithinItsBounds(t *testing.T) {
	stall := model(3.9).StallSpeed(atmosphere.SeaLevelDensity)
	var least, most [4]float64
	uneven := 0.0
	for i := range least {
		least[i], most[i] = 9, -9
	}
	keep := func(i int, change, bound float64) {
		require.LessOrEqual(t, math.Abs(change), bound+1e-9)
		least[i], most[i] = math.Min(least[i], change/bound), math.Max(most[i], change/bound)
	}
	for seed := range uint64(40) {
		for _, sheet := range ManoeuvreCards(stall) {
			for i, c := range Sloppy(sheet, seeded(seed)) {
				plan := sheet[i]
				require.NoError(t, c.check(), "%+v", c)
				require.Equal(t, plan.Kind, c.Kind)
				require.Equal(t, plan.Control, c.Control)
				keep(0, c.Speed/plan.Speed-1, 0.08)
				if plan.Size != 0 {
					keep(1, c.Size/plan.Size-1, 0.4)
				}
				if plan.Bank != 0 {
					keep(2, c.Bank/plan.Bank-1, 0.25)
				}
				if plan.Width != 0 {
					keep(3, c.Width/plan.Width-1, 0.3)
					for k := range c.Hand.Times {
						require.LessOrEqual(t, math.Abs(c.Width*(1+c.Hand.Times[k])/plan.Width-1), 0.3+1e-9)
						require.LessOrEqual(t, math.Abs(c.Size*(1+c.Hand.Sizes[k])/plan.Size-1), 0.4+1e-9)
						uneven = math.Max(uneven, math.Abs(c.Hand.Times[k]-c.Hand.Times[0]))
					}
				}
				if plan.Kind == Circle {
					require.GreaterOrEqual(t, c.Turns, 1.0)
				}
			}
		}
	}
	for i := range least {
		require.Less(t, least[i], -0.9)
		require.Greater(t, most[i], 0.9)
	}
	require.Greater(t, uneven, 0.3, "halves and steps differ")
}

// Every sheet is flown to its end by fourteen sloppy pilots in wind and gusts; nearly all cards come to their essential part.
func TestSloppyFlightsComeToTheirEnd(t *testing.T) {
	ac := model(3.9)
	stall := ac.StallSpeed(atmosphere.SeaLevelDensity)
	empty, cards, flights := 0, 0, uint64(14)
	for seed := range flights {
		for _, sheet := range ManoeuvreCards(stall) {
			w := DefaultWeather()
			w.WindSpeed, w.WindFrom = 1+float64(seed%4), float64(seed)
			log, err := Fly(ac, Sloppy(sheet, seeded(seed)), w, DefaultInstruments(), seeded(seed+100))
			require.NoError(t, err, "seed %d", seed)
			require.Less(t, log.Time[len(log.Time)-1], 600.0)
			for _, s := range log.Stretches {
				if s.Card.Kind == Climb {
					continue
				}
				cards++
				if s.From == s.To {
					empty++
				}
				if s.Card.Kind == Deceleration {
					require.Less(t, s.From, s.To)
				}
			}
		}
	}
	t.Logf("%d of %d cards never settled", empty, cards)
	require.Less(t, float64(empty), 0.03*float64(cards))
}

// Hand noise has its own stream: with the same cards and a still hand, the log is the plain one to the last byte.
func TestHandNoiseLeavesTheOtherStreamsAlone(t *testing.T) {
	card := []Card{{Kind: Level, Speed: 23, Duration: 20}}
	fly := func(h Hand) Log {
		cards := append([]Card{}, card...)
		cards[0].Hand = h
		log, err := Fly(model(3.9), cards, still(), DefaultInstruments(), seeded(2))
		require.NoError(t, err)
		return log
	}
	text := func(l Log) []byte {
		var b bytes.Buffer
		require.NoError(t, l.WriteCSV(&b, Dialect{}))
		return b.Bytes()
	}
	plain, noisy, again := fly(Hand{}), fly(Hand{Noise: 0.2 * degree, Seed: 5}), fly(Hand{Noise: 0.2 * degree, Seed: 5})
	require.Equal(t, text(noisy), text(again))
	require.NotEqual(t, text(plain), text(noisy))
	// temperature is drawn once and hardly moves with the stick: equal draws give equal readings
	last := len(plain.Time) - 1
	for last%5 != 0 {
		last--
	}
	require.InDelta(t, plain.Columns[atTemperature][last], noisy.Columns[atTemperature][last], 0.05)
	_, spread, _ := meanOver(noisy, atRudderLeft, 15, 30)
	require.InEpsilon(t, 0.2*degree, spread, 0.35) // some 25 correlation times
}

// Steps with slopes, uneven sizes and a pause: the course by hand.
func TestInputOfAHand(t *testing.T) {
	c := Card{Kind: Doublet, Size: 0.1, Width: 1, Hand: Hand{Slope: 0.2, Pause: 0.5, Times: [4]float64{0.3, -0.2}, Sizes: [4]float64{0.5, -0.1}}}
	in := c.input()
	require.InDelta(t, 1.3+0.5+0.8+0.2, in.length(), 1e-12)
	for _, p := range []struct{ time, want float64 }{
		{0, 0}, {0.1, 0.075}, {0.2, 0.15}, {1.29, 0.15}, {1.4, 0.075}, {1.6, 0}, {1.9, -0.045}, {2.1, -0.09}, {2.59, -0.09}, {2.7, -0.045}, {2.8, 0}, {9, 0},
	} {
		require.InDelta(t, p.want, in.at(p.time), 1e-9, "at %g s", p.time)
	}
	// steps shorter than the slope turn round on the way
	in = input{slope: 1, steps: []inputStep{{1, 0.5}, {-1, 0.5}}}
	require.InDelta(t, 0.5, in.at(0.5), 1e-12)
	require.InDelta(t, -0.25, in.at(1), 1e-12)
}
