package plan

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// heron is a small invented program: a quarter-scale model of a foreplane aircraft with a chord of 1.2 m, never flown.
func heron() Problem {
	return Problem{
		Program: "Heron (invented)", LengthRatio: 0.25, Area: 10, Span: 8, Chord: 1.2, ChordLeadingEdge: 3.5,
		Configurations: []Configuration{{
			Name: "winglet=mid", Levels: map[string]string{"winglet": "mid"}, NeutralPoint: 4.10, NeutralPointSD: 0.036, Source: "lattice with its stated error; no flight yet",
			MaxLift: []Lift{{CG: 3.7, Value: 1.2, SD: 0.06, Source: "from section data at the model's Reynolds number"}}, SpanEfficiency: 0.9,
			Stalls: []Stall{{CG: 3.7, Margin: 0.05, SD: 0.01, Words: "the foreplane lets go 2.9° before the wing"}},
		}},
		Range:     &Range{Forward: 3.60, Aft: 4.20},
		Weighings: []Weighing{{Name: "w1", Mass: 15, SD: 0.075, CG: 3.60}},
		Heights:   Heights{Entry: 120, Lowest: 40}, ElevatorTravel: &Travel{Least: -15 * degree, Most: 26 * degree},
		Flights: 6, Names: names(60), Assumptions: []string{"one thing is assumed"},
	}
}

func names(n int) []string {
	var out []string
	for i := range n {
		out = append(out, fmt.Sprintf("F%02d", i+1))
	}
	return out
}

func build(t require.TestingT, p Problem) Plan {
	out, err := Build(p)
	require.NoError(t, err)
	return out
}

// cardOf finds a card of a sheet by its name.
func cardOf(t *testing.T, s Sheet, name string) Card {
	t.Helper()
	for _, c := range s.Cards {
		if c.Name == name {
			return c
		}
	}
	require.Fail(t, "no card "+name)
	return Card{}
}

func has(s Sheet, manoeuvre string) bool {
	for _, c := range s.Cards {
		if c.Manoeuvre == manoeuvre {
			return true
		}
	}
	return false
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
