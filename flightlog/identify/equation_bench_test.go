package identify

import (
	"testing"

	"wingproof/flightlog/rehearse"
)

// Four inputs on the elevator or eight on rudder and ailerons, six seconds each at 25 samples a second, with all shared errors.
func BenchmarkEquationError(b *testing.B) {
	ac := rehearse.ExampleAircraft()
	setup := setupOf(ac)
	setup.Errors = Errors{AirspeedScale: 0.01, Mass: 0.01, Density: 0.01, CG: 0.002, InertiaX: 0.03, InertiaY: 0.03, InertiaZ: 0.03, ElevatorScale: 0.02, AileronScale: 0.02, RudderScale: 0.02}
	for _, axis := range []Axis{Longitudinal, Lateral} {
		segments := programme(b, ac, axis, rehearse.DefaultWeather(), rehearse.DefaultInstruments(), 1)
		run := func(name string, f func() error) {
			b.Run(name+"/axis="+string(axis), func(b *testing.B) {
				for b.Loop() {
					if err := f(); err != nil {
						b.Fatal(err)
					}
				}
				b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*len(segments)), "µs/segment")
			})
		}
		run("time", func() error { _, err := EquationError(segments, axis, setup); return err })
		run("frequency", func() error { _, err := EquationErrorSpectrum(segments, axis, setup); return err })
		run("feedback", func() error { _, err := Feedback(segments, axis); return err })
		run("excite", func() error { _, err := Excite(segments, axis, setup); return err })
	}
}
