package rehearse

import (
	"bytes"
	"testing"

	"wingproof/aero/atmosphere"
)

// BenchmarkFly flies one whole sheet of trim points, which lasts four minutes; µs_per_simulated_s is what a
// second of flight costs, rows_per_op and bytes_per_op size its log.
func BenchmarkFly(b *testing.B) {
	ac := model(3.9)
	cards := TrimCards(ac.StallSpeed(atmosphere.SeaLevelDensity))
	for _, rate := range []struct {
		name string
		hz   float64
	}{{"rate=25", 25}, {"rate=50", 50}, {"rate=100", 100}, {"rate=250", 250}, {"rate=500", 500}} {
		b.Run(rate.name, func(b *testing.B) {
			ins := DefaultInstruments()
			ins.FastRate = rate.hz
			var log Log
			for b.Loop() {
				var err error
				if log, err = Fly(ac, cards, DefaultWeather(), ins, seeded(1)); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/log.Time[len(log.Time)-1], "µs_per_simulated_s")
			var file bytes.Buffer
			if err := log.WriteCSV(&file, Dialect{}); err != nil {
				b.Fatal(err)
			}
			b.ReportMetric(float64(len(log.Time)), "rows_per_op")
			b.ReportMetric(float64(file.Len()), "bytes_per_op")
		})
	}
}

func BenchmarkWriteCSV(b *testing.B) {
	ac := model(3.9)
	log, err := Fly(ac, TrimCards(ac.StallSpeed(atmosphere.SeaLevelDensity)), DefaultWeather(), DefaultInstruments(), seeded(1))
	if err != nil {
		b.Fatal(err)
	}
	var file bytes.Buffer
	for b.Loop() {
		file.Reset()
		if err := log.WriteCSV(&file, Dialect{}); err != nil {
			b.Fatal(err)
		}
	}
}
