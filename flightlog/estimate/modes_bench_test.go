package estimate

import "testing"

func BenchmarkModes(b *testing.B) {
	in := modelForModes()
	for b.Loop() {
		Modes(in)
	}
}
