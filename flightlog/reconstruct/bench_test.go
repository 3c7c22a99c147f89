package reconstruct

import (
	"testing"

	"wingproof/flightlog/rehearse"
)

// BenchmarkRun is a whole flight: lag, triangle, tuning, filter and smoother; the steps are instants of the timeline.
func BenchmarkRun(b *testing.B) {
	log := flown(b, 1, rehearse.DefaultWeather(), nil)
	rec := log.Recording("rehearsed")
	steps := 0
	for b.Loop() {
		p, _ := Run(&rec, Setup{})
		steps += len(p.Time)
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(steps), "µs/step")
}

// BenchmarkFilterAndSmoother is the filter with its checkpoints and the smoother alone.
func BenchmarkFilterAndSmoother(b *testing.B) {
	for _, c := range []struct {
		name   string
		change func(*rehearse.Instruments)
	}{{"states=24", nil}, {"states=28", func(i *rehearse.Instruments) { i.Vanes = rehearse.DefaultVanes() }}} {
		b.Run(c.name, func(b *testing.B) {
			log := flown(b, 1, rehearse.DefaultWeather(), c.change)
			rec := log.Recording("rehearsed")
			f := prepared(b, &rec, Setup{})
			w := writer{path: newPath(f.tl)}
			steps := 0
			for b.Loop() {
				f = f.trial(0)
				f.finish()
				back := smoother{f: f}
				back.run(w.put)
				steps += len(f.tl.events)
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(steps), "µs/step")
			b.ReportAllocs()
		})
	}
}
