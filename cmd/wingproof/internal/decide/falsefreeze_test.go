package decide

import (
	"flag"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/sync/errgroup"
)

// The long form, whose tables stand in testdata/false_freeze/tables.txt, is
//
//	go test ./cmd/wingproof/internal/decide -run TestFalseFreezesAreRare -v -timeout 60m -freeze-programs 170
var freezePrograms = flag.Int("freeze-programs", 4, "programs of each seed and arm of the study of false freezes")

// TestFalseFreezesAreRare draws programs whose truth is known, judges them after every flight and counts the parts that are called
// frozen although a combination still possible fails one of their limits, and what is called out although it passes.
// The short form only sees that nothing is grossly wrong; the long form asserts the claims of the scenario.
func TestFalseFreezesAreRare(t *testing.T) {
	for _, name := range scenarios() {
		t.Run(name, func(t *testing.T) { runScenario(t, readScenario(t, name)) })
	}
}

func runScenario(t *testing.T, s scenario) {
	long, programs := *freezePrograms >= s.Programs, *freezePrograms
	if !long {
		s.Draws = 4000
	}
	if testing.Short() {
		s.Seeds, s.Arms = s.Seeds[:1], s.Arms[:1]
	}
	for _, a := range s.Arms {
		tally := newArmTally(a.Name)
		for _, seed := range s.Seeds {
			require.NoError(t, runArm(s, a, seed, programs, tally))
		}
		t.Log("\n" + tally.table())
		require.Positive(t, tally.freezes.tries, "some parts come free")
		if !long {
			require.LessOrEqual(t, float64(tally.freezes.hits), 0.5*float64(tally.freezes.tries), "most of what is frozen is right")
			continue
		}
		if a.Name == s.Claims.Arm {
			require.GreaterOrEqual(t, float64(tally.near.hits), s.Claims.Near*float64(tally.near.tries))
			require.LessOrEqual(t, upperBinomial(tally.freezes.hits, tally.freezes.tries), s.Claims.FalseFreezes)
			require.LessOrEqual(t, upperBinomial(tally.outs.hits, tally.outs.tries), s.Claims.FalseOuts)
			require.GreaterOrEqual(t, tally.hours, s.Claims.Hours*tally.knowable)
		}
	}
}

// TestScenarioIsClose holds the scenario against its own claim that many margins are close, without judging anything.
func TestScenarioIsClose(t *testing.T) {
	for _, name := range scenarios() {
		s := readScenario(t, name)
		var near counts
		for _, seed := range s.Seeds {
			w, err := newWorld(s, seed, s.Arms[0], s.Programs)
			require.NoError(t, err)
			within, all := w.near()
			near.hits, near.tries = near.hits+within, near.tries+all
		}
		t.Logf("%s: %d of %d true margins within one prior standard deviation of their limit", name, near.hits, near.tries)
		require.GreaterOrEqual(t, float64(near.hits), s.Claims.Near*float64(near.tries))
	}
}

// runArm flies the programs of one seed, as many at a time as there are processors, and adds them in order.
func runArm(s scenario, a arm, seed uint64, programs int, tally *armTally) error {
	w, err := newWorld(s, seed, a, programs)
	if err != nil {
		return err
	}
	within, all := w.near()
	tally.near.hits, tally.near.tries = tally.near.hits+within, tally.near.tries+all
	draws := []*streams{newStreams(10*seed+1, s.Draws), newStreams(10*seed+2, s.Draws)}
	years := make([]*shopYear, programs)
	var group errgroup.Group
	group.SetLimit(runtime.GOMAXPROCS(0))
	for i := range programs {
		group.Go(func() error {
			var err error
			years[i], err = runShop(s, w, i, draws[i%len(draws)])
			return err
		})
	}
	if err := group.Wait(); err != nil {
		return err
	}
	for _, y := range years {
		tally.add(y)
	}
	return nil
}

// Counts and bounds by hand: none of 59 has the upper bound 1 − 0.05^(1/59) = 4.95 %.
func TestUpperBinomialByHand(t *testing.T) {
	near(t, upperBinomial(0, 59), 0.0495, 5e-5, "1 − 0.05^(1/59)")
	require.Equal(t, 1.0, upperBinomial(3, 3))
	require.True(t, strings.Contains(counts{1, 4}.String(), "25.0 %"))
}
