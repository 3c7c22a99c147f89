package lattice

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero"
)

const munkTheorem = "M. M. Munk, The Minimum Induced Drag of Aerofoils, NACA Report 121, 1923 (theorem from memory)"

// TestStaggerOfLaidLoads: the same loads on surfaces moved along the stream have the same drag and the same e, although
// they disturb each other differently near by, so that other turns of the strips are needed for them.
func TestStaggerOfLaidLoads(t *testing.T) {
	uneven := func(s aero.StripLoad) float64 { return 1 + math.Sin(40*s.Centre.Y+s.Centre.Z) }
	laid := func(x float64) (far, turns []float64) {
		p := loadedPair(t, 0.5, 0.4, x, 0.375)
		elliptic := shareOut(p.lay(t, ellipticLoad("wing", 1)), p.lay(t, ellipticLoad("second", 0.5)), 0.2)
		for _, s := range []State{p.lay(t, uneven), elliptic} {
			far = append(far, p.solution.InducedDrag(s), p.solution.SpanEfficiency(s))
			for _, c := range p.solution.Controls() {
				turns = append(turns, s.Controls[c])
			}
		}
		return far, turns
	}
	ahead, turns := laid(3)
	for _, x := range []float64{1, -2} {
		moved, others := laid(x)
		for i := range ahead {
			near(t, 1, moved[i]/ahead[i], 1e-9, munkTheorem)
		}
		largest := 0.0
		for i := range turns {
			largest = math.Max(largest, math.Abs(others[i]-turns[i]))
		}
		require.Greater(t, largest, 1e-3, "turns with the second surface at %g", x)
	}
}

// TestStaggerOfTheBestLoad: the least drag belongs to the trace alone; neither stagger nor sweep moves it.
func TestStaggerOfTheBestLoad(t *testing.T) {
	best := func(x, sweep float64) float64 {
		wing := plateThrough("wing", aero.RoleWing, "", 3, [2]float64{0, 0}, [2]float64{1, 0.1})
		second := plateThrough("second", aero.RoleForeplane, "", x, [2]float64{0, 0.5}, [2]float64{0.6, 0.5})
		for _, st := range []*aero.Station{&wing.Stations[1], &second.Stations[1]} {
			st.LeadingEdge.X += sweep
			st.TrailingEdge.X += sweep
		}
		e, err := solvedAt(t, spanTwo(wing, second), 0.5).BestSpanEfficiency()
		require.NoError(t, err)
		return e
	}
	want := best(0, 0)
	for _, c := range []struct{ x, sweep float64 }{{1, 0}, {-10, 0}, {0, 0.7}, {2, 1}} {
		near(t, want, best(c.x, c.sweep), 1e-12, munkTheorem)
	}
}
