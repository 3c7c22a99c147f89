package identify

import (
	"flag"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

var feedbackFlights = flag.Int("feedback-flights", 6, "rehearsed flights for each control and gain in the study of stabilisers")

// loopCase is a control with the input that shows its loop.
type loopCase struct {
	name    string
	axis    Axis
	control flightlog.Quantity
	size    float64
}

func loopCases() []loopCase {
	return []loopCase{
		{"elevator", Longitudinal, flightlog.Elevator, 0.05},
		{"aileron", Lateral, flightlog.Aileron, 0.07},
		{"rudder", Lateral, flightlog.RudderLeft, 0.14},
	}
}

// with switches a stabiliser on.
func (c loopCase) with(ac rehearse.Aircraft, gain float64) rehearse.Aircraft {
	switch c.control {
	case flightlog.Elevator:
		ac.Stabiliser.PitchRate = gain
	case flightlog.Aileron:
		ac.Stabiliser.RollRate = gain
	default:
		ac.Stabiliser.YawRate = gain
	}
	return ac
}

// found counts the segments, one by one, and the flights that show a loop on a control.
func (c loopCase) found(t *testing.T, flights [][]Segment) (segments, looked, whole int) {
	t.Helper()
	of := func(s []Segment) Loop {
		loops, err := Feedback(s, c.axis)
		require.NoError(t, err)
		for _, l := range loops {
			if l.Control == c.control {
				return l
			}
		}
		return Loop{}
	}
	for _, f := range flights {
		for _, s := range f {
			if l := of([]Segment{s}); l.Looked > 0 {
				looked++
				segments += l.Found
			}
		}
		if of(f).Active {
			whole++
		}
	}
	return segments, looked, whole
}

func (c loopCase) flights(t *testing.T, ac rehearse.Aircraft, sloppy bool, n int) [][]Segment {
	t.Helper()
	var out [][]Segment
	for seed := range uint64(n) {
		cards := inputCards(ac, c.name, c.size)
		if sloppy {
			cards = rehearse.Sloppy(cards, rand.New(rand.NewPCG(seed, 3)))
		}
		out = append(out, flownCards(t, ac, cards, rehearse.DefaultWeather(), rehearse.DefaultInstruments(), 1+seed).segments())
	}
	return out
}

// Without a stabiliser no more than one input in a hundred raises an alarm; with one of a tenth of a second nineteen in twenty do. A
// careless pilot with trembling hands and slow sticks hides some of single inputs, not of whole flights.
func TestFeedbackIsFoundAndNotFeigned(t *testing.T) {
	for _, careless := range []bool{false, true} {
		for _, gain := range []float64{0, 0.1, 0.2} {
			falseInputs, inputs, hits, whole := 0, 0, 0, 0
			for _, c := range loopCases() {
				flights := c.flights(t, c.with(rehearse.ExampleAircraft(), gain), careless, *feedbackFlights)
				found, looked, active := c.found(t, flights)
				t.Logf("careless %v, %s, gain %.1f s: %d of %d inputs, %d of %d flights", careless, c.name, gain, found, looked, active, len(flights))
				falseInputs, inputs, hits, whole = falseInputs+found, inputs+looked, hits+active, whole+len(flights)
			}
			switch {
			case gain == 0 && !careless:
				require.LessOrEqual(t, float64(falseInputs), 0.01*float64(inputs))
				require.Zero(t, hits)
			case gain == 0:
				require.LessOrEqual(t, float64(hits), 0.05*float64(whole))
			case !careless:
				require.GreaterOrEqual(t, float64(falseInputs), 0.95*float64(inputs))
				require.Equal(t, whole, hits)
			default:
				require.GreaterOrEqual(t, float64(hits), 0.95*float64(whole))
			}
		}
	}
}

// The words name surface, motion, size and what to do; the gain is that of the stabiliser.
func TestFeedbackWarns(t *testing.T) {
	c := loopCases()[0]
	loops, err := Feedback(c.flights(t, c.with(rehearse.ExampleAircraft(), 0.16), false, 1)[0], Longitudinal)
	require.NoError(t, err)
	require.Len(t, loops, 1)
	require.InDelta(t, -0.16, loops[0].Gain, 0.011, "positive elevator raises the nose here, so that the stabiliser's gain is negative")
	require.Equal(t, "an active stabiliser moved the elevator with the pitch rate (0.16 rad per rad/s, seen in 4 of 4 manoeuvres): elevator power and pitch damping cannot be told apart; switch it off for input manoeuvres",
		loops[0].Warning)
	require.Equal(t, []string{"F01"}, loops[0].Flights)
}

// The pilot holds the wings level with the ailerons during an input on the elevator: no fault of either axis.
func TestWingsHeldLevelAreNoFeedback(t *testing.T) {
	c := loopCases()[0]
	segments := c.flights(t, rehearse.ExampleAircraft(), false, 1)[0]
	loops, err := Feedback(segments, Lateral)
	require.NoError(t, err)
	require.Len(t, loops, 2)
	for _, l := range loops {
		require.Zero(t, l.Looked)
		require.Empty(t, l.Warning)
	}
	_, err = Feedback(segments, "sideways")
	require.Error(t, err)
	loops, err = Feedback(nil, Lateral)
	require.NoError(t, err)
	require.Len(t, loops, 2)
}
