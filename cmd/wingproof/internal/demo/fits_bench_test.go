package demo

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/keep"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog/rehearse"
)

// All fits of a program of 30 flights with 195 doublets and multisteps, and of nothing else: reductions are kept from a run before, fits are not.
func BenchmarkFitsOfThirtyFlights(b *testing.B) {
	dir := b.TempDir()
	one := rehearse.PublishedAircraft()[0]
	w := publishedProgramme{Published: one, seed: otherDraws, dir: dir, flights: 30, alternate: true}
	require.NoError(b, w.write())
	p, err := program.Load(dir)
	require.NoError(b, err)
	run := func(until study.Stage, store *keep.Store) (*study.Study, time.Duration) {
		start := time.Now()
		s, err := study.Run(context.Background(), p, study.Options{Until: until, Keep: store})
		require.NoError(b, err)
		return s, time.Since(start)
	}
	var fits time.Duration
	manoeuvres := 0
	for b.Loop() {
		store := keep.Open(b.TempDir(), keep.Executable())
		run(study.Reduced, store)
		_, again := run(study.Reduced, store)
		run(study.Predicted, store)
		_, predicted := run(study.Predicted, store)
		s, all := run(study.Fitted, store)
		fits += all - again - predicted
		manoeuvres = 0
		for _, f := range s.Flights {
			manoeuvres += len(f.Reduction.Segments)
		}
	}
	b.ReportMetric(fits.Seconds()/float64(b.N), "s/fits")
	b.ReportMetric(float64(manoeuvres), "manoeuvres")
}
