package flightlog

import "runtime"

// estimate is what is known about the size of a file before it is read.
type estimate struct {
	bytes   int       // of the text; 0 when nobody knows
	samples []float64 // of each channel; nil when nobody knows
}

// room gives the channels their memory. A channel that is copied to a larger place leaves as much garbage as it holds
// samples, so the first guess should be good and growth rare.
type room struct {
	estimate
	done    int   // bytes of the blocks so far
	taken   []int // samples of each channel in them
	block   *block
	held    int // numbers that channels have room for
	garbage int // numbers left behind
}

const (
	// spare is how much more room is taken than expected: the samples of a channel vary by a few per cent along a
	// log (common practice, no source).
	spare = 1.03
	// littered is the share of garbage that is swept up at once rather than when the heap has doubled. Together with
	// spare room it keeps the peak below 1.3 times the channels.
	littered = 1.0 / 10
	// muchGarbage is where sweeping begins to pay, in numbers of eight bytes.
	muchGarbage = 2 << 20
)

func (r *room) begin(b *block) {
	r.done += b.bytes
	r.block = b
	for i := range b.samples {
		r.taken[i] += b.samples[i].n
	}
}

// reserve gives s room for more samples of channel i.
func (r *room) reserve(s []float64, more, i int) []float64 {
	if len(s)+more <= cap(s) {
		return s
	}
	fresh := append(r.make(len(s)+more+r.ahead(len(s), i)), s...)
	r.held -= cap(s)
	r.garbage += cap(s)
	if r.garbage > muchGarbage && float64(r.garbage) > littered*float64(r.held) {
		runtime.GC()
		r.garbage = 0
	}
	return fresh
}

// ahead guesses how many samples of a channel are still to come, when n are placed.
func (r *room) ahead(n, i int) int {
	rest := r.bytes - r.done
	switch {
	case n == 0 && r.samples != nil && rest > 0:
		return int(spare*r.samples[i]) + 1
	case rest > 0 && r.block.bytes > 0:
		rate := max(float64(r.taken[i])/float64(r.done), float64(r.block.samples[i].n)/float64(r.block.bytes))
		return int(spare*rate*float64(rest)) + 1
	case n < 1<<16:
		return n
	}
	return n / 8
}

func (r *room) make(n int) []float64 {
	r.held += n
	return make([]float64, 0, n)
}
