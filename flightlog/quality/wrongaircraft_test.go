package quality

import (
	"errors"
	"fmt"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/sync/errgroup"

	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

// trimmedSlope of the invented aircraft: CL_α − CL_δe·Cm_α/Cm_δe, about its own centre of gravity.
func trimmedSlope() float64 {
	d := inventedModel().Derivatives
	e := d.ByControl["elevator"]
	return d.ByAlpha.Lift - e.Lift*d.ByAlpha.Pitch/e.Pitch
}

// tally counts verdicts on the weight.
type tally struct{ found, silent, flights int }

func (c *tally) add(findings []flightlog.Finding) {
	c.flights++
	for _, f := range findings {
		switch {
		case f.Channel == "" && f.Severity == flightlog.Refusal:
			c.found++
			return
		case f.Channel == "" && f.Severity == flightlog.Note:
			c.silent++
			return
		}
	}
}

// A log of an aircraft that is 40 to 80 % heavier than stated, and statements that are 40 % off, are found on sheets that hold slow and
// fast flight; the right aircraft is not refused.
func TestWrongAircraft(t *testing.T) {
	const first = 2000 // bounds were set on flights 0 to 63
	flights := uint64(36)
	if testing.Short() {
		flights = 10
	}
	kinds := []string{"heavier, by aspect ratio", "heavier, by theory", "mass stated 40 % high", "mass stated 40 % low", "right, by aspect ratio", "right, by theory"}
	results := make([][][]flightlog.Finding, flights)
	var g errgroup.Group
	g.SetLimit(runtime.NumCPU())
	for at := range flights {
		g.Go(func() error {
			seed := first + at
			o := usualOptions(seed)
			o.sheet = [...]int{0, 3}[seed/2%2]
			right, err := flown(inventedModel(), seed, o)
			for again := seed + 1000; errors.Is(err, rehearse.ErrGround); again += 1000 { // a sloppy pilot may lose it
				right, err = flown(inventedModel(), again, o)
			}
			if err != nil {
				return fmt.Errorf("seed %d: %w", seed, err)
			}
			heavy, _ := rehearse.Heavier(inventedModel(), stream(seed, 9))
			other, err := flown(heavy, seed, o)
			for again := seed + 1000; errors.Is(err, rehearse.ErrGround); again += 1000 {
				other, err = flown(heavy, again, o)
			}
			if err != nil {
				return fmt.Errorf("seed %d: %w", seed, err)
			}
			byTheory, high, low := modelAircraft(), modelAircraft(), modelAircraft()
			byTheory.LiftSlope = trimmedSlope()
			high.Mass *= 1.4
			low.Mass *= 0.6
			heavyLog, _ := inspect(ofLog(other))
			rightLog, _ := inspect(ofLog(right))
			results[at] = [][]flightlog.Finding{
				heavyLog.inAircraft(modelAircraft()), heavyLog.inAircraft(byTheory), rightLog.inAircraft(high), rightLog.inAircraft(low),
				rightLog.inAircraft(modelAircraft()), rightLog.inAircraft(byTheory),
			}
			return nil
		})
	}
	require.NoError(t, g.Wait())
	counts := make([]tally, len(kinds))
	for _, r := range results {
		for i, f := range r {
			counts[i].add(f)
		}
	}
	for i, kind := range kinds {
		t.Logf("%-26s refused %2d, silent %2d of %d", kind, counts[i].found, counts[i].silent, counts[i].flights)
	}
	require.GreaterOrEqual(t, 100*counts[1].found, 95*(counts[1].flights-counts[1].silent), kinds[1])
	require.LessOrEqual(t, counts[4].found, 1, kinds[4])
	require.LessOrEqual(t, counts[5].found, 1, kinds[5])
}
