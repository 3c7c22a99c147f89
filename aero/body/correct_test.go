package body

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero"
)

// lifting is a made-up aircraft without a body.
func lifting() aero.Derivatives {
	c := func(k float64) aero.Coefficients {
		return aero.Coefficients{Lift: k, Drag: 2 * k, Side: 3 * k, Roll: 4 * k, Pitch: 5 * k, Yaw: 6 * k}
	}
	d := aero.Derivatives{
		Reference:   aero.Reference{Area: 10, Span: 8, MeanChord: 1.2, MeanChordLeadingEdge: 2},
		MomentPoint: 2.1, Alpha: 0.05,
		At: c(0.1), ByAlpha: c(1), ByBeta: c(-1), ByRollRate: c(2), ByPitchRate: c(3), ByYawRate: c(4),
		ByControl: map[string]aero.Coefficients{"elevator": c(0.5)},
	}
	d.ByAlpha = aero.Coefficients{Lift: 5, Drag: 0.3, Pitch: -0.6}
	d.ByBeta = aero.Coefficients{Side: -0.4, Roll: -0.1, Yaw: 0.09}
	return d
}

// By hand: the pod in free air has π/2·0.64·8/3 = 2.680826 m³ in pitch, −π/2·1·8/3 = −4.188790 m³ in yaw;
// ΔCm_α = 2.680826/(10·1.2) = 0.2234021, ΔCn_β = −4.188790/(10·8) = −0.0523599, neutral point 2.680826/(10·5) = 53.6 mm forward.
func TestCorrectByHand(t *testing.T) {
	b := pod(t)
	e := Effect{Pitch: b.PitchSlope(nil), Yaw: b.YawSlope(nil), PitchDeviation: 0.5}
	require.InDelta(t, 2.680826, e.Pitch, 5e-7)
	require.InDelta(t, -4.188790, e.Yaw, 5e-7)
	d := lifting()
	got := Correct(d, e)
	require.InDelta(t, -0.6+0.2234021, got.ByAlpha.Pitch, 5e-8)
	require.InDelta(t, 0.09-0.0523599, got.ByBeta.Yaw, 5e-8)
	shift, deviation := NeutralPointShift(d, e)
	require.InDelta(t, -0.0536165, shift, 5e-8)
	require.InDelta(t, 0.01, deviation, 1e-15)
	point := func(d aero.Derivatives) float64 {
		return d.MomentPoint - d.Reference.MeanChord*d.ByAlpha.Pitch/d.ByAlpha.Lift
	}
	require.InDelta(t, point(d)+shift, point(got), 1e-14, "the neutral point of the corrected derivatives")
}

func TestCorrectTouchesTwoNumbersOnly(t *testing.T) {
	d := lifting()
	got := Correct(d, Effect{Pitch: 1, Yaw: -1})
	got.ByControl["elevator"] = aero.Coefficients{}
	require.Equal(t, lifting(), d, "the argument stays")
	got = Correct(d, Effect{Pitch: 1, Yaw: -1})
	got.ByAlpha.Pitch, got.ByBeta.Yaw = d.ByAlpha.Pitch, d.ByBeta.Yaw
	require.Equal(t, d, got)
	require.Equal(t, d, Correct(d, Effect{}), "no body, no change")
	d.ByControl = nil
	require.Nil(t, Correct(d, Effect{}).ByControl)
}

func TestEffectPutsTheFactorOnBothStrips(t *testing.T) {
	b := ellipsoid(t, 6, 1, 1, 200)
	e := b.Effect(nil, nil)
	require.InEpsilon(t, SlenderFactor(6)*2*b.Volume(), e.Pitch, 1e-4)
	require.InDelta(t, e.Pitch, -e.Yaw, 1e-12, "a round body turns alike in pitch and yaw, away from the stream")
	require.InDelta(t, 0.25*e.Pitch, e.PitchDeviation, 1e-15)
	require.InDelta(t, -0.40*e.Yaw, e.YawDeviation, 1e-15)
	half := b.Effect(func(float64) float64 { return 0.5 }, func(float64) float64 { return -1 })
	require.InEpsilon(t, e.Pitch/2, half.Pitch, 1e-9)
	require.InEpsilon(t, -e.Yaw, half.Yaw, 1e-9)
	require.Greater(t, half.YawDeviation, 0.0)
}

// Upwash ahead of the wing moves the neutral point further forward; a foreplane's downwash less.
func TestUpwashAndDownwashWorkTheRightWay(t *testing.T) {
	b := pod(t)
	wing := Root{2.2, 3.6}
	slope := func(outside Flow) float64 {
		flow, err := WithWing(wing, 4, outside)
		require.NoError(t, err)
		return b.PitchSlope(flow)
	}
	plain := slope(nil)
	wash := horseshoe(0.5, 1.2, 0.5) // a foreplane's vortex
	behind := func(x float64) float64 {
		if x < 1 {
			return 1
		}
		return wash(x)
	}
	require.Greater(t, slope(horseshoe(2.55, 3.5, 2.5)), plain)
	require.Less(t, slope(behind), plain)
	require.Less(t, plain, b.PitchSlope(nil))
	require.False(t, math.Signbit(slope(behind)))
}
