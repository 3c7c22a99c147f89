package demo

import (
	"math/rand/v2"

	"wingproof/flightlog/rehearse"
)

// stream returns the random stream of one named thing.
func stream(seed uint64, names ...string) *rand.Rand { return rehearse.Stream(seed, names...) }

// draw returns one normal draw with mean zero from the stream of the names.
func draw(seed uint64, sd float64, names ...string) float64 {
	return sd * stream(seed, names...).NormFloat64()
}
