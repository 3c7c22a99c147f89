package plots

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
)

// Worked by hand: the second column is entered from below, the third from above, the next two hardly move and are passed over, the last
// one always stands.
func TestLightenedLine(t *testing.T) {
	line := []vg.Point{{X: 1, Y: 10}, {X: 2, Y: 14.1}, {X: 2, Y: 11.9}, {X: 2, Y: 12}, {X: 3, Y: 9}, {X: 3, Y: 13.8}, {X: 4, Y: 9.3}, {X: 5, Y: 8.6}, {X: 5, Y: 9.4}, {X: 6, Y: 20}, {X: 7, Y: 20.1}}
	require.Equal(t, []vg.Point{{X: 1, Y: 10}, {X: 2, Y: 12}, {X: 2, Y: 14}, {X: 3, Y: 14}, {X: 3, Y: 9}, {X: 5, Y: 9}, {X: 6, Y: 20}, {X: 7, Y: 20}}, lightened(line))
	require.Equal(t, line[:1], lightened(line[:1]))
	require.Empty(t, lightened(nil))
}

// reach is how far a line goes within each column, and where it stands between its corners.
func reach(line []vg.Point) map[vg.Length]*span {
	out := map[vg.Length]*span{}
	at := func(x vg.Length) *span {
		if out[x] == nil {
			s := emptySpan()
			out[x] = &s
		}
		return out[x]
	}
	for i, p := range line {
		at(p.X).add(float64(p.Y))
		if i == 0 {
			continue
		}
		for last := line[i-1]; last.X+1 < p.X; { // passed over: level
			last.X++
			at(last.X).add(float64(last.Y))
		}
	}
	return out
}

// Whatever a line does, the light one shows every column's least and greatest sample within a step, in half the corners.
func TestLightenedLineKeepsEverySample(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for _, noise := range []float64{0, 0.2, 1, 20} {
		var line []vg.Point
		for x := range 500 {
			for range 1 + r.IntN(4) {
				line = append(line, vg.Point{X: vg.Length(x), Y: vg.Length(30 + 25*math.Sin(float64(x)/40) + noise*r.NormFloat64())})
			}
		}
		light := lightened(line)
		plain, got := reach(line), reach(light)
		require.Len(t, got, len(plain))
		for x, s := range plain {
			require.InDelta(t, s.low, got[x].low, float64(lightStep)+1e-9, "at %g with noise %g", x, noise)
			require.InDelta(t, s.high, got[x].high, float64(lightStep)+1e-9, "at %g with noise %g", x, noise)
		}
		require.Less(t, len(light), 9*len(line)/10)
	}
}

// The least and the greatest of many in their order, against sorting by hand: of 5, 3, 9, 1, 3, 7 the three least are 1, 3, 3.
func TestOutermost(t *testing.T) {
	low, high := outermost{most: 3}, outermost{most: 3}
	for _, v := range []float64{5, 3, 9, 1, 3, 7} {
		low.add(v)
		high.add(-v)
	}
	require.Equal(t, []float64{1, 3, 3}, low.least)
	require.Equal(t, []float64{-9, -7, -5}, high.least)
}
