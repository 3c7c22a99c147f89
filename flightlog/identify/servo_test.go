package identify

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog/rehearse"
)

// steps is a command that stands at from and is at to from one sample on.
func steps(n, at int, from, to float64) []float64 {
	out := make([]float64, n)
	for k := range out {
		out[k] = from
		if k >= at {
			out[k] = to
		}
	}
	return out
}

// A step through delay and lag is 1 − exp(−(t − d)/τ), also where the delay is no whole number of steps.
func TestStepThroughDelayAndLag(t *testing.T) {
	const dt, lag, from, to = 0.02, 0.05, 0.1, -0.2
	for _, delay := range []float64{0, 0.013, 0.02, 0.06, 0.0731} {
		surface := Servo{Delay: delay, Lag: lag}.Surface(steps(60, 10, from, to), dt, nil)
		for k, got := range surface {
			want := from
			if since := float64(k-10)*dt - delay; since > 0 {
				want = to + (from-to)*math.Exp(-since/lag)
			}
			require.InDelta(t, want, got, 1e-12, "delay %g s, sample %d", delay, k)
		}
	}
}

// Pure delay moves samples; a fraction of a step shows the command of the sample before.
func TestPureDelay(t *testing.T) {
	command := []float64{0, 1, 2, 4, 8, 16}
	require.Equal(t, command, Servo{}.Surface(command, 0.1, nil))
	require.Equal(t, []float64{0, 0, 0, 1, 2, 4}, Servo{Delay: 0.2}.Surface(command, 0.1, nil))
	require.Equal(t, []float64{0, 0, 1, 2, 4, 8}, Servo{Delay: 0.06}.Surface(command, 0.1, nil))
	require.Equal(t, []float64{0, 0, 0, 1, 2, 4}, Servo{Delay: 0.2}.Surface(command, 0.1, make([]float64, 0, 9)))
	require.Empty(t, Servo{Delay: 1}.Surface(nil, 0.1, nil))
}

// A large step runs at the highest rate until what is left is rate × time constant, and then dies out; a small one never meets the
// limit.
func TestRateLimit(t *testing.T) {
	const dt, rate, lag = 0.01, 2.0, 0.05
	command := steps(200, 1, 0, 1)
	for k, got := range (Servo{Rate: rate}).Surface(command, dt, nil) {
		require.InDelta(t, math.Min(1, rate*math.Max(0, float64(k-1)*dt)), got, 1e-12)
	}
	const ramp = 1/rate - lag // s
	for k, got := range (Servo{Rate: rate, Lag: lag}).Surface(command, dt, nil) {
		want, since := 0.0, float64(k-1)*dt
		switch {
		case since <= 0:
		case since <= ramp:
			want = rate * since
		default:
			want = 1 - rate*lag*math.Exp(-(since-ramp)/lag)
		}
		require.InDelta(t, want, got, 1e-12, "sample %d", k)
	}
	small := steps(50, 1, 0, 0.9*rate*lag)
	require.InDeltaSlice(t, Servo{Lag: lag}.Surface(small, dt, nil), Servo{Lag: lag, Rate: rate}.Surface(small, dt, nil), 1e-15)
}

// Play of whole width w lags a slow triangle by w/2 on the way up and on the way down, and loses w of the whole stroke.
func TestBacklash(t *testing.T) {
	const width = 0.02
	var command []float64
	for k := range 400 {
		command = append(command, 0.1*math.Asin(math.Sin(float64(k)*2*math.Pi/100))*2/math.Pi)
	}
	surface := Servo{Backlash: width}.Surface(command, 0.02, nil)
	for k := 100; k < 400; k++ {
		up := command[k] - command[k-1]
		if crossed := math.Abs(command[k]) < 0.1-width-1e-3; crossed || command[k]*up > 0 {
			require.InDelta(t, command[k]-math.Copysign(width/2, up), surface[k], 1e-12, "sample %d", k)
		}
		require.LessOrEqual(t, math.Abs(surface[k]-command[k]), width/2+1e-15)
	}
	require.InDelta(t, 0.1-width/2, maximum(surface[100:]), 1e-12)
	still := Servo{Backlash: width}.Surface([]float64{0.3, 0.309, 0.291, 0.3}, 0.02, nil)
	require.Equal(t, []float64{0.3, 0.3, 0.3, 0.3}, still, "inside the play nothing moves")
}

// The same numbers by another road: small steps of the differential equation.
func TestSurfaceAgainstSmallSteps(t *testing.T) {
	const dt, fine = 0.02, 2000
	rng := rand.New(rand.NewPCG(3, 1))
	command := make([]float64, 80)
	for k := 1; k < len(command); k++ {
		command[k] = command[k-1]
		if k%5 == 0 {
			command[k] = 0.3 * rng.NormFloat64()
		}
	}
	s := Servo{Delay: 0.0137, Lag: 0.06, Rate: 4, Backlash: 0.03}
	got := s.Surface(command, dt, nil)
	var position, surface float64
	h := dt / fine
	for k := range command {
		require.InDelta(t, surface, got[k], 2e-4, "sample %d", k)
		for i := range fine {
			at := int(math.Floor((float64(k) + float64(i)/fine) - s.Delay/dt))
			position += h * math.Max(-s.Rate, math.Min(s.Rate, (command[max(0, at)]-position)/s.Lag))
			surface = math.Max(position-s.Backlash/2, math.Min(position+s.Backlash/2, surface))
		}
	}
}

// The servo of the rehearsed flights, which integrates a hundred steps a second, against the same servo here.
func TestSurfaceAgainstRehearsedServo(t *testing.T) {
	ac := rehearse.ExampleAircraft()
	stall := ac.StallSpeed(atmosphere.SeaLevelDensity)
	ins := rehearse.Instruments{FastRate: 100, AirRate: 100, SatelliteRate: 5}
	log, err := rehearse.Fly(ac, []rehearse.Card{
		{Kind: rehearse.Climb, Speed: 1.55 * stall, Duration: 20},
		{Kind: rehearse.Multistep, Speed: 1.6 * stall, Duration: 10, Control: "elevator", Size: 0.05, Width: 0.3},
	}, rehearse.Weather{}, ins, rand.New(rand.NewPCG(1, 1)))
	require.NoError(t, err)
	from := log.Stretches[1].From - 2
	var command, truth []float64
	for k, at := range log.Time {
		if at >= from {
			command = append(command, column(log, "elevator")[k])
			truth = append(truth, log.Truth.Elevator[k])
		}
	}
	servo := Servo{Delay: ac.Servo.Delay, Lag: ac.Servo.Lag, Rate: ac.Servo.Rate}
	got := servo.Surface(command, 0.01, nil)
	for k := 120; k < len(got); k++ { // what the surface did before the first sample has died out by exp(−25)
		require.InDelta(t, truth[k], got[k], 1e-9, "sample %d", k)
	}
}

func maximum(v []float64) float64 {
	most := math.Inf(-1)
	for _, x := range v {
		most = math.Max(most, x)
	}
	return most
}

// column is what a rehearsed log holds of a quantity.
func column(l rehearse.Log, q string) []float64 {
	for i, name := range l.Quantities() {
		if string(name) == q {
			return l.Columns[i]
		}
	}
	return nil
}

// The steps that are worked out once, against each of them followed by itself, for all kinds of servos and delays.
func TestSurfaceAgainstEachStepByItself(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 1))
	command := make([]float64, 120)
	for k := range command {
		command[k] = 0.2 * rng.NormFloat64()
	}
	const dt = 0.01
	for _, s := range []Servo{
		{}, {Delay: 0.03}, {Delay: 0.034}, {Lag: 0.05}, {Delay: 0.03, Lag: 0.05}, {Delay: 0.0137, Lag: 0.06, Rate: 4, Backlash: 0.03}, {Delay: 0.02, Rate: 3}, {Backlash: 0.1},
	} {
		position, surface := command[0], command[0]
		follow := func(target, time float64) {
			away := target - position
			if s.Rate > 0 && math.Abs(away) > s.Rate*s.Lag {
				ramp := math.Min(time, math.Abs(away)/s.Rate-s.Lag)
				position += math.Copysign(s.Rate*ramp, away)
				time, away = time-ramp, target-position
			}
			if time > 0 {
				position = target
				if s.Lag > 0 {
					position -= away * math.Exp(-time/s.Lag)
				}
			}
			surface = math.Max(position-s.Backlash/2, math.Min(position+s.Backlash/2, surface))
		}
		whole, part := wholeSteps(s.Delay / dt)
		for k, got := range s.Surface(command, dt, nil) {
			if k > 0 {
				follow(command[max(0, k-2-whole)], part*dt)
				follow(command[max(0, k-1-whole)], (1-part)*dt)
			}
			if s.instant() {
				position = command[max(0, k-whole-int(math.Ceil(part)))]
				follow(position, 0)
			}
			require.InDelta(t, surface, got, 1e-15, "%+v, sample %d", s, k)
		}
	}
}
