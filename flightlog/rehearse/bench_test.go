package rehearse

import (
	"bytes"
	"testing"

	"wingproof/aero"
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

// BenchmarkOptions flies the same sheet at 25 Hz with one thing more at a time, to compare within one run.
func BenchmarkOptions(b *testing.B) {
	rates := func(ac *Aircraft) {
		ac.AlphaRate, ac.BetaRate = aero.Coefficients{Lift: 2, Pitch: -4}, aero.Coefficients{Yaw: 0.02}
	}
	for _, o := range []struct {
		name   string
		change func(*Aircraft)
	}{
		{"plain", func(*Aircraft) {}},
		{"continuous", func(ac *Aircraft) { ac.Continuous = true }},
		{"rates", rates},
		{"all", func(ac *Aircraft) {
			rates(ac)
			ac.Continuous, ac.Stall, ac.Stabiliser = true, InventedWingStall(), Stabiliser{YawRate: 0.1}
			ac.Servo.Backlash, ac.Propulsion.NormalForce, ac.Propulsion.Aft = 0.01, 0.1, 0.4
		}},
	} {
		b.Run("with="+o.name, func(b *testing.B) {
			ac := model(3.9)
			o.change(&ac)
			cards := TrimCards(ac.StallSpeed(atmosphere.SeaLevelDensity))
			var log Log
			for b.Loop() {
				var err error
				if log, err = Fly(ac, cards, DefaultWeather(), DefaultInstruments(), seeded(1)); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/log.Time[len(log.Time)-1], "µs_per_simulated_s")
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
