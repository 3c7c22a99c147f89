package stall

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

func TestFindRefusesWhatCannotBeAnswered(t *testing.T) {
	for _, test := range []struct {
		message string
		spoil   func(c *Case)
	}{
		{"give radians, the lower one first", func(c *Case) { c.AlphaMin = 0.5 }},
		{"give radians, the lower one first", func(c *Case) { c.AlphaMax = 20 }},
		{"give radians, the lower one first", func(c *Case) { c.AlphaMin = math.NaN() }},
		{"is finer than the search", func(c *Case) { c.Step = 1e-9 }},
		{"is finer than the search", func(c *Case) { c.Step = -1 }},
		{"give a share between 0 and 1", func(c *Case) { c.StopShare = 1 }},
		{"shows no slope", func(c *Case) { c.StopWindow = -1 }},
		{"is no share of the span", func(c *Case) { c.TipBand = 1.5 }},
		{"give both functions", func(c *Case) { c.MaxLift = nil }},
		{"3 × 3 for 2 strips", func(c *Case) { c.Response = mat.NewDense(3, 3, nil) }},
		{"must raise its lift", func(c *Case) { c.Response = mat.NewDense(2, 2, nil) }},
		{"mark at least one strip Foreplane and one Wing", func(c *Case) { c.Strips[1].Part = Other }},
		{"is part 7", func(c *Case) { c.Strips[1].Part = 7 }},
		{"has an area of 0 m²", func(c *Case) { c.Strips[1].Area = 0 }},
		{"has an area of NaN m²", func(c *Case) { c.Strips[1].Area = math.NaN() }},
		{"lies at 4 of the span", func(c *Case) { c.Strips[1].Along = 4 }},
		{"has an arm of +Inf m", func(c *Case) { c.Strips[0].Arm = math.Inf(1) }},
		{"1 attached and 2 maximum section lifts", func(c *Case) { c.Attached = linear(1) }},
		{"attached section lift of strip 1 is NaN", func(c *Case) { c.Attached = linear(5, math.NaN()) }},
		{"does not gain lift with α", func(c *Case) { c.Attached = linear(-1, 4) }},
		{"was found", func(c *Case) {
			c.Attached, c.MaxLift, c.AlphaMin = linear(5, 5), fixed(1, 1), 0.3
			c.Response = mat.NewDense(2, 2, []float64{1, -2, -2, 1})
		}},
	} {
		c := pair()
		test.spoil(&c)
		_, err := Find(c)
		require.ErrorContains(t, err, test.message)
		require.ErrorContains(t, err, `stall order "pair"`)
	}
}

func TestAllMistakesAtOnce(t *testing.T) {
	c := pair()
	c.AlphaMax, c.StopShare, c.Strips = -1, 2, nil
	_, err := Find(c)
	for _, part := range []string{"the lower one first", "between 0 and 1", "the order takes two", "2 × 2 for 0 strips"} {
		require.ErrorContains(t, err, part)
	}
}

func TestBracket(t *testing.T) {
	for _, test := range []struct {
		b    Bracket
		text string
	}{
		{known(0), "0.00°"},
		{known(math.Pi / 6), "30.00°"},
		{beyond(math.Pi / 6), "at least 30.00°"},
		{below(math.Pi / 6), "at most 30.00°"},
		{Bracket{0, math.Pi / 6}, "0.00° to 30.00°"},
		{Bracket{math.Inf(-1), math.Inf(1)}, "unknown"},
	} {
		require.Equal(t, test.text, test.b.String())
		value, ok := test.b.Value()
		require.Equal(t, test.b.Low == test.b.High, ok)
		if ok {
			require.Equal(t, test.b.Low, value)
		}
		low, ok := test.b.AtLeast()
		require.Equal(t, !math.IsInf(test.b.Low, -1), ok)
		require.True(t, !ok || low == test.b.Low)
		high, ok := test.b.AtMost()
		require.Equal(t, !math.IsInf(test.b.High, 1), ok)
		require.True(t, !ok || high == test.b.High)
	}
}
