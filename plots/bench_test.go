package plots_test

import (
	"testing"
)

// BenchmarkPicture makes the pictures of every kind of figure from its drawing.
func BenchmarkPicture(b *testing.B) {
	for _, k := range kinds() {
		f, err := k.draw()
		if err != nil {
			b.Fatal(err)
		}
		b.Run("kind="+k.name, func(b *testing.B) {
			for b.Loop() {
				if _, err := f.Picture(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
