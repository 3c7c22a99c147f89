package reduce

import (
	"sort"

	"wingproof/flightlog"
)

// withoutLost gives the recording without the samples that the log's quality calls lost, channel by channel, so that a sensor that
// dropped out for some seconds spoils neither a low-pass nor a running sum beside them. The recording itself is left as it is.
func withoutLost(rec *flightlog.Recording, findings []flightlog.Finding) *flightlog.Recording {
	out := *rec
	out.Channels = make(map[flightlog.Quantity]flightlog.Channel, len(rec.Channels))
	for q, c := range rec.Channels {
		out.Channels[q] = c
	}
	for _, f := range findings {
		c, known := out.Channels[f.Channel]
		if f.Severity != flightlog.Loss || f.Line > 0 || !known || f.End <= f.Start {
			continue
		}
		from := sort.SearchFloat64s(c.Time, f.Start)
		to := sort.Search(len(c.Time), func(i int) bool { return c.Time[i] > f.End })
		out.Channels[f.Channel] = cut(c, from, to)
	}
	return &out
}

// cut gives a channel without the samples from one index up to another; the channel's own slices are not written to.
func cut(c flightlog.Channel, from, to int) flightlog.Channel {
	if to <= from {
		return c
	}
	n := len(c.Time) - (to - from)
	out := flightlog.Channel{Time: make([]float64, 0, n), Value: make([]float64, 0, n)}
	out.Time = append(append(out.Time, c.Time[:from]...), c.Time[to:]...)
	out.Value = append(append(out.Value, c.Value[:from]...), c.Value[to:]...)
	return out
}
