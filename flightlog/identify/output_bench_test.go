package identify

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
)

// tenSeconds is one multistep of ten seconds at a hundred samples a second.
func tenSeconds(b *testing.B, gusts float64) ([]Segment, Setup) {
	segments, ac := studySegments(b, Longitudinal, gusts, 100, 1)
	s := &segments[1]
	require.Greater(b, len(s.PitchRate), 650)
	return segments[1:2], setupOf(ac)
}

// One manoeuvre by output error alone: six derivatives, the drag that they depend on, and the segment's own unknowns.
func BenchmarkOutputError(b *testing.B) {
	segments, setup := tenSeconds(b, 0)
	g, err := gather(segments, Longitudinal, setup)
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		p := newProblem([]*Segment{g.segments[0].segment}, Longitudinal, &setup)
		it := newIteration(p)
		require.NoError(b, it.begin())
		require.NoError(b, it.fitOutputError(p.quickNoise()))
	}
	b.ReportMetric(float64(len(segments[0].PitchRate)), "samples")
}

// The whole estimate of the four or eight manoeuvres of a flight, both roads, shared errors and histories.
func BenchmarkEstimate(b *testing.B) {
	for _, axis := range []Axis{Longitudinal, Lateral} {
		for _, rate := range []float64{25, 100} {
			for _, gusts := range []float64{0, 0.3} {
				b.Run(fmt.Sprintf("axis=%s/rate=%g/gusts=%g", axis, rate, gusts), func(b *testing.B) {
					segments, ac := studySegments(b, axis, gusts, rate, 1)
					setup := setupOf(ac)
					setup.Errors = Errors{AirspeedScale: 0.015, Mass: 0.005, Density: 0.01, CG: 0.002, InertiaX: 0.02, InertiaY: 0.02, InertiaZ: 0.02,
						ElevatorScale: 0.02, AileronScale: 0.02, RudderScale: 0.02}
					for b.Loop() {
						_, err := Estimate(segments, axis, setup)
						require.NoError(b, err)
					}
					b.ReportMetric(float64(b.Elapsed().Milliseconds())/float64(b.N)/float64(len(segments)), "ms/manoeuvre")
				})
			}
		}
	}
}
