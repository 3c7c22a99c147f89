package manoeuvre_test

import (
	"testing"

	"wingproof/flightlog"
	"wingproof/flightlog/manoeuvre"
)

// BenchmarkFind searches recordings of twenty minutes, made of one rehearsed flight over and over.
func BenchmarkFind(b *testing.B) {
	for _, c := range []struct {
		name   string
		number uint64
	}{{"rate=25Hz", 301}, {"rate=100Hz", 304}} {
		b.Run(c.name, func(b *testing.B) {
			rec := twentyMinutes(b, c.number)
			found := 0
			for b.Loop() {
				found = len(manoeuvre.Find(rec))
			}
			b.ReportMetric(float64(found), "found")
		})
	}
}

func twentyMinutes(b *testing.B, number uint64) *flightlog.Recording {
	log, err := flown(number)
	if err != nil {
		b.Fatal(err)
	}
	once := log.Recording("rehearsed")
	length := log.Time[len(log.Time)-1] + 1
	rec := &flightlog.Recording{Channels: map[flightlog.Quantity]flightlog.Channel{}}
	for q, c := range once.Channels {
		var out flightlog.Channel
		for lap := 0.0; lap*length < 1200; lap++ {
			for i, t := range c.Time {
				if at := t + lap*length; at < 1200 {
					out.Time, out.Value = append(out.Time, at), append(out.Value, c.Value[i])
				}
			}
		}
		rec.Channels[q] = out
	}
	return rec
}
