package response

import (
	"math/rand/v2"
	"testing"
)

func BenchmarkDutchRoll(b *testing.B) {
	f := dutchRollFlight(b, 0.2, 1, 6.5, rand.New(rand.NewPCG(1, 2)))
	for b.Loop() {
		FindDutchRoll(f.stretch)
	}
}

func BenchmarkRoll(b *testing.B) {
	in, truth := aileronInput(b, 0.2, 1, 22, rand.New(rand.NewPCG(1, 2)))
	for b.Loop() {
		FindRoll(in, dutchRollOf(truth))
	}
}
