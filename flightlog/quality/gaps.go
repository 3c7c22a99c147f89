package quality

import (
	"fmt"
	"math"

	"wingproof/flightlog"
)

// A gap is a pause of five usual steps and of at least a quarter of a second: single samples lost on the way
// are no gap. Two channels share a gap when its ends agree to one usual step. (Common practice, no source.)
const (
	gapSteps = 5
	gapLeast = 0.25 // s
)

// mostGaps is how many gaps of one channel are told one by one.
const mostGaps = 30

// gaps finds pauses in the samples, one finding for a pause that several channels share. A channel that comes at no
// steady rate, as servo positions and navigation that are logged only when they change, has no gaps.
func gaps(rec *flightlog.Recording, scans map[flightlog.Quantity]scan) []flightlog.Finding {
	var out []flightlog.Finding
	var shared []int // channels a finding
	for _, q := range flightlog.Quantities() {
		c, ok := rec.Channels[q]
		s := scans[q]
		if !ok || (!s.regular && !moves(q) && q != flightlog.Altitude) {
			continue
		}
		own := 0
		least := math.Max(gapSteps*s.step, gapLeast)
	next:
		for i := 1; i < len(c.Time); i++ {
			from, to := c.Time[i-1], c.Time[i]
			if to-from < least {
				continue
			}
			for j := range out {
				if shared[j] > 0 && math.Abs(out[j].Start-from) <= s.step && math.Abs(out[j].End-to) <= s.step {
					shared[j]++
					continue next
				}
			}
			if own++; own > mostGaps {
				out = append(out, flightlog.Finding{Severity: flightlog.Loss, Channel: q, Start: from, End: c.Time[len(c.Time)-1]})
				shared = append(shared, 0)
				break
			}
			out = append(out, flightlog.Finding{Severity: flightlog.Loss, Channel: q, Start: from, End: to})
			shared = append(shared, 1)
		}
	}
	for j := range out {
		gapWords(&out[j], shared[j])
	}
	return out
}

// gapWords says what a gap of so many channels takes away.
func gapWords(f *flightlog.Finding, channels int) {
	switch length := f.End - f.Start; {
	case channels == 0:
		f.What = fmt.Sprintf("more gaps of the %s follow than the %d told", plainName(f.Channel), mostGaps)
	case channels == 1:
		f.What = fmt.Sprintf("no samples of the %s for %.2f s", plainName(f.Channel), length)
	default:
		f.Channel = ""
		f.What = fmt.Sprintf("no samples of %d channels for %.2f s", channels, length)
	}
	f.Consequence = lost(f.Channel, f.Start, f.End) + "; test points and manoeuvres across it are left out"
}
