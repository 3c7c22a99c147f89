package lattice

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero"
)

const (
	ownInterference = "σ = −(1/π²)∬ cosθ1 cosθ2 ln[(cosθ1 − μ cosθ2)² + (2h/b)²], evaluated by the midpoint rule (own)"
	prandtl         = "L. Prandtl, Applications of Modern Hydrodynamics to Aeronautics, NACA Report 116, 1921 (from memory)"
	pairDrag        = "pair drag of L. Prandtl, Induced Drag of Multiplanes, NACA TN 182, 1924 (form from memory), evaluated (own)"
)

// interferenceDensity is the coarsest density whose strips are narrow against the gap, in half spans.
func interferenceDensity(gap float64) float64 {
	switch {
	case gap < 0.15:
		return 0.75
	case gap < 0.19:
		return 0.5
	}
	return 0.375
}

// ellipticPair is a wing and a second surface, with an elliptic load on either; each alone has e = 1.
func ellipticPair(t *testing.T, ratio, gap float64) (p *loaded, wing, second State) {
	t.Helper()
	p = loadedPair(t, ratio, gap, 3, interferenceDensity(gap))
	wing, second = p.lay(t, ellipticLoad("wing", 1)), p.lay(t, ellipticLoad("second", ratio))
	near(t, 1, p.mutual(wing, wing, 2, 2), 1e-4, "an elliptic load has e = 1")
	near(t, 1, p.mutual(second, second, 2*ratio, 2*ratio), 1e-4, "an elliptic load has e = 1")
	return p, wing, second
}

// interferenceAt is σ of two elliptic loads.
func interferenceAt(t *testing.T, ratio, gap float64) float64 {
	t.Helper()
	p, wing, second := ellipticPair(t, ratio, gap)
	return p.mutual(wing, second, 2, 2*ratio)
}

// TestInterferenceOfEqualSpans: two elliptic loads, gap in spans.
func TestInterferenceOfEqualSpans(t *testing.T) {
	for _, c := range []struct{ gap, exact, table float64 }{
		{0.05, 0.7845, 0.780}, {0.10, 0.6565, 0.655}, {0.15, 0.5604, 0.561}, {0.20, 0.4842, 0.485},
		{0.25, 0.4221, 0.420}, {0.30, 0.3706, 0.370}, {0.40, 0.2905, 0.290}, {0.50, 0.2322, 0.230},
	} {
		sigma := interferenceAt(t, 1, 2*c.gap)
		near(t, c.exact, sigma, 1e-4, ownInterference)
		near(t, c.table, sigma, 0.005, prandtl) // the table's own departure from the integral
		if c.gap > 1.0/15 {
			near(t, (1-0.66*c.gap)/(1.05+3.7*c.gap), sigma, 0.0015, prandtl+", fit for 1/15 < G/b < 1/2")
		}
	}
}

// TestInterferenceOfUnequalSpans: gap in spans of the larger surface.
func TestInterferenceOfUnequalSpans(t *testing.T) {
	gaps := []float64{0.02, 0.05, 0.10, 0.15, 0.20}
	for _, row := range []struct {
		ratio  float64
		sigmas []float64
	}{
		{0.3, []float64{0.2876, 0.2691, 0.2392, 0.2112, 0.1857}},
		{0.4, []float64{0.3830, 0.3576, 0.3168, 0.2788, 0.2444}},
		{0.5, []float64{0.4778, 0.4448, 0.3921, 0.3435, 0.3001}},
		{0.6, []float64{0.5718, 0.5301, 0.4640, 0.4041, 0.3516}},
		{0.8, []float64{0.7544, 0.6882, 0.5888, 0.5052, 0.4359}},
	} {
		for i, want := range row.sigmas {
			t.Run(fmt.Sprintf("span ratio %.1f, gap %.2f", row.ratio, gaps[i]), func(t *testing.T) {
				near(t, want, interferenceAt(t, row.ratio, 2*gaps[i]), 1e-4, ownInterference)
			})
		}
	}
}

// TestInterferenceByMeanSpan: gap in mean spans, as Prandtl tabulated it.
func TestInterferenceByMeanSpan(t *testing.T) {
	gaps := []float64{0.05, 0.1, 0.15, 0.2, 0.3, 0.5}
	for _, row := range []struct {
		ratio  float64
		sigmas []float64
	}{
		{0.8, []float64{0.6990, 0.6074, 0.5287, 0.4621, 0.3581, 0.2268}},
		{0.6, []float64{0.5439, 0.4898, 0.4392, 0.3930, 0.3148, 0.2063}},
	} {
		for i, want := range row.sigmas {
			t.Run(fmt.Sprintf("span ratio %.1f, gap %.2f", row.ratio, gaps[i]), func(t *testing.T) {
				near(t, want, interferenceAt(t, row.ratio, gaps[i]*(1+row.ratio)), 1e-4, ownInterference)
			})
		}
	}
}

// TestInterferenceInOneSheet: without a gap σ is exactly the ratio of spans. Both loads laid on one wing have it to round-off:
// the wash of an elliptic load is the same all along.
func TestInterferenceInOneSheet(t *testing.T) {
	p := loadedPlates(t, 0.5, plateThrough("wing", aero.RoleWing, "", 0, [2]float64{0, 0}, [2]float64{1, 0}))
	whole := p.lay(t, ellipticLoad("wing", 1))
	for _, ratio := range []float64{0.3, 0.4, 0.5, 0.6, 0.8} {
		part := p.lay(t, ellipticLoad("wing", ratio))
		near(t, ratio, p.mutual(whole, part, 2, 2*ratio), 1e-12, "closed form")
	}
}

// TestForeplaneShareOfLift: e of a wing and a smaller surface ahead, both loaded elliptically, with a share l of the lift on
// the smaller. In one plane the closed form is e = 1/[1 + l²(1/μ² − 1)]; there a tip's wake ends as a square root
// inside another sheet, which panels resolve to half a per cent.
func TestForeplaneShareOfLift(t *testing.T) {
	type share struct{ lift, efficiency float64 }
	for _, c := range []struct {
		ratio, gap, tolerance float64
		shares                []share
	}{
		{0.5, 0.1, 1e-4, []share{{0.20, 0.951540}, {0.25, 0.903704}, {0.0629, 1.01376}}},
		{0.6, 0.15, 1e-4, []share{{0.1343, 1.04585}}},
		{0.5, 0, 0.006, []share{{0.10, 0.970874}, {0.20, 0.892857}, {0.25, 0.842105}, {0.30, 0.787402}}},
		{0.4, 0, 0.006, []share{{0.25, 0.752941}}},
	} {
		t.Run(fmt.Sprintf("span ratio %.1f, gap %.2f", c.ratio, c.gap), func(t *testing.T) {
			p, wing, second := ellipticPair(t, c.ratio, 2*c.gap)
			for _, l := range c.shares {
				near(t, l.efficiency, p.solution.SpanEfficiency(shareOut(wing, second, l.lift)), c.tolerance, pairDrag)
			}
		})
	}
}

// TestBestShareOfLift: the share and e at which the pair drag of elliptic loads is least.
func TestBestShareOfLift(t *testing.T) {
	for _, c := range []struct{ ratio, gap, share, efficiency float64 }{
		{0.5, 0.1, 0.0629, 1.01376}, {0.6, 0.15, 0.1343, 1.04585},
	} {
		p, wing, second := ellipticPair(t, c.ratio, 2*c.gap)
		single := func(s State) float64 { return p.mutual(s, s, 1, 1) }
		a, b, mutual := single(wing), single(second), p.mutual(wing, second, 1, 1)
		share := (a - mutual) / (a + b - 2*mutual)
		near(t, c.share, share, 5e-5, pairDrag)
		best := p.solution.SpanEfficiency(shareOut(wing, second, share))
		near(t, c.efficiency, best, 5e-5, pairDrag)
		for _, off := range []float64{-0.05, 0.05} {
			require.Less(t, p.solution.SpanEfficiency(shareOut(wing, second, share+off)), best)
		}
	}
}
