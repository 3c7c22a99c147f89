package demo_test

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"

	"wingproof/cmd/wingproof/internal/demo"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog/estimate"
)

var seeds = flag.Int("seeds", 3, "how many demo seeds the coverage test flies")

type truth struct {
	ReferenceCG    float64 `json:"reference_cg_m"`
	Configurations []struct {
		Configuration string  `json:"configuration"`
		NeutralPoint  float64 `json:"neutral_point_m"`
		LiftSlope     float64 `json:"lift_curve_slope_per_rad"`
		ElevatorLift  float64 `json:"elevator_lift_per_rad"`
		ElevatorPower float64 `json:"elevator_power_per_rad"`
		ZeroLiftDrag  float64 `json:"zero_lift_drag"`
	} `json:"configurations"`
}

// tally counts the intervals of one quantity.
type tally struct {
	hits, total, undetermined int
	halfWidths, misses        []float64 // of intervals; value − truth
}

func (t *tally) add(r estimate.Result, want float64) {
	if r.Value == nil || r.Low == nil || r.High == nil {
		t.undetermined++
		return
	}
	t.total++
	if *r.Low <= want && want <= *r.High {
		t.hits++
	}
	t.halfWidths = append(t.halfWidths, (*r.High-*r.Low)/2)
	t.misses = append(t.misses, *r.Value-want)
}

// rehearsedBound is the half-width that the estimates' own spread about the truth over the rehearsed
// programmes would warrant: 1.96 times their root mean square error.
func (t *tally) rehearsedBound() float64 {
	sum := 0.0
	for _, m := range t.misses {
		sum += m * m
	}
	return 1.96 * math.Sqrt(sum/float64(len(t.misses)))
}

func (t *tally) medianHalfWidth() float64 {
	sorted := slices.Clone(t.halfWidths)
	slices.Sort(sorted)
	return sorted[len(sorted)/2]
}

// TestIntervalsCoverTheTruth flies whole demo programmes, reads their logs and counts how often the 95 %
// intervals hold the truth. With -seeds 20 it is the acceptance figure; the short form only guards
// against intervals that are grossly too narrow.
func TestIntervalsCoverTheTruth(t *testing.T) {
	names := []string{"neutral_point", "trimmed_lift_curve_slope", "lift_curve_slope", "zero_lift_drag"}
	tallies := map[string]*tally{}
	for _, name := range names {
		tallies[name] = &tally{}
	}
	for seed := 1; seed <= *seeds; seed++ {
		fits, real := flySeed(t, uint64(seed))
		for _, f := range fits {
			count(t, tallies, f, real)
		}
	}
	pooled := tally{}
	for _, name := range names {
		c := tallies[name]
		require.NotZero(t, c.total, name)
		mean := 0.0
		for _, m := range c.misses {
			mean += m / float64(len(c.misses))
		}
		t.Logf("%-26s mean miss %+.4g; %3d of %3d intervals hold the truth (%d not determined); median half-width %.4g, rehearsed bound %.4g",
			name, mean, c.hits, c.total, c.undetermined, c.medianHalfWidth(), c.rehearsedBound())
		pooled.hits += c.hits
		pooled.total += c.total
	}
	share := float64(pooled.hits) / float64(pooled.total)
	t.Logf("pooled: %d of %d, %.1f %%", pooled.hits, pooled.total, 100*share)
	if *seeds >= 20 {
		require.GreaterOrEqual(t, share, 0.90)
		require.LessOrEqual(t, share, 0.99)
		return
	}
	// Shared errors tie the intervals of one seed together, so the short form counts a fifth of them as
	// independent and asks only whether 95 % is still believable at one in a thousand.
	independent := math.Ceil(float64(pooled.total) / 5)
	unlikely := distuv.Binomial{N: independent, P: 0.95}.CDF(math.Floor(share * independent))
	require.Greater(t, unlikely, 1e-3, "intervals are too narrow: %.1f %% hold the truth", 100*share)
}

func flySeed(t *testing.T, seed uint64) ([]study.Fit, truth) {
	t.Helper()
	base := t.TempDir()
	dir, truthPath := filepath.Join(base, "program"), filepath.Join(base, "truth.json")
	require.NoError(t, demo.Write(context.Background(), dir, truthPath, seed, nil))
	p, err := program.Load(dir)
	require.NoError(t, err)
	st, err := study.Run(context.Background(), p, study.Options{Until: study.Fitted})
	require.NoError(t, err)
	content, err := os.ReadFile(truthPath)
	require.NoError(t, err)
	var real truth
	require.NoError(t, json.Unmarshal(content, &real))
	return st.Fits, real
}

func count(t *testing.T, tallies map[string]*tally, f study.Fit, real truth) {
	t.Helper()
	for _, c := range real.Configurations {
		if c.Configuration != f.Configuration {
			continue
		}
		chord := f.MeanChord
		arm := (c.NeutralPoint - f.CG) / chord
		power := c.ElevatorPower + c.ElevatorLift*(f.CG-real.ReferenceCG)/chord
		trimmed := c.LiftSlope * (1 + c.ElevatorLift*arm/power)
		tallies["neutral_point"].add(f.NeutralPoint, c.NeutralPoint)
		tallies["trimmed_lift_curve_slope"].add(f.TrimmedLiftSlope, trimmed)
		tallies["lift_curve_slope"].add(f.LiftSlope, c.LiftSlope)
		tallies["zero_lift_drag"].add(f.ZeroLiftDrag, c.ZeroLiftDrag)
		return
	}
	t.Fatal(fmt.Sprintf("no truth for %s", evidence.Name(f.Levels)))
}
