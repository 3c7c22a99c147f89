package report

import (
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/plan"
)

// samplePlan is two sheets of a small invented program.
func samplePlan(t *testing.T) plan.Plan {
	t.Helper()
	p, err := plan.Build(plan.Problem{
		Program: "Heron <invented>", LengthRatio: 0.25, Area: 10, Span: 8, Chord: 1.2, ChordLeadingEdge: 3.5,
		Configurations: []plan.Configuration{{
			Name: "foreplane=long,winglet=mid", Levels: map[string]string{"foreplane": "long", "winglet": "mid"},
			NeutralPoint: 4.10, NeutralPointSD: 0.036, Source: "lattice with its stated error, no flight yet",
			MaxLift: []plan.Lift{{Value: 1.05, SD: 0.15, Source: "from a default, no section data"}}, SpanEfficiency: 0.9,
		}},
		Range: &plan.Range{Forward: 3.60, Aft: 3.92}, Weighings: []plan.Weighing{{Name: "w1", Mass: 15, SD: 0.075, CG: 3.60}},
		Airspeed: plan.Airspeed{Logger: "box", Scale: 0.01, Known: true}, Heights: plan.Heights{Entry: 120, Lowest: 40},
		ElevatorTravel: &plan.Travel{Least: -0.25, Most: 0.45}, Flights: 2, Names: []string{"F19", "F20"}, Assumptions: []string{"one thing is assumed & said"},
	})
	require.NoError(t, err)
	return p
}

func TestPlanMatchesItsGoldenFile(t *testing.T) {
	got := printed(t, func(w io.Writer) error { return PlanText(w, samplePlan(t), false, 100) })
	golden := filepath.Join("..", "..", "..", "..", "testdata", "golden", "plan.txt")
	if *update {
		require.NoError(t, os.WriteFile(golden, []byte(got), 0o644))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	require.Equal(t, strings.ReplaceAll(string(want), "\r\n", "\n"), got)
}

func TestPlanKeepsItsWidthAndItsPages(t *testing.T) {
	p := samplePlan(t)
	for _, width := range []int{72, 100, 140} {
		requireWidth(t, printed(t, func(w io.Writer) error { return PlanText(w, p, false, width) }), max(width, 100))
	}
	fed := printed(t, func(w io.Writer) error { return PlanText(w, p, true, 100) })
	require.Equal(t, len(p.Sheets)-1, strings.Count(fed, "\f"))
	require.NotContains(t, printed(t, func(w io.Writer) error { return PlanText(w, p, false, 100) }), "\f")
}

// The page holds every card of every sheet, its cautions on each, nothing from elsewhere, and what people wrote stays text.
func TestPlanPage(t *testing.T) {
	p := samplePlan(t)
	path := filepath.Join(t.TempDir(), "sheets.html")
	require.NoError(t, WritePlan(path, p))
	raw, err := os.ReadFile(path)
	require.NoError(t, err)
	page := string(raw)
	require.Equal(t, len(p.Sheets), strings.Count(page, `<section class="sheet"`))
	require.Equal(t, len(p.Sheets), strings.Count(page, "Kill switch:"))
	for _, s := range p.Sheets {
		require.Contains(t, page, planTitle(s))
		for _, c := range s.Cards {
			require.Contains(t, page, c.Name)
			require.Contains(t, page, ">"+number(c.Shown, 1)+"</span>")
		}
	}
	require.Contains(t, page, "Heron &lt;invented&gt;")
	require.Contains(t, page, "assumed &amp; said")
	for _, alien := range []string{"src=", "http:", "https:", "<script", "safe to fly"} {
		require.NotContains(t, page, alien)
	}
}

// A station is never printed farther aft than it is.
func TestPlanStationsAreNeverRoundedAft(t *testing.T) {
	require.Equal(t, "997", planMillimetres(0.997))
	require.Equal(t, "997.9", planMillimetres(0.99799))
	require.Equal(t, "0", planMillimetres(0))
}
