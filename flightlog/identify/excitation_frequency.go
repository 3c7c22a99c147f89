package identify

import (
	"math"
	"strings"
)

// pureShare is the share of an input's power within one line of its spectrum and its neighbours from which it counts as one
// frequency: a sine of whole periods has all of it, a doublet half. Common practice, no source.
const pureShare = 0.9

// oneFrequency tells whether all segments moved their surface at one frequency, and names the surface.
func oneFrequency(samples []block) (string, bool) {
	name := ""
	for _, b := range samples {
		if len(b.input) == 0 || !pure(b.input) {
			return "", false
		}
		name = strings.TrimSuffix(string(b.control), "_left")
	}
	return name, name != ""
}

// pure tells whether a signal is nearly a sine.
func pure(signal []float64) bool {
	b := block{apart: [][]float64{constant(len(signal))}}
	centred := b.without([][]float64{signal})[0]
	most, total := 0.0, 0.0
	power, circle := make([]float64, len(signal)/2), newTurns(len(signal))
	for k := 1; k < len(power); k++ {
		re, im := circle.line(centred, k)
		power[k] = re*re + im*im
		total += power[k]
	}
	for k := 1; k < len(power); k++ {
		sum := 0.0
		for j := max(1, k-1); j <= min(len(power)-1, k+1); j++ {
			sum += power[j]
		}
		most = math.Max(most, sum)
	}
	return total > 0 && most > pureShare*total
}

// turns are cosine and sine of whole parts of a turn, from which finite Fourier transforms of one length take theirs.
type turns struct{ cos, sin []float64 }

func newTurns(n int) turns {
	t := turns{cos: make([]float64, n), sin: make([]float64, n)}
	for i := range n {
		t.sin[i], t.cos[i] = math.Sincos(2 * math.Pi * float64(i) / float64(n))
	}
	return t
}

// line is the k-th line of the finite Fourier transform Σ x_i·exp(−2πi·k·i/n), by a direct sum.
func (t turns) line(x []float64, k int) (re, im float64) {
	n, at := len(x), 0
	for _, v := range x {
		re += float64(v * t.cos[at])
		im -= float64(v * t.sin[at])
		if at += k; at >= n {
			at -= n
		}
	}
	return re, im
}
