package quality

import (
	"fmt"
	"math"
	"wingproof/flightlog"
)

// A gap is a pause of five usual steps and of at least a quarter of a second: single samples lost on the way
// are no gap. Two channels share a gap when its ends agree to one usual step.
const (
	gapSteps = 5
	gapLeast = 0.25 // s
)

// mostGaps is how many gaps of one channel are told one by one.
const mostGaps = 30

// gaps finds pauses in the samples, one finding for a pause that several channels share. Servo positions and
// navigation may be logged only when they change, so they have no gaps.
func gaps(rec *flightlog.Recording) []flightlog.Finding {
	var out []flightlog.Finding
	var shared []int // channels a finding
	for _, q := range flightlog.Quantities() {
		c, ok := rec.Channels[q]
		if !ok || (!moves(q) && q != flightlog.Altitude) {
			continue
		}
		step, own := c.Step(), 0
	next:
		for i := 1; i < len(c.Time); i++ {
			from, to := c.Time[i-1], c.Time[i]
			if to-from < math.Max(gapSteps*step, gapLeast) {
				continue
			}
			for j := range out {
				if math.Abs(out[j].Start-from) <= step && math.Abs(out[j].End-to) <= step {
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
		switch length := out[j].End - out[j].Start; {
		case shared[j] == 0:
			out[j].What = fmt.Sprintf("more gaps follow than the %d told", mostGaps)
		case shared[j] == 1:
			out[j].What = fmt.Sprintf("no samples for %.2f s", length)
		default:
			out[j].Channel = ""
			out[j].What = fmt.Sprintf("no samples of %d channels for %.2f s", shared[j], length)
		}
		out[j].Consequence = "no test point is taken across the gap"
	}
	return out
}
