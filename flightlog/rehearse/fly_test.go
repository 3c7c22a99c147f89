package rehearse

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/atmosphere"
	"wingproof/aero/stability"
)

// mean and standard deviation over the rows of a stretch of time, blanks left out.
func meanOver(l Log, column int, from, to float64) (mean, sd float64, n int) {
	var sum, squares float64
	for i, t := range l.Time {
		if v := l.Columns[column][i]; t >= from && t < to && !math.IsNaN(v) {
			sum, squares, n = sum+v, squares+v*v, n+1
		}
	}
	mean = sum / float64(n)
	return mean, math.Sqrt(math.Max(0, squares/float64(n)-mean*mean)), n
}

// After settling, each glide sits at the elevator of aero/stability.Trim for the lift coefficient of its own speed and path.
func TestGlideElevatorIsTrimElevator(t *testing.T) {
	for _, cg := range []float64{3.75, 3.9, 3.98} {
		ac := model(cg)
		stall := ac.StallSpeed(atmosphere.SeaLevelDensity)
		var cards []Card
		for _, k := range []float64{1.25, 1.5, 1.9} {
			cards = append(cards, Card{Kind: Climb, Speed: 1.5 * stall, Duration: 25}, Card{Kind: Glide, Speed: k * stall, Duration: 22})
		}
		log, err := Fly(ac, cards, still(), perfect(), seeded(1))
		require.NoError(t, err)
		d := stability.Moved(canard(), cg, 0.05)
		glides := 0
		for _, s := range log.Stretches {
			if s.Card.Kind != Glide {
				continue
			}
			glides++
			speed, _, _ := meanOver(log, atAirspeed, s.End-6, s.End)
			require.InDelta(t, s.Card.Speed, speed, 0.15)
			sink, _, _ := meanOver(log, atClimb, s.End-6, s.End)
			pressure := 0.5 * atmosphere.SeaLevelDensity * speed * speed
			area := 12.6 / 16
			lift := 15 * atmosphere.Gravity * math.Cos(sink/speed) / (pressure * area)
			_, want, err := stability.Trim(d, lift)
			require.NoError(t, err)
			got, spread, _ := meanOver(log, atElevator, s.End-6, s.End)
			require.InDelta(t, want, got, 0.03*degree, "glide at %.1f m/s, CG %.2f m", speed, cg)
			require.Less(t, spread, 0.05*degree, "elevator nearly constant")
		}
		require.Equal(t, 3, glides)
	}
}

func TestTrimCardsStayInTheirBand(t *testing.T) {
	for seed := range uint64(6) {
		for _, cg := range []float64{3.72, 3.9, 3.99} {
			ac := model(cg)
			w := DefaultWeather()
			w.WindSpeed, w.WindFrom, w.Turbulence = float64(seed), float64(seed), 0.15
			lowest, highest := 1e9, 0.0
			watch := func(f *flight) {
				if f.time() > 30 {
					lowest, highest = math.Min(lowest, -f.s.down), math.Max(highest, -f.s.down)
				}
			}
			log, err := fly(ac, TrimCards(ac.StallSpeed(atmosphere.SeaLevelDensity)), w, DefaultInstruments(), seeded(seed), watch)
			require.NoError(t, err)
			require.LessOrEqual(t, log.Time[len(log.Time)-1], 360.0)
			require.Greater(t, lowest, 40.0)
			require.Less(t, highest, 150.0)
			require.Len(t, log.Stretches, 12)
			for _, s := range log.Stretches {
				if s.Card.Kind == Glide {
					require.Greater(t, s.End-s.Start, 12.0, "a glide at %.1f m/s must leave time to settle and measure", s.Card.Speed)
				}
			}
		}
	}
}

// The longest that TrimCards can take, by its own limits.
func TestTrimCardsTakeSixMinutesAtMost(t *testing.T) {
	total := resting + groundRun
	for _, c := range TrimCards(14) {
		require.NoError(t, c.check())
		total += c.Duration
		if c.Kind != Climb {
			total += longestLineUp
		}
	}
	require.LessOrEqual(t, total, 360.0)
}

func TestLevelRunsHoldHeightAndSpeed(t *testing.T) {
	ac := model(3.9)
	log, err := Fly(ac, []Card{{Kind: Climb, Speed: 23, Duration: 25}, {Kind: Level, Speed: 24, Duration: 25}}, still(), perfect(), seeded(1))
	require.NoError(t, err)
	end := log.Stretches[1].End
	speed, _, _ := meanOver(log, atAirspeed, end-6, end)
	require.InDelta(t, 24, speed, 0.2)
	climb, _, _ := meanOver(log, atClimb, end-6, end)
	require.InDelta(t, 0, climb, 0.1)
	throttle, _, _ := meanOver(log, atThrottle, end-6, end)
	require.True(t, throttle > 0.05 && throttle < 0.9)
}

func TestTurnSideslipAndDoublets(t *testing.T) {
	ac := model(3.9)
	cards := []Card{
		{Kind: Climb, Speed: 23, Duration: 25},
		{Kind: Turn, Speed: 24, Duration: 15, Bank: 0.5},
		{Kind: Sideslip, Speed: 24, Duration: 12, Size: 8 * degree},
		{Kind: Doublet, Speed: 24, Duration: 9, Control: "elevator", Size: 3 * degree, Width: 0.4},
		{Kind: Doublet, Speed: 24, Duration: 7, Control: "aileron", Size: 3 * degree, Width: 0.4},
		{Kind: Doublet, Speed: 24, Duration: 7, Control: "rudder", Size: 8 * degree, Width: 0.5},
	}
	var sideslip float64
	watch := func(f *flight) {
		if f.command.rudder > 7.9*degree && sideslip == 0 {
			sideslip = f.time()
		}
	}
	log, err := fly(ac, cards, still(), perfect(), seeded(1), watch)
	require.NoError(t, err)
	bank, _, _ := meanOver(log, atRoll, log.Stretches[1].End-5, log.Stretches[1].End)
	require.InDelta(t, 0.5, bank, 0.02)
	require.Positive(t, sideslip)

	// rudder trailing edge left turns the nose left: the air comes from the right, side force and bank balance it
	slip := log.Stretches[2]
	rudder, _, _ := meanOver(log, atRudderLeft, slip.End-3, slip.End)
	require.InDelta(t, 8*degree, rudder, 1e-9)
	held, _, _ := meanOver(log, atRoll, slip.End-3, slip.End)
	require.Greater(t, math.Abs(held), 0.5*degree)
	yaw, _, _ := meanOver(log, atYawRate, slip.End-3, slip.End)
	require.InDelta(t, 0, yaw, 1*degree)

	// the elevator doublet: nose up first, as trailing edge down on a foreplane does
	first := log.Stretches[3].Start
	for i, time := range log.Time {
		if time > first+3 && time < log.Stretches[3].End && log.Columns[atElevator][i]-log.Columns[atElevator][i-1] > 2*degree {
			rate, _, _ := meanOver(log, atPitchRate, log.Time[i]+0.1, log.Time[i]+0.4)
			require.Greater(t, rate, 2*degree)
			return
		}
	}
	require.Fail(t, "no doublet in the log")
}

func TestGravityAtRest(t *testing.T) {
	log, err := Fly(model(3.9), []Card{{Kind: Climb, Speed: 23, Duration: 5}}, still(), DefaultInstruments(), seeded(3))
	require.NoError(t, err)
	x, _, n := meanOver(log, atForward, 0, resting)
	y, _, _ := meanOver(log, atRight, 0, resting)
	z, _, _ := meanOver(log, atDown, 0, resting)
	require.Equal(t, 125, n)
	require.InDelta(t, atmosphere.Gravity, math.Sqrt(x*x+y*y+z*z), 0.1)
	require.Less(t, z, -9.0)
	pitch, _, _ := meanOver(log, atPitch, 0, resting)
	require.InDelta(t, math.Sin(pitch), x/atmosphere.Gravity, 0.02)
	speed, _, _ := meanOver(log, atGroundSpeed, 0, resting)
	require.Less(t, speed, 0.3)
}

// From rest to climb no specific force jumps by more than the thrust can give.
func TestTakeOffHasNoSpike(t *testing.T) {
	log, err := Fly(model(3.9), []Card{{Kind: Climb, Speed: 23, Duration: 20}}, still(), perfect(), seeded(1))
	require.NoError(t, err)
	for i := 1; i < len(log.Time) && log.Time[i] < 20; i++ {
		require.Less(t, math.Abs(log.Columns[atForward][i]-log.Columns[atForward][i-1]), 1.0, "at %.2f s", log.Time[i])
		require.Less(t, math.Abs(log.Columns[atDown][i]-log.Columns[atDown][i-1]), 2.0, "at %.2f s", log.Time[i])
		require.Less(t, math.Abs(log.Columns[atAirspeed][i]-log.Columns[atAirspeed][i-1]), 0.5, "at %.2f s", log.Time[i])
	}
}

func TestEqualSeedsGiveEqualLogs(t *testing.T) {
	ac := model(3.9)
	cards := TrimCards(15)[:4]
	one, err := Fly(ac, cards, DefaultWeather(), DefaultInstruments(), seeded(5))
	require.NoError(t, err)
	two, err := Fly(ac, cards, DefaultWeather(), DefaultInstruments(), seeded(5))
	require.NoError(t, err)
	other, err := Fly(ac, cards, DefaultWeather(), DefaultInstruments(), seeded(6))
	require.NoError(t, err)
	require.Equal(t, written(t, one, Dialect{}), written(t, two, Dialect{}))
	require.NotEqual(t, written(t, one, Dialect{}), written(t, other, Dialect{}))
}

func TestFlyRefuses(t *testing.T) {
	glide := []Card{{Kind: Glide, Speed: 20, Duration: 5}}
	for _, c := range []struct {
		want string
		make func() (Aircraft, []Card, Weather, Instruments)
	}{
		{"length ratio", func() (Aircraft, []Card, Weather, Instruments) {
			ac := model(3.9)
			ac.LengthRatio = 0
			return ac, glide, still(), perfect()
		}},
		{`card 1: kind "loop"`, func() (Aircraft, []Card, Weather, Instruments) {
			return model(3.9), []Card{{Kind: "loop", Speed: 20, Duration: 5}}, still(), perfect()
		}},
		{"speed 0", func() (Aircraft, []Card, Weather, Instruments) {
			return model(3.9), []Card{{Kind: Glide, Duration: 5}}, still(), perfect()
		}},
		{"does not fit", func() (Aircraft, []Card, Weather, Instruments) {
			return model(3.9), []Card{{Kind: Doublet, Control: "rudder", Speed: 20, Duration: 4, Width: 1}}, still(), perfect()
		}},
		{"temperature", func() (Aircraft, []Card, Weather, Instruments) {
			return model(3.9), glide, Weather{Temperature: 15}, perfect()
		}},
		{"does not divide", func() (Aircraft, []Card, Weather, Instruments) {
			i := perfect()
			i.SatelliteRate = 4
			return model(3.9), glide, still(), i
		}},
		{"aileron", func() (Aircraft, []Card, Weather, Instruments) {
			ac := model(3.9)
			delete(ac.Derivatives.ByControl, "aileron")
			return ac, glide, still(), perfect()
		}},
	} {
		ac, cards, w, i := c.make()
		_, err := Fly(ac, cards, w, i, seeded(1))
		require.ErrorContains(t, err, c.want)
	}
}

// A glide from the take-off run meets the floor at once; a turn without thrust meets the ground and says so.
func TestGroundIsAnError(t *testing.T) {
	ac := model(3.9)
	ac.Propulsion.Static = 1e-3
	log, err := Fly(ac, []Card{{Kind: Turn, Speed: 22, Duration: 60, Bank: 0.5}}, still(), perfect(), seeded(1))
	require.True(t, errors.Is(err, ErrGround))
	require.ErrorContains(t, err, "card 1 (turn at 22.0 m/s)")
	require.NotEmpty(t, log.Time)
}
