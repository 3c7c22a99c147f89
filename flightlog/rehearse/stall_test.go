package rehearse

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/atmosphere"
	"wingproof/aero/stability"
)

// stallOf is a deceleration by an exact hand in still air, from 1 s before the break to 1.5 s behind it: the highest pitch above that at
// the beginning, the lowest pitch rate, and the bank that is farthest from level.
func stallOf(t *testing.T, ac Aircraft) (rise, fall, bank float64) {
	stall := ac.StallSpeed(atmosphere.SeaLevelDensity)
	log, err := Fly(ac, []Card{climbing(stall), {Kind: Deceleration, Speed: slowFrom * stall, Duration: slowFor, Size: 1}}, still(), perfect(), seeded(1))
	require.NoError(t, err)
	s := log.Stretches[1]
	first, end := within(log, s.To-1, s.To+1.5)
	for i := first; i < end; i++ {
		rise = math.Max(rise, log.Truth.Pitch[i]-log.Truth.Pitch[first])
		fall = math.Min(fall, log.Columns[atPitchRate][i])
		if math.Abs(log.Truth.Roll[i]) > math.Abs(bank) {
			bank = log.Truth.Roll[i]
		}
	}
	require.Greater(t, log.Columns[atAirspeed][len(log.Time)-1], 1.25*stall, "recovered")
	return rise, fall, bank
}

// A foreplane that lets go first drops the nose with level wings; a wing that does raises it and rolls to the side that it is told.
func TestWhoLetsGoFirstShows(t *testing.T) {
	for _, cg := range []float64{3.75, 3.9, 3.98} {
		ac := model(cg)
		rise, _, bank := stallOf(t, ac)
		require.Less(t, rise, 0.5*degree, "CG %.2f m", cg)
		require.Less(t, math.Abs(bank), 1*degree)
		ac.Stall = InventedWingStall()
		rise, _, bank = stallOf(t, ac)
		require.Greater(t, rise, 1.5*degree, "CG %.2f m", cg)
		require.Greater(t, bank, 15*degree)
		ac.Stall.RollOff *= -1
		_, _, bank = stallOf(t, ac)
		require.Less(t, bank, -15*degree)
	}
	// with the elevator behind, a wing that takes the nose down with it
	ac := PublishedAircraft()[2].Aircraft
	rise, fall, bank := stallOf(t, ac)
	require.Less(t, rise, 2*degree)
	require.Less(t, fall, -3*degree)
	require.Less(t, math.Abs(bank), 1*degree)
}

// The truth about maximum lift lies at the knee, whoever lets go, and a slow deceleration in the log comes to it.
func TestHighestLift(t *testing.T) {
	wing := InventedWingStall()
	for _, ac := range []Aircraft{model(3.75), model(3.98), PublishedAircraft()[0].Aircraft} {
		for _, first := range []Stall{ac.Stall, wing} {
			ac.Stall = first
			lift, alpha, err := ac.HighestLift()
			require.NoError(t, err)
			require.InEpsilon(t, ac.MaxLift, lift, 0.04)
			trimmed, _, err := stability.Trim(frame(t, ac).d, ac.MaxLift)
			require.NoError(t, err)
			require.InDelta(t, trimmed, alpha, 1.5*degree)
		}
	}
}

// Truth.Lift is the lift that accelerometers feel in still air.
func TestTruthOfLift(t *testing.T) {
	ac := model(3.9)
	ac.AlphaRate.Lift, ac.AlphaRate.Pitch = 2, -3
	ins := perfect()
	log, err := Fly(ac, []Card{
		{Kind: Climb, Speed: 23, Duration: 20},
		{Kind: Glide, Speed: 23, Duration: 6},
		{Kind: Doublet, Speed: 23, Duration: 9, Control: "elevator", Size: 3 * degree, Width: 0.4},
	}, still(), ins, seeded(1))
	require.NoError(t, err)
	f := frame(t, ac)
	for i := range log.Time {
		v := log.Truth.Airspeed[i]
		if log.Time[i] < log.Stretches[1].From || log.Time[i] > log.Stretches[1].End {
			continue
		}
		air, err := atmosphere.Standard(log.Truth.Height[i])
		require.NoError(t, err)
		sin, cos := math.Sincos(log.Truth.Alpha[i])
		felt := 15 * (log.Columns[atForward][i]*sin - log.Columns[atDown][i]*cos) / (0.5 * air.Density * v * v * f.area)
		require.InDelta(t, felt, log.Truth.Lift[i], 2e-3, "idle") // thrust has a lag of 0.25 s
	}
}

func TestStallIsChecked(t *testing.T) {
	for _, s := range []struct {
		stall Stall
		says  string
	}{{Stall{First: "tail"}, "foreplane or wing"}, {Stall{Pitch: 0.1}, "one of the wing"}} {
		ac := model(3.9)
		ac.Stall = s.stall
		_, err := Fly(ac, nil, still(), perfect(), seeded(1))
		require.ErrorContains(t, err, s.says)
	}
}
