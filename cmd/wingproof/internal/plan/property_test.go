package plan

import (
	"math"
	"testing"

	"wingproof/cmd/wingproof/internal/decide"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// drawn is a problem with random sizes, ranges and errors.
func drawn(t *rapid.T) Problem {
	number := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	p := heron()
	p.LengthRatio, p.Chord = number("ratio", 0.05, 0.5), number("chord", 0.5, 2.5)
	c := &p.Configurations[0]
	c.NeutralPoint, c.NeutralPointSD = number("neutral point", 1, 6), number("sd", 0, 0.3)
	c.Agree = rapid.Bool().Draw(t, "agree")
	if rapid.Bool().Draw(t, "flown") {
		c.Flights = []string{"F01", "F02"}
		c.Flown = []float64{number("flown", 0.5, 6)}
	}
	forward := number("forward", 0.5, 6)
	p.Range = &Range{forward, forward + number("range", 0, 0.8)}
	switch rapid.IntRange(0, 3).Draw(t, "what") {
	case 0:
		p.Range = nil
	case 1:
		p.CGs = rapid.SliceOfN(rapid.Float64Range(0.5, 6), 1, 5).Draw(t, "CGs")
	}
	p.Heights.Entry = number("entry", 50, 300)
	p.Heights.Lowest = number("lowest", 10, 45)
	p.Weighings[0].Mass = number("mass", 4, 60)
	p.Flights = rapid.IntRange(1, 8).Draw(t, "flights")
	second := *c
	second.Name, second.NeutralPoint = "winglet=tall", number("second", 1, 6)
	p.Configurations = append(p.Configurations, second)
	return p
}

// Whatever the numbers: forward before aft, never aft of the limit, short steps on the way, stalls last and from height.
func TestSheetsGoAftAndStopInTime(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawn(t)
		got := build(t, p)
		require.LessOrEqual(t, len(got.Sheets), p.Flights)
		for i, s := range got.Sheets {
			c := p.Configurations[0]
			if s.Configuration != c.Name {
				c = p.Configurations[1]
			}
			limit := decide.AftLimit(c.NeutralPoint, c.NeutralPointSD, p.Chord, c.Proven())
			require.LessOrEqual(t, s.CG.FullSize, limit+1e-9)
			require.LessOrEqual(t, s.AftLimit.FullSize, limit+1e-9)
			if i > 0 && got.Sheets[i-1].Configuration == s.Configuration {
				require.Greater(t, s.CG.FullSize, got.Sheets[i-1].CG.FullSize)
			}
			requireSteps(t, p, c, got.Sheets[:i], s)
			requireCards(t, p, s)
		}
	})
}

// requireSteps: from the aftmost CG of this configuration so far, no step is longer than 1.5 % of the chord.
func requireSteps(t *rapid.T, p Problem, c Configuration, before []Sheet, s Sheet) {
	last := math.Inf(-1)
	for _, x := range c.Flown {
		last = math.Max(last, x)
	}
	for _, b := range before {
		if b.Configuration == s.Configuration {
			last = math.Max(last, b.CG.FullSize)
		}
	}
	if math.IsInf(last, -1) {
		require.Empty(t, s.Steps)
		return
	}
	allowed := 0.015*p.Chord + 1e-9
	if grid := p.grid() / p.LengthRatio; allowed < 2*grid {
		allowed = 2 * grid // a model too small for its own grid
	}
	for _, step := range append(append([]Place{}, s.Steps...), s.CG) {
		require.LessOrEqual(t, step.FullSize-last, allowed)
		last = math.Max(last, step.FullSize)
	}
	require.True(t, finite(last))
}

// requireCards: every card stays within its own limits.
func requireCards(t *rapid.T, p Problem, s Sheet) {
	for k, c := range s.Cards {
		require.Less(t, c.Speed, c.Stop.Fastest, c.Name)
		require.GreaterOrEqual(t, c.Stop.Lowest, p.Heights.Lowest)
		if c.Manoeuvre == "deceleration" {
			require.Equal(t, len(s.Cards)-1, k)
			require.GreaterOrEqual(t, c.Entry-p.Heights.Lowest, 60.0)
			require.GreaterOrEqual(t, s.LeastMargin, 8-1e-9)
		}
		if c.Manoeuvre == "glide" {
			require.GreaterOrEqual(t, c.Hold, 7.0)
			require.GreaterOrEqual(t, c.Speed, 1.25*s.Stalling)
		}
	}
}
