package rehearse

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// A continuous servo is where its closed form is at every half step, whatever part of a step its delay is.
func TestContinuousServoIsItsClosedForm(t *testing.T) {
	const dt, command = 0.01, 0.2
	for _, delay := range []float64{0, 0.003, 0.007, 0.02, 0.0245, 0.036} {
		a := newActuator(Servo{Delay: delay, Lag: 0.05, Rate: 100}, dt, true)
		want := func(time float64) float64 { return command * -math.Expm1(-math.Max(0, time-delay)/0.05) }
		for k := range 60 {
			middle, end := a.move(command)
			require.InDelta(t, want((float64(k)+0.5)*dt), middle, 1e-12, "delay %g s", delay)
			require.InDelta(t, want((float64(k)+1)*dt), end, 1e-12, "delay %g s", delay)
		}
	}
	// a rate limit: straight until the lag alone would be slower, 0.2 − 2·0.05 = 0.1 after 0.05 s, then e-folding
	a := newActuator(Servo{Lag: 0.05, Rate: 2}, dt, true)
	for k := 1; k <= 40; k++ {
		_, end := a.move(command)
		time := float64(k) * dt
		want := 2 * time
		if time > 0.05 {
			want = command - 0.1*math.Exp(-(time-0.05)/0.05)
		}
		require.InDelta(t, want, end, 1e-12)
	}
}

// Commands that go on changing: a continuous servo of coarse steps is the servo of steps a fiftieth as long, each held as long.
func TestContinuousServoDoesNotDependOnTheStep(t *testing.T) {
	s := Servo{Delay: 0.0137, Lag: 0.04, Rate: 1.5, Backlash: 0.01}
	coarse, fine := newActuator(s, 0.01, true), newActuator(s, 0.0002, true)
	for k := range 300 {
		command := 0.1 * math.Sin(0.2*float64(k))
		_, got := coarse.move(command)
		var want float64
		for range 50 {
			_, want = fine.move(command)
		}
		require.InDelta(t, want, got, 2e-5, "a delay of 68.5 fine steps")
	}
}

// Play: the surface does not move until the arm has taken it up, and then trails it by half of it; a turn costs the whole.
func TestBacklash(t *testing.T) {
	a := newActuator(Servo{Rate: 100, Backlash: 0.02}, 0.01, false)
	for _, p := range []struct{ command, want float64 }{
		{0.005, 0}, {0.01, 0}, {0.05, 0.04}, {0.1, 0.09}, {0.085, 0.09}, {0.081, 0.09}, {0.08, 0.09}, {0.06, 0.07}, {-0.1, -0.09}, {0, -0.01},
	} {
		_, got := a.move(p.command)
		require.InDelta(t, p.want, got, 1e-12, "arm at %g", p.command)
	}
}

// Every control follows by its own servo.
func TestServoOfEachControl(t *testing.T) {
	ac := model(3.9)
	ac.Continuous = true
	ac.Servos = map[string]Servo{"rudder": {Delay: 0.1, Lag: 0.1, Rate: 6}, "aileron": {Delay: 0.02, Lag: 0.04, Rate: 6, Backlash: 2 * degree}}
	ins := perfect()
	ins.FastRate, ins.AirRate = 100, 100
	log, err := Fly(ac, []Card{
		{Kind: Climb, Speed: 23, Duration: 8},
		{Kind: Doublet, Speed: 23, Duration: 8, Control: "rudder", Size: 8 * degree, Width: 1},
		{Kind: Doublet, Speed: 23, Duration: 8, Control: "aileron", Size: 4 * degree, Width: 1},
		{Kind: Doublet, Speed: 23, Duration: 8, Control: "elevator", Size: 2 * degree, Width: 1},
	}, still(), ins, seeded(1))
	require.NoError(t, err)
	reached := func(stretch, after int, truth []float64) float64 { // share of the first step, some hundredths of a second into it
		first, _ := within(log, log.Stretches[stretch].From, log.Stretches[stretch].To)
		size := log.Stretches[stretch].Card.Size
		return (truth[first+after] - truth[first]) / size
	}
	// The stick moves at any time of the sample ahead of the first row that shows it.
	between := func(got, lag float64, why string) {
		require.GreaterOrEqual(t, got, 1-math.Exp(-1)-0.01, why)
		require.LessOrEqual(t, got, 1-math.Exp(-1-0.01/lag)+0.01, why)
	}
	between(reached(1, 20, log.Truth.Rudder), 0.1, "0.1 s of delay, 0.1 s of lag")
	between(reached(3, 6, log.Truth.Elevator), 0.04, "0.02 s of delay, 0.04 s of lag")
	first, _ := within(log, log.Stretches[2].From, log.Stretches[2].To)
	require.InDelta(t, log.Columns[atAileron][first+90]-1*degree, log.Truth.Aileron[first+90], 1e-9, "half the play behind")
	require.InDelta(t, log.Columns[atAileron][first+190]+1*degree, log.Truth.Aileron[first+190], 1e-9, "and on the other side")
}

// Aileron and rudder can be calibrated wrongly, too, and the elevator's draws are the same with and without.
func TestCalibrationOfEachControl(t *testing.T) {
	sd := DefaultProgrammeErrors()
	plain := DrawInstruments(perfect(), sd, seeded(3))
	sd.AileronScale, sd.RudderZero = 0.03, 0.01
	ins := DrawInstruments(perfect(), sd, seeded(3))
	require.Equal(t, plain.ElevatorScale, ins.ElevatorScale)
	require.Equal(t, plain.AirspeedScale, ins.AirspeedScale)
	require.NotZero(t, ins.AileronScale)
	require.NotZero(t, ins.RudderZero)
	require.Zero(t, ins.RudderScale)

	ins = perfect()
	ins.AileronScale, ins.AileronZero, ins.RudderScale, ins.RudderZero = 0.1, 0.01, -0.1, -0.02
	log, err := Fly(model(3.9), []Card{{Kind: Climb, Speed: 23, Duration: 10}, {Kind: Sideslip, Speed: 23, Duration: 14, Size: 5 * degree}}, still(), ins, seeded(1))
	require.NoError(t, err)
	last := len(log.Time) - 1
	require.InDelta(t, 5*degree*0.9-0.02, log.Truth.Rudder[last], 1e-9)
	require.InDelta(t, log.Columns[atAileron][last]*1.1+0.01, log.Truth.Aileron[last], 0.02*degree)
}

func TestControlsAreChecked(t *testing.T) {
	for _, c := range []struct {
		change func(*Aircraft)
		says   string
	}{
		{func(a *Aircraft) { a.Servos = map[string]Servo{"flap": a.Servo} }, `a servo for "flap"`},
		{func(a *Aircraft) { a.Servos = map[string]Servo{"rudder": {}} }, "rate 0 rad/s of the rudder"},
		{func(a *Aircraft) { a.Servo.Backlash = -1 }, "backlash -1 rad of the elevator"},
		{func(a *Aircraft) { a.AlphaRate.Roll = 1 }, "lift and pitch only"},
		{func(a *Aircraft) { a.BetaRate.Pitch = 1 }, "side force, roll and yaw only"},
	} {
		ac := model(3.9)
		c.change(&ac)
		_, err := Fly(ac, nil, still(), perfect(), seeded(1))
		require.ErrorContains(t, err, c.says)
	}
}
