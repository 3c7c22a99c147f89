package body

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// tube is a body of constant width 0.8 m from x = 0 to 4 m (for integrals by hand).
func tube(t *testing.T) Body {
	b, err := New([]Station{{0, 0.8, 1, 0}, {2, 0.8, 1, 0}, {4, 0.8, 1, 0}})
	require.NoError(t, err)
	return b
}

func TestMunkIsTwiceTheVolumeOfARoundBody(t *testing.T) {
	b, err := New([]Station{{0, 0, 0, 0}, {0.7, 0.5, 0.5, 0}, {2, 0.9, 0.9, 0}, {5, 0.1, 0.1, 0}})
	require.NoError(t, err)
	free := func(float64) float64 { return 1 }
	require.InEpsilon(t, 2*b.Volume(), b.PitchSlope(nil), 1e-14)
	require.InEpsilon(t, 2*b.Volume(), b.PitchSlope(free), 1e-12)
	require.InEpsilon(t, -2*b.Volume(), b.YawSlope(free), 1e-12)
}

func TestWithWingByHand(t *testing.T) {
	// Free air ahead of the root (2 m), nothing on it (1 m), from 0 to 0.5 behind it (1 m): π/2·0.64·(2 + 0 + 0.25) m³.
	flow, err := WithWing(Root{2, 3}, 4, func(x float64) float64 {
		if x > 2 {
			return 0.5
		}
		return 1
	})
	require.NoError(t, err)
	for x, want := range map[float64]float64{0: 1, 1.999: 1, 2: 0, 2.5: 0, 3: 0, 3.5: 0.25, 4: 0.5, 5: 0.5} {
		require.InDelta(t, want, flow(x), 1e-14, "x = %g", x)
	}
	require.InEpsilon(t, math.Pi/2*0.64*2.25, tube(t).PitchSlope(flow), 1e-8)
	// A pusher whose body ends on the root chord.
	flow, err = WithWing(Root{2.3, 4.1}, 4, nil)
	require.NoError(t, err)
	require.InEpsilon(t, math.Pi/2*0.64*2.3, tube(t).PitchSlope(flow), 1e-8)
	require.Zero(t, flow(4.05))
	require.Zero(t, flow(4.5))
}

func TestForeplaneInsideTheFlowOfTheWing(t *testing.T) {
	nose, err := WithRoot(Root{0.3, 0.7}, nil)
	require.NoError(t, err)
	flow, err := WithWing(Root{2.5, 4}, 4, nose)
	require.NoError(t, err)
	require.InEpsilon(t, math.Pi/2*0.64*(2.5-0.4), tube(t).PitchSlope(flow), 1e-8)
}

func TestRootWithoutChordIsRefused(t *testing.T) {
	for _, r := range []Root{{2, 2}, {3, 2}, {math.NaN(), 2}} {
		_, err := WithRoot(r, nil)
		require.ErrorContains(t, err, "the trailing edge needs the larger x")
		_, err = WithWing(r, 4, nil)
		require.ErrorContains(t, err, "body: the root runs from x = ")
	}
}

// The upwash ahead of a flat plate of chord c in two dimensions, √((c+d)/d) at the distance d, grows
// beyond bounds at the leading edge; its integral over 0 … L is √(L(L+c)) + c·arsinh √(L/c).
func TestUpwashThatGrowsBeyondBounds(t *testing.T) {
	const lead, chord = 2.2, 1.3
	flow, err := WithWing(Root{lead, lead + chord}, 4, func(x float64) float64 {
		if x > lead {
			return 0
		}
		return math.Sqrt((chord + lead - x) / (lead - x))
	})
	require.NoError(t, err)
	want := math.Sqrt(lead*(lead+chord)) + chord*math.Asinh(math.Sqrt(lead/chord))
	require.InEpsilon(t, math.Pi/2*0.64*want, tube(t).PitchSlope(flow), 1e-7)
}

// Two roads: halving against a plain sum over a million slices, in the flow about one horseshoe vortex.
func TestHorseshoeFlowAgainstPlainSum(t *testing.T) {
	flow, err := WithWing(Root{1.7, 2.9}, 4, horseshoe(2, 3.5, 0.6))
	require.NoError(t, err)
	b := pod(t)
	const n = 1_000_000
	sum := 0.0
	for i := range n {
		x := 4 * (float64(i) + 0.5) / n
		w := b.section(x).Width
		sum += w * w * flow(x) * 4 / n
	}
	require.InEpsilon(t, math.Pi/2*sum, b.PitchSlope(flow), 1e-6)
}

// horseshoe is the flow on the middle of one horseshoe vortex with its bound leg at x = at, the given half span and the
// circulation per radian over the speed, m: 1 − Γ/(2πs)·(1 + √(ξ²+s²)/ξ), ξ behind the bound leg.
func horseshoe(at, halfSpan, circulation float64) Flow {
	return func(x float64) float64 {
		xi := x - at
		return 1 - circulation/(2*math.Pi*halfSpan)*(1+math.Hypot(xi, halfSpan)/xi)
	}
}

// A flow that is not a number is not hidden, and one that is noise ends.
func TestHopelessFlows(t *testing.T) {
	require.True(t, math.IsNaN(tube(t).PitchSlope(func(float64) float64 { return math.NaN() })))
	calls := 0
	v := tube(t).PitchSlope(func(x float64) float64 {
		calls++
		return math.Mod(math.Abs(math.Sin(1e12*x))*1e4, 1)
	})
	require.InDelta(t, math.Pi/2*0.64*4*0.5, v, 0.2)
	require.Less(t, calls, 3_000_000)
}
