package identify

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Readings that come more slowly than samples count once each, whatever part of a sample lies between them and however many samples are left out.
func TestReadingsSlowerThanSamplesCountOnce(t *testing.T) {
	for _, c := range []struct {
		between float64
		every   int
		want    int
	}{{0, 1, 1000}, {0.01, 1, 1000}, {0.04, 1, 250}, {0.025, 1, 400}, {0.1, 4, 100}, {0.04, 4, 250}, {0.02, 4, 250}} {
		track := &track{segment: &Segment{Step: 0.01}}
		track.readings[3] = c.between
		count := 0
		for k := 0; k < 1000; k += c.every {
			if track.read(3, k, c.every) {
				count++
			}
			require.True(t, track.read(0, k, c.every), "another output has its own")
		}
		require.Equal(t, c.want, count, "a reading every %g s, one sample of %d", c.between, c.every)
	}
}
