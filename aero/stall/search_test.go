package stall

import (
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

// Begin is Find cut short: what it gives is the same, and the rest is not there.
func TestOutlineIsTheOrderCutShort(t *testing.T) {
	for _, strips := range []int{6, 12} {
		c := usual(t, strips)
		whole := order(t, c)
		s, err := Begin(c)
		require.NoError(t, err)
		outline := s.Outline()
		require.Nil(t, outline.Pitch)
		require.Empty(t, outline.Stops)
		require.Empty(t, outline.Sections.Strips)
		require.Equal(t, "unknown", outline.FirstForeplane.Alpha.String())
		again, err := s.Order()
		require.NoError(t, err)
		require.Equal(t, whole, again)
		require.Equal(t, outline, s.Outline(), "finding the rest leaves the outline alone")
		outline.FirstForeplane, outline.Pitch, outline.Stops = whole.FirstForeplane, whole.Pitch, whole.Stops
		outline.Surfaces, outline.Sections, outline.Notes = whole.Surfaces, whole.Sections, whole.Notes
		require.Equal(t, whole, outline)
	}
}

// No angle of attack is solved twice, and one that is known is as good as one solved by itself.
func TestEveryAngleIsSolvedOnce(t *testing.T) {
	c := usual(t, 12)
	asked := map[float64]int{}
	attached := c.Attached
	c.Attached = func(alpha float64) []float64 {
		asked[alpha]++
		return attached(alpha)
	}
	s, err := Begin(c)
	require.NoError(t, err)
	_, err = s.Order()
	require.NoError(t, err)
	for alpha, times := range asked {
		require.Equal(t, 1, times, "α = %g", alpha)
	}
	require.Len(t, s.samples, len(asked))
	for k, p := range s.samples {
		if k > 0 {
			require.Greater(t, p.alpha, s.samples[k-1].alpha+same)
		}
		alone, err := Hold(p.attached, p.maximum, c.Response)
		require.NoError(t, err)
		require.InDeltaSlice(t, alone.Lift, p.held.Lift, 1e-9)
	}
}

// Two strips that answer alike are told from two that nearly do.
func TestBlockKnowsStripsThatAreOne(t *testing.T) {
	var b block
	b.factor(mat.NewDense(2, 2, []float64{1, 1, 1, 1}), []int{0, 1})
	require.True(t, b.singular)
	b.factor(mat.NewDense(2, 2, []float64{1, 1, 1, 1 + 1e-9}), []int{0, 1})
	require.False(t, b.singular)
	b.factor(mat.NewDense(2, 2, []float64{1, 1, 1, 1}), []int{1})
	require.False(t, b.singular)
}
