package quality

import (
	"testing"

	"wingproof/flightlog"
)

// twentyMinutes is a recording of twenty minutes at 100 Hz in every one of 23 channels: a flight flown again and again, as Inspect
// costs by the sample.
func twentyMinutes(b *testing.B) *flightlog.Recording {
	l, err := flown(inventedModel(), 5, flightOptions{sheet: 1, rate: 100})
	if err != nil {
		b.Fatal(err)
	}
	once := ofLog(l)
	length := l.Time[len(l.Time)-1] + 0.01
	rec := without(once)
	rows := 0
	for q, c := range once.Channels {
		var all flightlog.Channel
		for i := 0; len(all.Time) < 120_000; i++ {
			k, round := i%len(l.Time), i/len(l.Time)
			at := min(k*len(c.Value)/len(l.Time), len(c.Value)-1)
			all.Time = append(all.Time, l.Time[k]+float64(round)*length)
			all.Value = append(all.Value, c.Value[at]+1e-9*float64(i%7))
		}
		rec.Channels[q] = all
		rows = len(all.Time)
	}
	rec.Rows = rows
	return rec
}

func BenchmarkInspect(b *testing.B) {
	rec := twentyMinutes(b)
	b.Run("with=nothing", func(b *testing.B) {
		for b.Loop() {
			Inspect(rec)
		}
		b.ReportMetric(float64(rec.Rows*len(rec.Channels))*float64(b.N)/b.Elapsed().Seconds()/1e6, "Msamples/s")
	})
	b.Run("with=aircraft", func(b *testing.B) {
		for b.Loop() {
			InAircraft(rec, modelAircraft())
		}
	})
}
