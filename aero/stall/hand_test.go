package stall

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

// degree is the default stop window. It lies so that a foreplane lift which stops rising at once, from all of its
// attached slope to none, stops where it does. When the slope just before is the share r of the attached slope instead (its
// attached slope being b times as steep before as after), by hand the stop is found where
//
//	r·b·x = 0.2·(b·x + 1 − x),   x·1° before the drop, and 0.2° is added: the window begins there.
const degree = math.Pi / 180

// stopAfter is that stop for a drop at α.
func stopAfter(alpha, r, b float64) float64 {
	x := 0.2 / (r*b - 0.2*(b-1))
	return alpha - x*degree + 0.2*degree
}

// fixed returns section maxima that do not move.
func fixed(maximum ...float64) func(float64) []float64 {
	return func(float64) []float64 { return maximum }
}

// linear returns section lifts slope·α.
func linear(slopes ...float64) func(float64) []float64 {
	return func(alpha float64) []float64 {
		lift := make([]float64, len(slopes))
		for i, slope := range slopes {
			lift[i] = slope * alpha
		}
		return lift
	}
}

// pair is one foreplane strip ahead of one wing strip, worked by hand in the tests below.
func pair() Case {
	return Case{
		Name: "pair",
		Strips: []Strip{
			{Surface: "foreplane", Part: Foreplane, Along: 0.5, Area: 1, Arm: 3},
			{Surface: "wing", Part: Wing, Along: 0.5, Area: 4, Arm: -0.5},
		},
		Attached: linear(5, 4),
		MaxLift:  fixed(1, 1.2),
		Response: mat.NewDense(2, 2, []float64{4, 0.2, -1, 4}),
		AlphaMin: 0, AlphaMax: 0.4,
	}
}

// By hand: the foreplane lets go at 5α = 1, α = 0.2. Held there, 5α + 4d = 1 gives d = (1 − 5α)/4, and the wing
// carries 4α − d = 5.25α − 0.25, which is 1.2 at α = 1.45/5.25. Attached theory would say 1.2/4 = 0.3.
func TestPairByHand(t *testing.T) {
	o, err := Find(pair())
	require.NoError(t, err)
	require.InDelta(t, 0.2, o.Foreplane.Low, 2e-5)
	require.InDelta(t, 1.45/5.25, o.Wing.Low, 2e-5)
	margin, ok := o.Margin.Value()
	require.True(t, ok)
	require.InDelta(t, 1.45/5.25-0.2, margin, 4e-5)
	require.Equal(t, o.Wing, o.WingInboard)
	require.Equal(t, Station{0, "foreplane", 0.5, o.FirstForeplane.Alpha}, o.FirstForeplane)
	require.InDelta(t, 0.2, o.FirstForeplane.Alpha.Low, 2e-5)
	require.Equal(t, Station{1, "wing", 0.5, o.Wing}, o.FirstWing)
	require.Equal(t, []string{"foreplane", "wing"}, o.Surfaces)

	sections := o.Sections
	require.Equal(t, o.Wing.Low, sections.Alpha)
	require.InDelta(t, (1-5*sections.Alpha)/4, sections.Strips[0].Turn, 1e-6)
	require.InDelta(t, 1, sections.Strips[0].Lift, 1e-12)
	require.InDelta(t, 1.2, sections.Strips[1].Lift, 1e-4)
	require.InDelta(t, 4*sections.Alpha, sections.Strips[1].Attached, 1e-12)
}

func TestPairCurve(t *testing.T) {
	o, err := Find(pair())
	require.NoError(t, err)
	for k, p := range o.Curve {
		if k > 0 {
			require.Greater(t, p.Alpha, o.Curve[k-1].Alpha)
		}
		require.InDelta(t, p.ForeplaneLift+p.WingLift, p.Lift, 1e-12)
		require.InDelta(t, 5*p.Alpha, p.ForeplaneAttached, 1e-12)
		require.InDelta(t, 3*(p.ForeplaneLift-p.ForeplaneAttached)-0.5*(p.WingLift-p.WingAttached), p.PitchChange, 1e-12)
		switch {
		case p.Alpha < 0.2-1e-4:
			require.Equal(t, []int{0, 0}, p.LetGo)
			require.InDelta(t, min(1, 0.2+(0.2-p.Alpha)/degree), p.ForeplaneRise, 1e-10)
		case p.Alpha > 0.2+1e-4 && p.Alpha < o.Wing.Low-1e-4:
			require.Equal(t, []int{1, 0}, p.LetGo)
			require.InDelta(t, max(0, 0.2-(p.Alpha-0.2)/degree), p.ForeplaneRise, 1e-10)
			require.InDelta(t, 4*(5.25*p.Alpha-0.25), p.WingLift, 1e-10)
		case p.Alpha > o.Wing.Low+1e-4:
			require.Equal(t, []int{1, 1}, p.LetGo)
		}
	}
}

// By hand: while the foreplane alone is held, letting go adds 3·(1 − 5α) − 0.5·4·(5.25α − 0.25 − 4α) to the nose-up
// moment, slope −15 − 2.5 against +15 of the attached foreplane. With the wing held too, −15 + 0.5·4·4 = −7: still down.
// At an arm of −2.5 m the wing's 2.5·4·4 = 40 wins: the nose goes up from the wing's α on.
func TestPairPitch(t *testing.T) {
	c := pair()
	o, err := Find(c)
	require.NoError(t, err)
	require.InDelta(t, 0.2, o.Pitch.NoseDrop.Low, 2e-5)
	_, up := o.Pitch.PitchUp.Value()
	require.False(t, up)
	at, ok := o.Pitch.PitchUp.AtLeast()
	require.True(t, ok)
	require.Equal(t, c.AlphaMax, at)

	c.Strips[1].Arm = -2.5
	o, err = Find(c)
	require.NoError(t, err)
	require.InDelta(t, 1.45/5.25, o.Pitch.PitchUp.Low, 2e-5)
	require.Contains(t, o.Notes[len(o.Notes)-1], "push the nose up from α = 15.82°")

	c.Strips[0].Arm, c.Strips[1].Arm = 0, 0
	o, err = Find(c)
	require.NoError(t, err)
	require.Nil(t, o.Pitch)

	c.Strips[0].Arm = -3
	_, err = Find(c)
	require.ErrorContains(t, err, "metres ahead of the CG")
}

// Without response, strips meet their maximum where the attached line does: the plain critical-section method.
func TestNoResponseIsPlainCriticalSection(t *testing.T) {
	c := pair()
	c.Response = nil
	o, err := Find(c)
	require.NoError(t, err)
	require.InDelta(t, 0.2, o.Foreplane.Low, 2e-5)
	require.InDelta(t, 0.3, o.Wing.Low, 2e-5)
	for _, p := range o.Curve {
		require.InDelta(t, min(1, 5*p.Alpha), p.ForeplaneLift, 1e-12)
		require.InDelta(t, 4*min(1.2, 4*p.Alpha), p.WingLift, 1e-12)
	}
	c.Response = mat.NewDense(2, 2, []float64{3, 0, 0, 9})
	diagonal, err := Find(c)
	require.NoError(t, err)
	require.Equal(t, o.Margin, diagonal.Margin)
}

// A wing that goes first gives a negative margin; by hand, with the wing held at 0.15 from α = 0.0375 on, the foreplane
// loses 0.2·(4α − 0.15)/4 and meets 1 where 5α − 0.2α + 0.0075 = 1.
func TestWingFirst(t *testing.T) {
	c := pair()
	c.MaxLift = fixed(1, 0.15)
	o, err := Find(c)
	require.NoError(t, err)
	require.InDelta(t, 0.0375, o.Wing.Low, 2e-5)
	stop := stopAfter(0.9925/4.8, 4.8/5, 1)
	require.InDelta(t, stop, o.Foreplane.Low, 2e-5)
	require.InDelta(t, 0.0375-stop, o.Margin.Low, 4e-5)
}

// The elevator moves with α and stops at α = 0.25: the foreplane's maximum follows 0.8 + 2α, its attached lift 6α, up to there.
// By hand the strip is at its maximum from 6α = 0.8 + 2α, α = 0.2, but a third of its slope remains until the stop.
func TestMovingElevatorStopsAtItsStop(t *testing.T) {
	c := pair()
	c.Response = nil
	c.Attached = func(alpha float64) []float64 { return []float64{5*alpha + min(alpha, 0.25), 4 * alpha} }
	c.MaxLift = func(alpha float64) []float64 { return []float64{0.8 + 2*min(alpha, 0.25), 1.5} }
	o, err := Find(c)
	require.NoError(t, err)
	require.InDelta(t, 0.2, o.FirstForeplane.Alpha.Low, 2e-5)
	stop := stopAfter(0.25, 2.0/6, 6.0/5)
	require.InDelta(t, stop, o.Foreplane.Low, 2e-5)
	require.InDelta(t, 0.375-stop, o.Margin.Low, 4e-5)
	c.StopWindow = 1e-4 // with a window as narrow as the search is fine, the stop is where the elevator stops
	o, err = Find(c)
	require.NoError(t, err)
	require.InDelta(t, 0.25, o.Foreplane.Low, 1e-4)
}

// A pause of the foreplane's lift does not count when the lift rises again before the wing goes.
func TestPauseIsNotAStop(t *testing.T) {
	c := pair()
	c.Response = nil
	c.MaxLift = func(alpha float64) []float64 {
		return []float64{0.5 + max(0, 10*(min(alpha, 0.2)-0.15)), 1.2} // held from 0.1, released to 1 by 0.2
	}
	c.Strips[0].Arm, c.Strips[1].Arm = 0, 0
	o, err := Find(c)
	require.NoError(t, err)
	require.InDelta(t, 0.1, o.FirstForeplane.Alpha.Low, 2e-5)
	require.InDelta(t, stopAfter(0.2, 2, 1), o.Foreplane.Low, 2e-5)
	require.Len(t, o.Notes, 1)
	require.Contains(t, o.Notes[0], "pauses near α = 5.98° and rises again")
}

func TestBoundsWhereNothingIsReached(t *testing.T) {
	inf := math.Inf(1)
	for _, test := range []struct {
		name             string
		maximum          []float64
		from             float64
		foreplane, wing  Bracket
		margin           string
		foreplaneStation int
	}{
		{"wing beyond", []float64{1, 9}, 0, known(0.2), beyond(0.4), "at least 11.46°", 0},
		{"foreplane beyond", []float64{9, 1.2}, 0, beyond(0.4), known(0.3), "at most -5.73°", -1},
		{"both beyond", []float64{9, inf}, 0, beyond(0.4), beyond(0.4), "unknown", -1},
		{"foreplane below", []float64{0.1, 1.2}, 0.1, below(0.1), known(0.3), "at least 11.46°", 0},
		{"wing below", []float64{1, 0.1}, 0.1, known(0.2), below(0.1), "at most -5.73°", 0},
		{"wing below, foreplane beyond", []float64{9, 0.1}, 0.1, beyond(0.4), below(0.1), "at most -17.19°", -1},
		{"both below", []float64{0.1, 0.1}, 0.1, below(0.1), below(0.1), "unknown", 0},
	} {
		t.Run(test.name, func(t *testing.T) {
			c := pair()
			c.Response, c.MaxLift, c.AlphaMin = nil, fixed(test.maximum...), test.from
			o, err := Find(c)
			require.NoError(t, err)
			for _, b := range [][2]Bracket{{test.foreplane, o.Foreplane}, {test.wing, o.Wing}} {
				require.Equal(t, b[0].isKnown(), b[1].isKnown(), "%v", b)
				requireNear(t, b[0].Low, b[1].Low)
				requireNear(t, b[0].High, b[1].High)
			}
			require.Equal(t, test.margin, o.Margin.String())
			require.Equal(t, test.foreplaneStation, o.FirstForeplane.Strip)
			_, ok := o.Margin.Value()
			require.False(t, ok)
			require.NotEmpty(t, o.Notes)
		})
	}
}

// requireNear compares angles to the accuracy that Find promises; infinities must be equal.
func requireNear(t *testing.T, want, got float64) {
	t.Helper()
	if math.IsInf(want, 0) {
		require.Equal(t, want, got)
		return
	}
	require.InDelta(t, want, got, 1e-4)
}
