package stability

import "testing"

// Both matrices with their roots and the numbers that requirements ask for.
func BenchmarkHandlingNumbers(b *testing.B) {
	d, body, c := lightSingle()
	load := LoadFactorPerAlpha(d, body, c)
	for b.Loop() {
		m, err := FindModes(d, body, c)
		if err != nil {
			b.Fatal(err)
		}
		m.HandlingNumbers(load)
	}
}
