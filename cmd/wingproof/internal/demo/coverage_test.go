package demo

import (
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/sync/errgroup"

	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
)

// The long form is
//
//	go test ./cmd/wingproof/internal/demo -run TestIntervalsCoverTheTruth -v -timeout 0 -programs 200 -streams 1,2,3 -rows rows.csv
//
// It goes on where it was stopped as long as the file of rows is there; -programs 0 only prints what the file holds.
var (
	programmes = flag.Int("programs", 1, "programmes that each stream of each arm of the coverage study flies")
	streams    = flag.String("streams", "1", "streams of the coverage study, with commas between; program k of stream s has the seed 1000·s + k")
	seeds      = flag.Int("seeds", 0, "demo seeds from 1 on that the first arm of the coverage study flies beside")
	armsFlown  = flag.String("arms", "lattice,published", "arms of the coverage study, with commas between")
	rowsFile   = flag.String("rows", "", "file to which the coverage study writes its rows, and from which it goes on")
)

// arm flies one whole programme in an empty folder and sets its numbers beside the truth.
type arm struct {
	name string
	fly  func(dir string, seed uint64) ([]row, error)
}

func arms() []arm {
	return []arm{{"lattice", flyLattice}, {"published", flyPublished}}
}

// TestIntervalsCoverTheTruth flies whole programmes, writes their logs, reads them and counts how often the 95 % intervals hold the
// truth. Its short form only sees that the chain holds together and that intervals are not grossly too narrow.
func TestIntervalsCoverTheTruth(t *testing.T) {
	l, err := openLedger(*rowsFile)
	require.NoError(t, err)
	for _, a := range arms() {
		if !strings.Contains(","+*armsFlown+",", ","+a.name+",") {
			continue
		}
		t.Run(a.name, func(t *testing.T) {
			require.NoError(t, a.run(l, t.TempDir(), samplesOf(t, a.name)))
			var rows [][]row
			for _, s := range l.samples(a.name) {
				rows = append(rows, l.rows[s])
			}
			tallies := tallied(rows)
			t.Log(tableOf(fmt.Sprintf("arm %s, %d programmes", a.name, len(rows)), tallies))
			requireNotGross(t, len(rows), tallies)
		})
	}
}

// requireNotGross asks that most intervals hold: six in ten of a few programmes, whose shared errors tie their intervals together and may
// all be large, and 85 % of twenty or more. Whether 95 % is right only the table of the long form can say (testdata/coverage.txt).
func requireNotGross(t *testing.T, programmes int, tallies []*tally) {
	hits, total := 0, 0
	for _, c := range tallies {
		hits, total = hits+c.hits, total+c.total
	}
	if programmes == 0 {
		return
	}
	least := 0.6
	if programmes >= 20 {
		least = 0.85
	}
	require.NotZero(t, total, "no programme gave a single interval")
	require.Greater(t, float64(hits)/float64(total), least, "intervals are grossly too narrow")
}

// samplesOf are the programmes that the flags ask for.
func samplesOf(t *testing.T, name string) []sample {
	var out []sample
	if name == arms()[0].name {
		for k := 1; k <= *seeds; k++ {
			out = append(out, sample{name, 0, k})
		}
	}
	for _, text := range strings.Split(*streams, ",") {
		stream, err := strconv.Atoi(text)
		require.NoError(t, err, "-streams")
		for k := 1; k <= *programmes; k++ {
			out = append(out, sample{name, stream, k})
		}
	}
	return out
}

// run flies what is not in the ledger, as many programmes at a time as there are processors, and keeps them in order.
func (a arm) run(l *ledger, base string, all []sample) error {
	var missing []sample
	for _, s := range all {
		if _, known := l.rows[s]; !known {
			missing = append(missing, s)
		}
	}
	done := make([]chan []row, len(missing))
	for i := range done {
		done[i] = make(chan []row, 1)
	}
	var group errgroup.Group
	group.SetLimit(runtime.GOMAXPROCS(0) + 1) // one of them only keeps
	group.Go(func() error {
		for i, s := range missing {
			rows, ok := <-done[i]
			if !ok {
				return nil
			}
			if err := l.add(s, rows); err != nil {
				return err
			}
		}
		return nil
	})
	for i, s := range missing {
		group.Go(func() error {
			defer close(done[i])
			dir := filepath.Join(base, fmt.Sprintf("%s-%d-%d", s.arm, s.stream, s.program))
			defer os.RemoveAll(dir) // logs are large
			rows, err := a.fly(dir, uint64(s.stream)*1000+uint64(s.program))
			if err != nil {
				return fmt.Errorf("arm %s, stream %d, program %d: %w", s.arm, s.stream, s.program, err)
			}
			done[i] <- rows
			return nil
		})
	}
	return group.Wait()
}

// fitted reads a folder and fits all that its flights tell.
func fitted(folder string) (*program.Program, *study.Study, error) {
	p, err := program.Load(folder)
	if err != nil {
		return nil, nil, err
	}
	s, err := study.Run(context.Background(), p, study.Options{Until: study.Fitted})
	return p, s, err
}

// flyLattice is a demo programme: the truth is the lattice's, moved by drawn errors.
func flyLattice(dir string, seed uint64) ([]row, error) {
	folder := filepath.Join(dir, "program")
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, err
	}
	if err := Write(context.Background(), folder, filepath.Join(dir, "truth.json"), seed, nil); err != nil {
		return nil, err
	}
	p, s, err := fitted(folder)
	if err != nil {
		return nil, err
	}
	truths, err := truthsOf(context.Background(), p, seed)
	if err != nil {
		return nil, err
	}
	var out []row
	for _, f := range s.Fits {
		r, err := demoReality(p, truths, seed, f.Configuration)
		if err != nil {
			return nil, err
		}
		rows, err := rowsOf(r, s, f)
		if err != nil {
			return nil, err
		}
		out = append(out, rows...)
	}
	return out, nil
}

// demoReality is what fly flies of a configuration, by the truths that the flights were drawn from.
func demoReality(p *program.Program, truths []configurationTruth, seed uint64, name string) (reality, error) {
	sh := drawShared(seed, p)
	for _, t := range truths {
		if t.Configuration == name {
			return reality{aircraft: demoAircraft(p, t, ballast("middle")), foreplaneLift: t.foreplaneLift, cgOffset: sh.cgOffset, mass: sh.massScale,
				airspeed: sh.instruments.AirspeedScale}, nil
		}
	}
	return reality{}, fmt.Errorf("no configuration %s", name)
}
