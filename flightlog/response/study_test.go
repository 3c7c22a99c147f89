package response

import (
	"flag"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero"
	"wingproof/aero/atmosphere"
	"wingproof/aero/stability"
	"wingproof/flightlog/rehearse"
)

var seeds = flag.Int("seeds", 2, "flights for each weather in the study of whole rehearsed flights")

// linearTruth is what the linear model says of the model aircraft in level flight at a speed.
func linearTruth(t *testing.T, ac rehearse.Aircraft, speed, density float64) stability.Modes {
	t.Helper()
	d := stability.Moved(ac.Derivatives, ac.CGX, ac.CGZ)
	k := ac.LengthRatio
	d.Reference = aero.Reference{Area: d.Reference.Area * k * k, Span: d.Reference.Span * k, MeanChord: d.Reference.MeanChord * k}
	lift := 2 * ac.Body.Mass * atmosphere.Gravity / (density * speed * speed * d.Reference.Area)
	off := lift - ac.Polar.LiftAtMin
	d, err := stability.Trimmed(d, lift, ac.Polar.Min+ac.Polar.Factor*off*off)
	require.NoError(t, err)
	m, err := stability.LateralModes(d, ac.Body, stability.Condition{Density: density, Speed: speed})
	require.NoError(t, err)
	return m
}

// rudderCards climb and fly four rudder doublets with eight seconds hands off.
func rudderCards(stall float64) []rehearse.Card {
	cards := []rehearse.Card{{Kind: rehearse.Climb, Speed: 1.55 * stall, Duration: 24, Altitude: 135}}
	for _, k := range []float64{1.5, 1.7, 1.5, 1.7} {
		cards = append(cards, rehearse.Card{Kind: rehearse.Doublet, Speed: k * stall, Duration: 12, Control: "rudder", Size: 8 * math.Pi / 180, Width: 0.5})
	}
	return cards
}

// handsOffStretch is what the recorder holds of a card from the moment at which the controls came to rest, with the true airspeed.
func handsOffStretch(log rehearse.Log, s rehearse.Stretch) Stretch {
	part := func(v []float64) (out []float64) {
		for i, now := range log.Time {
			if now >= s.From && now <= s.End-0.05 {
				out = append(out, v[i])
			}
		}
		return out
	}
	columns := map[string][]float64{}
	for i, q := range log.Quantities() {
		columns[string(q)] = part(log.Columns[i])
	}
	out := Stretch{Step: log.Time[1] - log.Time[0], Airspeed: part(log.Truth.Airspeed)}
	for _, name := range []string{"yaw_rate", "right_acceleration", "roll_rate"} {
		out.Signals = append(out.Signals, Signal{name, columns[name]})
	}
	for _, name := range []string{"rudder_left", "aileron", "elevator"} {
		out.Controls = append(out.Controls, Control{name, columns[name]})
	}
	return out.Cut(HandsOff(out.Step, 0.3, out.Controls))
}

// Whole flights of six degrees of freedom, with servo, pilot, spiral and changing speed: frequency and damping of the linear model at the speed of the
// stretch come back without bias, with intervals that hold. Density is that of the height, 100 m.
func TestDutchRollOfRehearsedFlights(t *testing.T) {
	ac := rehearse.ExampleAircraft()
	density := atmosphere.SeaLevelDensity * math.Exp(-100/10400.0)
	for _, gust := range []float64{0, 0.2, 0.5} {
		w := rehearse.DefaultWeather()
		w.Turbulence = gust / w.WindSpeed
		var s tally
		for seed := range *seeds {
			log, err := rehearse.Fly(ac, rudderCards(ac.StallSpeed(atmosphere.SeaLevelDensity)), w, rehearse.DefaultInstruments(), rand.New(rand.NewPCG(uint64(seed), 7)))
			require.NoError(t, err)
			for _, card := range log.Stretches {
				if card.Card.Kind == rehearse.Doublet {
					m := FindDutchRoll(handsOffStretch(log, card))
					s.add(m, linearTruth(t, ac, max(m.Airspeed, 15), density).DutchRoll)
				}
			}
		}
		t.Logf("gusts %.1f m/s: %s", gust, s.words())
		bias, scatter := meanSD(s.frequency)
		require.Less(t, math.Abs(bias), 0.003+2.6*scatter/math.Sqrt(float64(len(s.z))))
		bias, scatter = meanSD(s.damping)
		require.Less(t, math.Abs(bias), 0.003+2.6*scatter/math.Sqrt(float64(len(s.z))))
		require.GreaterOrEqual(t, covered(s.z), 0.9-2.6*math.Sqrt(0.95*0.05/float64(len(s.z))))
	}
}
