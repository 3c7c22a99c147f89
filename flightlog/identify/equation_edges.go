package identify

import "math"

// edgeShift is by how much an edge is moved to see what its time does, s; small beside a sample.
const edgeShift = 1e-3

// edgeDirections are what a surface does when each edge of its command comes a little later, smoothed like every channel. When
// between two samples a pilot moved is not recorded (at 25 samples a second a standard deviation of 12 ms); taken for part of the
// motion, it would pass for damping. So each edge has an unknown of its own; with all edges moved alike the pure delay of the servo is
// left open too.
func edgeDirections(command []float64, step float64, servo Servo) [][]float64 {
	k := newKernel(step)
	before := drawn(command, step).behind(servo)
	var out [][]float64
	for _, at := range edgesOf(command) {
		late := drawn(command, step)
		slope := (command[at] - command[at-1]) / step
		for i := (at - 1) * late.parts; i < at*late.parts; i++ {
			late.values[i] -= edgeShift * slope
		}
		change := late.behind(servo)
		for i := range change {
			change[i] = (change[i] - before[i]) / edgeShift
		}
		out = append(out, k.value(change))
	}
	return out
}

// orthonormal makes directions orthonormal, one after the other; what lies in the span of those before is left out.
func orthonormal(directions [][]float64) [][]float64 {
	const inSpan = 1e-6 // of the direction's length; round-off is far below
	var b block
	for _, d := range directions {
		rest := b.without([][]float64{d})[0]
		left := math.Sqrt(inner(rest, rest))
		if !(left > inSpan*math.Sqrt(inner(d, d))) {
			continue
		}
		for i := range rest {
			rest[i] /= left
		}
		b.apart = append(b.apart, rest)
	}
	return b.apart
}
