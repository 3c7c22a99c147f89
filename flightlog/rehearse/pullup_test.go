package rehearse

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/atmosphere"
)

// loadFactor of a row: what the accelerometer feels along −Z, in g.
func loadFactor(l Log, i int) float64 { return -l.Columns[atDown][i] / atmosphere.Gravity }

// A pull-up comes to the load factor of its card on one held elevator, wings level, and goes back to level flight; with the elevator ahead and
// behind, and with α̇ derivatives, which do not change where it stands.
func TestPullUpComesToItsLoadFactor(t *testing.T) {
	for name, ac := range everyone() {
		stall := ac.StallSpeed(atmosphere.SeaLevelDensity)
		for _, size := range []float64{1.4, 1.7, 2} {
			log, err := Fly(ac, []Card{climbing(stall), {Kind: PullUp, Speed: 1.8 * stall, Duration: 13, Size: size}}, still(), perfect(), seeded(1))
			require.NoError(t, err)
			s := log.Stretches[1]
			require.InDelta(t, pullWidth, s.To-s.From, 1e-9)
			first, end := within(log, s.From, s.To)
			most := 0.0
			for i := first; i < end; i++ {
				most = math.Max(most, loadFactor(log, i))
				require.Less(t, math.Abs(log.Truth.Roll[i]), 5*degree)
			}
			require.InDelta(t, size-1, most-1, 0.15*(size-1)+0.05, name)
			held := log.Columns[atElevator][first+1]
			for i := first + 1; i < end-1; i++ {
				require.Equal(t, held, log.Columns[atElevator][i])
			}
			last := len(log.Time) - 1
			climb, _, _ := meanOver(log, atClimb, s.End-1, s.End)
			require.Less(t, math.Abs(climb), 0.15*log.Truth.Airspeed[last], name)
			require.Greater(t, log.Truth.Airspeed[last], 1.5*stall)
		}
	}
}

// The step never asks for lift near the highest, whatever the card says.
func TestPullUpStaysOffTheStall(t *testing.T) {
	ac := model(3.9)
	stall := ac.StallSpeed(atmosphere.SeaLevelDensity)
	log, err := Fly(ac, []Card{climbing(stall), {Kind: PullUp, Speed: 1.4 * stall, Duration: 12, Size: 3}}, still(), perfect(), seeded(1))
	require.NoError(t, err)
	for _, lift := range log.Truth.Lift {
		require.Less(t, lift, 0.97*ac.MaxLift)
	}
}

// Turns of the sheet for the manoeuvre point hold bank, load factor and elevator over their last six seconds: load factor 1/cos of the bank.
func TestTurnsOfTheSheetHold(t *testing.T) {
	for name, ac := range everyone() {
		log, err := Fly(ac, SlowAndTurningCards(ac.StallSpeed(atmosphere.SeaLevelDensity)), still(), perfect(), seeded(1))
		require.NoError(t, err)
		turns := 0
		for _, s := range log.Stretches {
			if s.Card.Kind != Turn {
				continue
			}
			turns++
			bank, spread, _ := meanOver(log, atRoll, s.End-6, s.End)
			require.InDelta(t, s.Card.Bank, bank, 2*degree, name)
			require.Less(t, spread, 0.5*degree, name)
			_, spread, _ = meanOver(log, atElevator, s.End-6, s.End)
			require.Less(t, spread, 0.15*degree, name)
			down, spread, _ := meanOver(log, atDown, s.End-6, s.End)
			require.InEpsilon(t, 1/math.Cos(bank), -down/atmosphere.Gravity, 0.04, name)
			require.Less(t, spread, 0.03*atmosphere.Gravity, name)
			climb, _, _ := meanOver(log, atClimb, s.End-6, s.End)
			require.Less(t, math.Abs(climb), 0.03*s.Card.Speed, name)
		}
		require.Equal(t, 4, turns)
	}
}

func TestPullUpIsChecked(t *testing.T) {
	for _, c := range []struct {
		card Card
		says string
	}{
		{Card{Kind: PullUp, Speed: 20, Duration: 12}, "load factor of 0"},
		{Card{Kind: PullUp, Speed: 20, Duration: 12, Size: 9}, "at most 4"},
		{Card{Kind: PullUp, Speed: 20, Duration: 7, Size: 2}, "does not fit"},
		{Card{Kind: PullUp, Speed: 20, Duration: 12, Size: 2, Width: -1}, "width"},
	} {
		_, err := Fly(model(3.9), []Card{c.card}, still(), perfect(), seeded(1))
		require.ErrorContains(t, err, c.says)
	}
}

// A careless pilot pulls up by more or less, within the limits of a card, and flies the sheets of a programme to their end.
func TestSloppyProgramme(t *testing.T) {
	ac := model(3.9)
	stall := ac.StallSpeed(atmosphere.SeaLevelDensity)
	least, most := 9.0, 0.0
	for seed := range uint64(8) {
		for _, sheet := range [][]Card{TrimAndElevatorCards(stall), LateralCards(stall), SlowAndTurningCards(stall)} {
			cards := Sloppy(sheet, seeded(seed))
			for i, c := range cards {
				if c.Kind == PullUp {
					change := (c.Size - 1) / (sheet[i].Size - 1)
					least, most = math.Min(least, change), math.Max(most, change)
				}
			}
			log, err := Fly(ac, cards, DefaultWeather(), DefaultInstruments(), seeded(seed))
			require.NoError(t, err)
			require.Less(t, log.Time[len(log.Time)-1], 600.0)
		}
	}
	require.True(t, least > 0.6-1e-9 && least < 0.75 && most < 1.4+1e-9 && most > 1.25, "%g to %g", least, most)
}
