package decide

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/evidence"
)

const degree = math.Pi / 180

// Wheelbase 1.60 m, CG 1.40 m aft of the nose wheel and 0.75 m high, track 1.50 m. By the triangle: nose
// share 0.20/1.60 = 12.5 %, tip-back atan(0.20/0.75) = 14.9314°, δ = atan(0.75/1.60) = 25.1148°, overturn
// atan(0.75/(1.40·sin δ)) = 51.6110°.
func TestWheelsByHand(t *testing.T) {
	g := Gear{NoseX: 1, MainX: 2.6, Track: 1.5, GroundZ: -0.5}
	cg := empty{mass: 1, x: 2.4, z: 0.25}
	near(t, g.noseShare(cg), 12.5, 1e-12, "triangle")
	near(t, g.tipBack(cg)/degree, 14.9314, 5e-5, "triangle")
	near(t, g.overturn(cg)/degree, 51.6110, 5e-5, "triangle")
	require.Negative(t, g.tipBack(empty{x: 2.7, z: 0.25}), "CG aft of the main wheels: it sits on its tail")
	near(t, g.overturn(empty{x: 1, z: 0.25})/degree, 90, 1e-12, "CG on the nose wheel")
}

// By hand: 600 kg at 4.28 m with 80 kg at 2.2 m and 140 kg at 3.9 m is 820 kg at 3290/820 = 4.01220 m;
// with 15 kg of fuel 695 kg at 2802.5/695 = 4.03237 m. Travel 0.0201702/1.2 = 1.68 % of the chord; static
// margin with the neutral point at 4.160 m is (4.160 − 4.03237)/1.2 = 10.64 %.
func TestWeightLimitsByHand(t *testing.T) {
	p := testProblem()
	p.Aircraft.EmptyMass.SD, p.Aircraft.EmptyX.SD, p.Aircraft.EmptyZ.SD = 0, 0, 0
	for i := range p.Errors {
		p.Errors[i].Bias, p.Errors[i].Interaction, p.Errors[i].Level, p.Errors[i].FullSize = 0, 0, nil, nil
	}
	v := mustJudge(t, p)
	const config = "foreplane=long, winglet=mid"
	near(t, limitOf(t, v, config, "fuel travel").Median, 100*(4.03237410-4.01219512)/1.2, 1e-5, "sum of moments")
	margin := limitOf(t, v, config, "aft margin")
	near(t, margin.Median, 100*(4.16-4.03237410)/1.2, 1e-5, "sum of moments")
	require.Equal(t, "one aboard, fuel low", margin.Where, "the aftmost loading that flies")
	require.Equal(t, "one aboard, full fuel", limitOf(t, v, config, "nose-up room").Where, "the foremost loading that flies")
	tip := limitOf(t, v, config, "tip-back")
	require.Equal(t, "nobody aboard", tip.Where, "a pusher's worst case, although it does not fly")
	near(t, tip.Median, math.Atan((4.62-4.28)/(0.10+0.9)), 1e-9, "triangle")
	require.Equal(t, 1.0, tip.Probability)
}

// Mass and CG of the empty aircraft are one draw for all loadings and configurations.
func TestWeightDrawsAreCommon(t *testing.T) {
	p := testProblem()
	v := mustJudge(t, p)
	a, b := limitOf(t, v, "foreplane=long, winglet=mid", "tip-back"), limitOf(t, v, "foreplane=short, winglet=tall", "tip-back")
	require.Equal(t, a, b)
}

// Stations of either line count, and the worst one is named: moment 30,000 falling to 12,000 N·m at 2 m,
// allowable 36,000 falling to 15,000 at 1 m and level to 3 m: 21,000/15,000 = 1.4 at 1 m.
func TestWorstRatioByHand(t *testing.T) {
	moment := []BendingStation{{4, 0}, {0, 30000}, {2, 12000}}
	ratio, at, err := worstRatio(moment, []BendingStation{{0, 36000}, {1, 15000}, {3, 15000}})
	require.NoError(t, err)
	near(t, ratio, 1.4, 1e-12, "straight lines")
	require.Equal(t, 1.0, at)
	_, _, err = worstRatio(moment, []BendingStation{{5, 1}, {6, 1}})
	require.ErrorContains(t, err, "miss those of the moment")
	_, _, err = worstRatio(moment, []BendingStation{{0, 36000}, {1, 0}})
	require.ErrorContains(t, err, "above zero")
	_, _, err = worstRatio(moment, nil)
	require.ErrorContains(t, err, "two of each")
}

// Moment error 4 % and allowable error 3 % about a ratio of 0.9: ln-normal to first order, so 1/0.9 lies
// (1/0.9 − 1)/0.05 = 2.22 sd away and 98.5 to 98.9 % of the draws pass.
func TestBendingDrawsByHand(t *testing.T) {
	p := testProblem()
	for i := range p.Errors {
		p.Errors[i].Level, p.Errors[i].Interaction, p.Errors[i].FullSize = nil, 0, nil
	}
	p.Built[0].Allowable = []BendingStation{{0, 30000 / 0.9}, {4, 30000}}
	v := mustJudge(t, p)
	l := limitOf(t, v, "foreplane=long, winglet=mid", "main-spar")
	near(t, l.Median, 0.9, 0.002, "nominal")
	require.InDelta(t, 0.987, l.Probability, 0.004)
	require.Equal(t, evidence.BendingRatio, l.Quantity)
}
