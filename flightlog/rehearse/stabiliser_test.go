package rehearse

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/atmosphere"
)

// stabilised flies a rudder and an elevator doublet in still air.
func stabilised(t *testing.T, ac Aircraft) Log {
	stall := ac.StallSpeed(atmosphere.SeaLevelDensity)
	log, err := Fly(ac, []Card{
		climbing(stall),
		inputCard(Doublet, "rudder", 1.6*stall, 6*degree, yawDoublet, 4),
		inputCard(Doublet, "elevator", 1.6*stall, 2*degree, pitchDoublet, 4),
	}, still(), perfect(), seeded(1))
	require.NoError(t, err)
	return log
}

// shake is the root mean square of a column about its mean while hands are off.
func shake(log Log, stretch, column int, after float64) float64 {
	s := log.Stretches[stretch]
	from := s.From + s.Card.input().length() + after
	_, sd, _ := meanOver(log, column, from, from+2)
	return sd
}

// Positive gains damp whatever the sign of the control, and the log holds the command behind the stabiliser.
func TestStabiliserDamps(t *testing.T) {
	for _, ac := range []Aircraft{model(3.9), PublishedAircraft()[1].Aircraft} {
		free := stabilised(t, ac)
		ac.Stabiliser = Stabiliser{YawRate: 0.3}
		damped := stabilised(t, ac)
		require.Less(t, shake(damped, 1, atYawRate, 0.5), 0.6*shake(free, 1, atYawRate, 0.5))
		require.Zero(t, shake(free, 1, atRudderLeft, 0.5))
		require.Greater(t, shake(damped, 1, atRudderLeft, 0.5), 0.2*degree)

		ac.Stabiliser = Stabiliser{PitchRate: 0.1}
		damped = stabilised(t, ac)
		most := func(log Log) (most float64) { // pitch rate in the first half second of the step
			first, end := within(log, log.Stretches[2].From, log.Stretches[2].From+0.5)
			for i := first; i < end; i++ {
				most = math.Max(most, math.Abs(log.Columns[atPitchRate][i]))
			}
			return most
		}
		require.Less(t, most(damped), 0.9*most(free))

		// the command is the stick and the gain times the rate at that moment
		first, end := within(damped, damped.Stretches[2].From+1.2, damped.Stretches[2].To)
		toward := math.Copysign(0.1, frame(t, ac).elevator.Pitch)
		stick := damped.Columns[atElevator][first] + toward*damped.Columns[atPitchRate][first]
		for i := first; i < end; i++ {
			require.InDelta(t, stick, damped.Columns[atElevator][i]+toward*damped.Columns[atPitchRate][i], 1e-9)
		}
	}
}

// With the recorder ahead of the stabiliser, the log shows hands off although the surface moves; the flight is the same.
func TestStabiliserBehindTheRecorder(t *testing.T) {
	ac := model(3.9)
	ac.Stabiliser = Stabiliser{YawRate: 0.3, RollRate: 0.05, Roll: 0.2, Pitch: 0.2}
	behind := stabilised(t, ac)
	ac.Stabiliser.LogStick = true
	ahead := stabilised(t, ac)
	require.Zero(t, shake(ahead, 1, atRudderLeft, 0.5))
	require.Equal(t, behind.Truth.Rudder, ahead.Truth.Rudder)
	require.Equal(t, behind.Columns[atYawRate], ahead.Columns[atYawRate])
}

// The attitude that it holds leaks: a steady bank is let alone, a disturbance is not.
func TestStabiliserLetsASteadyBankAlone(t *testing.T) {
	ac := model(3.9)
	ac.Stabiliser = Stabiliser{Roll: 0.3}
	log, err := Fly(ac, []Card{{Kind: Climb, Speed: 23, Duration: 20}, {Kind: Turn, Speed: 24, Duration: 20, Bank: 0.5}}, still(), perfect(), seeded(1))
	require.NoError(t, err)
	end := log.Stretches[1].End
	bank, _, _ := meanOver(log, atRoll, end-4, end)
	require.InDelta(t, 0.5, bank, 2*degree)

	f := frame(t, ac)
	s := newStabiliser(f)
	var c commands
	for range 100 {
		c = s.add(commands{}, &state{p: 0.2}, 0.01)
	}
	require.InDelta(t, -0.3*0.2*2*(1-math.Exp(-0.5)), c.aileron, 3e-4, "1 s at 0.2 rad/s, leaking with 2 s")
	for range 1000 {
		c = s.add(commands{}, &state{}, 0.01)
	}
	require.InDelta(t, 0, c.aileron, 5e-4)

	ac.Stabiliser.Roll = -1
	_, err = Fly(ac, nil, still(), perfect(), seeded(1))
	require.ErrorContains(t, err, "oppose the motion")
}
