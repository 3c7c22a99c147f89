package quality

import (
	"math"
	"testing"

	"wingproof/flightlog"

	"github.com/stretchr/testify/require"
)

// circling is four minutes in which the model nods gently and turns half of the time at 27° of bank. The rates follow from the
// angles: p = φ̇ − ψ̇ sin θ, q = θ̇ cos φ + ψ̇ cos θ sin φ, r = ψ̇ cos θ cos φ − θ̇ sin φ (Etkin, Dynamics of Flight).
func circling() *flightlog.Recording {
	rec := &flightlog.Recording{Source: "made.csv", Channels: map[flightlog.Quantity]flightlog.Channel{}, Rows: 6000}
	theta := func(t float64) float64 { return 0.12 * math.Sin(0.5*t) }
	bank := func(t float64) float64 { return 0.47 / (1 + math.Exp(-8*math.Sin(t/8))) }
	turn := func(t float64) float64 { return 9.81 * math.Tan(bank(t)) / 20 }
	slope := func(f func(float64) float64, t float64) float64 { return (f(t+1e-3) - f(t-1e-3)) / 2e-3 }
	put := func(q flightlog.Quantity, value func(t float64) float64) {
		var c flightlog.Channel
		for i := range 6000 {
			t := float64(i) * 0.04
			c.Time, c.Value = append(c.Time, t), append(c.Value, value(t)+1e-3*math.Sin(float64(i)*2.1))
		}
		rec.Channels[q] = c
	}
	put(flightlog.PitchAngle, theta)
	put(flightlog.RollAngle, bank)
	put(flightlog.RollRate, func(t float64) float64 { return slope(bank, t) - turn(t)*math.Sin(theta(t)) })
	put(flightlog.PitchRate, func(t float64) float64 {
		return slope(theta, t)*math.Cos(bank(t)) + turn(t)*math.Cos(theta(t))*math.Sin(bank(t))
	})
	put(flightlog.YawRate, func(t float64) float64 {
		return turn(t)*math.Cos(theta(t))*math.Cos(bank(t)) - slope(theta, t)*math.Sin(bank(t))
	})
	return rec
}

// A pitch rate of the wrong sign or unit shows although the model turns most of the time.
func TestPitchRateIsJudgedBetweenTurns(t *testing.T) {
	require.Empty(t, Inspect(circling()))

	turned := circling()
	scaled(turned, flightlog.PitchRate, -1)
	got := about(Inspect(turned), flightlog.PitchRate, flightlog.Refusal)
	require.Len(t, got, 1)
	require.Contains(t, got[0].What, "runs against the change of the pitch angle")

	small := circling()
	scaled(small, flightlog.PitchRate, math.Pi/180)
	got = about(Inspect(small), flightlog.PitchRate, flightlog.Refusal)
	require.Len(t, got, 1)
	require.Contains(t, got[0].What, "times the change of the pitch angle")
	require.Contains(t, got[0].Consequence, "the column seems to be in radians a second, not in degrees a second")

	yaw := circling()
	scaled(yaw, flightlog.YawRate, -1)
	require.Empty(t, about(Inspect(yaw), flightlog.PitchRate, flightlog.Refusal), "the yaw rate is not blamed on the pitch rate")
}
