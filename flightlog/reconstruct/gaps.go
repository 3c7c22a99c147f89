package reconstruct

import (
	"fmt"
	"math"

	"wingproof/flightlog"
)

const (
	longestRecording = 6 * 3600.0 // s, longer than any model flies: beyond it the unit of time is wrong; common practice, no source
	longestSilence   = 10.0       // s without a sample of anything beyond which the filter begins anew: the model has done what nobody knows
)

// tooLong says that the clock must be wrong; the zero finding and false when it is not.
func (in *input) tooLong() (flightlog.Finding, bool) {
	if in.end-in.start <= longestRecording {
		return flightlog.Finding{}, false
	}
	return flightlog.Finding{Severity: flightlog.Loss, Start: in.start, End: in.end,
		What:        fmt.Sprintf("the recording covers %.3g hours, longer than any model flies", (in.end-in.start)/3600),
		Consequence: "the path of the model through the air cannot be reconstructed; check the unit of the time column, and that no row has a time far off"}, true
}

// silences are the stretches longer than longestSilence in which no channel has a sample.
func (in *input) silences() []Stretch {
	out := []Stretch{{Start: in.start, End: in.end}}
	narrow := func(c flightlog.Channel) {
		if len(c.Time) > 0 {
			out = common(out, holes(c))
		}
	}
	for k := range 3 {
		narrow(in.rates[k])
		narrow(in.forces[k])
	}
	for k := range kinds {
		narrow(in.measured[k])
	}
	return out
}

// holes are the stretches longer than longestSilence without a sample of one channel.
func holes(c flightlog.Channel) []Stretch {
	var out []Stretch
	last := math.Inf(-1)
	for i := range len(c.Time) + 1 {
		now := math.Inf(1)
		if i < len(c.Time) {
			now = c.Time[i]
		}
		if now-last > longestSilence {
			out = append(out, Stretch{Start: last, End: now})
		}
		last = now
	}
	return out
}

// common are the parts longer than longestSilence that two lists in order of time share.
func common(a, b []Stretch) []Stretch {
	var out []Stretch
	for len(a) > 0 && len(b) > 0 {
		start, end := math.Max(a[0].Start, b[0].Start), math.Min(a[0].End, b[0].End)
		if end-start > longestSilence {
			out = append(out, Stretch{Start: start, End: end})
		}
		if a[0].End < b[0].End {
			a = a[1:]
		} else {
			b = b[1:]
		}
	}
	return out
}

// gapFindings tell where nothing was recorded, or all of it barred.
func (f *forward) gapFindings() []flightlog.Finding {
	var out []flightlog.Finding
	for _, s := range f.tl.silences {
		out = append(out, flightlog.Finding{Severity: flightlog.Loss, Start: s.Start, End: s.End,
			What:        fmt.Sprintf("nothing that can be used is recorded for %.0f s", s.End-s.Start),
			Consequence: "there is no path there; the reconstruction begins anew after it"})
	}
	return out
}
