package rehearse

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/atmosphere"
)

// within reads the rows of a log from one time to another.
func within(l Log, from, to float64) (first, end int) {
	for first = 0; first < len(l.Time) && l.Time[first] < from; first++ {
	}
	for end = first; end < len(l.Time) && l.Time[end] < to; end++ {
	}
	return first, end
}

// The speed falls by what the card asks, the path stays near level, lift rises to the highest trimmed lift at which the foreplane
// lets go, the nose drops by itself, and the speed comes back.
func TestDecelerationEndsAtHighestLift(t *testing.T) {
	for _, cg := range []float64{3.75, 3.9, 3.98} {
		for _, rate := range []float64{0, 0.6, 1.4} {
			ac := model(cg)
			stall := ac.StallSpeed(atmosphere.SeaLevelDensity)
			log, err := Fly(ac, []Card{
				{Kind: Climb, Speed: 1.55 * stall, Duration: 24},
				{Kind: Deceleration, Speed: 1.4 * stall, Duration: 40, Size: rate},
			}, still(), perfect(), seeded(1))
			require.NoError(t, err)
			s := log.Stretches[1]
			require.Greater(t, s.From, s.Start+settling-0.02)
			require.Less(t, s.To, s.End)
			if rate == 0 {
				rate = 1
			}
			first, end := within(log, s.From+3, s.To-3)
			fell := (log.Columns[atAirspeed][first] - log.Columns[atAirspeed][end-1]) / (log.Time[end-1] - log.Time[first])
			require.InEpsilon(t, rate, fell, 0.3, "a hand, not a machine: CG %.2f m", cg)

			highest := 0.0
			first, end = within(log, s.From, s.To)
			for i := first; i < end; i++ {
				sin, cos := math.Sincos(log.Truth.Alpha[i])
				lift := log.Columns[atForward][i]*sin - log.Columns[atDown][i]*cos
				air, err := atmosphere.Standard(log.Truth.Height[i])
				require.NoError(t, err)
				v := log.Truth.Airspeed[i]
				highest = math.Max(highest, 15*lift/(0.5*air.Density*v*v*12.6/16))
				require.Less(t, math.Abs(log.Columns[atRoll][i]), 3*degree)
				require.Less(t, log.Columns[atThrottle][i], 0.5)
			}
			require.InDelta(t, 1.3, highest, 0.05, "highest lift, CG %.2f m, %g m/s per s", cg, rate)
			last := len(log.Time) - 1
			require.Greater(t, log.Columns[atAirspeed][last], 1.2*stall)
			require.Less(t, log.Columns[atPitchRate][end], -1*degree, "the nose goes down")
			require.Equal(t, 1.0, log.Columns[atThrottle][last])
			require.Less(t, math.Abs(log.Truth.Height[end]-log.Truth.Height[first]), 20.0, "nearly level")
		}
	}
}

// A 3-2-1-1 has its four steps of alternating sign on the stick, for 3, 2, 1 and 1 width, and nothing else on it.
func TestMultistepHasItsSteps(t *testing.T) {
	const width = 0.32
	for _, c := range []struct {
		control string
		column  int
	}{{"elevator", atElevator}, {"aileron", atAileron}, {"rudder", atRudderLeft}} {
		log, err := Fly(model(3.9), []Card{
			{Kind: Climb, Speed: 23, Duration: 20},
			{Kind: Multistep, Speed: 24, Duration: 10, Control: c.control, Size: 3 * degree, Width: width},
		}, still(), perfect(), seeded(1))
		require.NoError(t, err)
		s := log.Stretches[1]
		require.InDelta(t, s.From+7*width+response, s.To, 1e-9)
		first, end := within(log, s.From, s.To)
		middle := log.Columns[c.column][end-1]
		for i := first; i < end; i++ {
			t0 := (log.Time[i] - s.From) / width
			if math.Abs(t0-math.Round(t0)) < 0.1 {
				continue // a row at the edge of a step
			}
			want := 0.0
			switch {
			case t0 < 3, t0 > 5 && t0 < 6:
				want = 3 * degree
			case t0 < 7:
				want = -3 * degree
			}
			require.InDelta(t, want, log.Columns[c.column][i]-middle, 1e-9, "%s at %.2f widths", c.control, t0)
		}
	}
}

// A circle sees every heading at its bank and speed, once or as often as asked, to its side.
func TestCircleGoesAllTheWayRound(t *testing.T) {
	w := DefaultWeather()
	w.WindSpeed = 4
	for _, c := range []struct{ bank, turns, round float64 }{{0.45, 0, 1}, {-0.45, 0, 1}, {0.6, 2, 2}, {-0.5, 1.5, 1.5}} {
		log, err := Fly(model(3.9), []Card{
			{Kind: Climb, Speed: 23, Duration: 20},
			{Kind: Circle, Speed: 24, Duration: 100, Bank: c.bank, Turns: c.turns},
		}, w, perfect(), seeded(1))
		require.NoError(t, err)
		s := log.Stretches[1]
		first, end := within(log, s.From, s.To)
		round := 0.0
		for i := first + 1; i < end; i++ {
			round += wrap(log.Truth.Heading[i] - log.Truth.Heading[i-1])
		}
		require.InDelta(t, math.Copysign(c.round, c.bank), round/(2*math.Pi), 0.01)
		bank, spread, _ := meanOver(log, atRoll, s.From, s.To)
		require.InDelta(t, c.bank, bank, 0.02)
		require.Less(t, spread, 0.05)
		speed, _, _ := meanOver(log, atAirspeed, s.From, s.To)
		require.InDelta(t, 24, speed, 0.4)
	}
}

// Sideslips settle where rudder and sideslip balance in yaw: β ≈ −Cn_δr/Cn_β·δr, less what ailerons and rates add.
func TestEssentialPartOfSideslipIsSteady(t *testing.T) {
	for _, size := range []float64{8 * degree, -8 * degree} {
		log, err := Fly(model(3.9), []Card{
			{Kind: Climb, Speed: 23, Duration: 20}, {Kind: Sideslip, Speed: 23, Duration: 14, Size: size},
		}, still(), perfect(), seeded(1))
		require.NoError(t, err)
		s := log.Stretches[1]
		require.Greater(t, s.To-s.From, 5.0)
		first, end := within(log, s.From, s.To)
		for i := first; i < end; i++ {
			aileron := log.Truth.Aileron[i]
			want := (0.05*size + 0.01*aileron) / 0.06
			require.InDelta(t, want, log.Truth.Beta[i], 1.2*degree)
		}
	}
}

func TestManoeuvreCardsHoldEveryKind(t *testing.T) {
	ac := model(3.9)
	stall := ac.StallSpeed(atmosphere.SeaLevelDensity)
	type flown struct {
		kind    Kind
		control string
		right   bool
	}
	seen := map[flown]int{}
	empty, cards := 0, 0
	for i, sheet := range ManoeuvreCards(stall) {
		w := DefaultWeather()
		w.WindSpeed, w.WindFrom = 3, float64(i)
		log, err := Fly(ac, sheet, w, DefaultInstruments(), seeded(uint64(i)))
		require.NoError(t, err)
		minutes := log.Time[len(log.Time)-1] / 60
		require.True(t, minutes > 4 && minutes < 8, "sheet %d takes %.1f minutes", i+1, minutes)
		for _, s := range log.Stretches {
			require.True(t, s.Start <= s.From && s.From <= s.To && s.To <= s.End, "%+v", s)
			if s.Card.Kind == Climb {
				continue
			}
			cards++
			if s.From == s.To {
				empty++
			}
			seen[flown{s.Card.Kind, s.Card.Control, s.Card.Bank > 0 || s.Card.Kind == Sideslip && s.Card.Size > 0}]++
		}
	}
	for _, want := range []flown{
		{Level, "", false}, {Glide, "", false}, {Deceleration, "", false},
		{Turn, "", false}, {Turn, "", true}, {Circle, "", false}, {Circle, "", true}, {Sideslip, "", false}, {Sideslip, "", true},
		{Doublet, "elevator", false}, {Doublet, "aileron", false}, {Doublet, "rudder", false},
		{Multistep, "elevator", false}, {Multistep, "aileron", false}, {Multistep, "rudder", false},
	} {
		require.Positive(t, seen[want], "%+v", want)
	}
	require.LessOrEqual(t, empty, 1, "of %d cards", cards)
}

func TestNewCardsAreChecked(t *testing.T) {
	for _, c := range []struct {
		card Card
		says string
	}{
		{Card{Kind: Circle, Speed: 20, Duration: 30}, "bank 0 rad"},
		{Card{Kind: Circle, Speed: 20, Duration: 30, Bank: 0.4, Turns: -1}, "-1 turns"},
		{Card{Kind: Multistep, Speed: 20, Duration: 10, Control: "flap", Width: 0.3}, "write elevator"},
		{Card{Kind: Multistep, Speed: 20, Duration: 6, Control: "rudder", Width: 0.3}, "does not fit"},
		{Card{Kind: Multistep, Speed: 20, Duration: 6, Control: "rudder"}, "width 0 s"},
		{Card{Kind: Deceleration, Speed: 20, Duration: 3}, "no time to slow down"},
		{Card{Kind: Deceleration, Speed: 20, Duration: 30, Size: 9}, "9 m/s per second"},
		{Card{Kind: Level, Speed: 20, Duration: 30, Hand: Hand{Noise: -1}}, "hand"},
		{Card{Kind: Level, Speed: 20, Duration: 30, Hand: Hand{Times: [4]float64{0, -1}}}, "step 2"},
	} {
		_, err := Fly(model(3.9), []Card{c.card}, still(), perfect(), seeded(1))
		require.ErrorContains(t, err, c.says)
	}
}

// A flight that meets the ground still says where the essential part would have been.
func TestStretchOfABrokenFlight(t *testing.T) {
	ac := model(3.9)
	ac.Propulsion.Static = 1e-3
	log, err := Fly(ac, []Card{{Kind: Level, Speed: 22, Duration: 60}}, still(), perfect(), seeded(1))
	require.True(t, errors.Is(err, ErrGround))
	s := log.Stretches[0]
	require.True(t, s.From <= s.To && s.To <= s.End)
}
