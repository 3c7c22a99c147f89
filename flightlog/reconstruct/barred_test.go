package reconstruct

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
)

// Samples at whole seconds 0 to 9; what is barred of the channel or of all goes out, ends included, in whatever order it is named.
func TestBarredSamplesAreLeftOut(t *testing.T) {
	var c flightlog.Channel
	for i := range 10 {
		c.Time, c.Value = append(c.Time, float64(i)), append(c.Value, float64(i))
	}
	s := Setup{Barred: []Stretch{{flightlog.PitchRate, 7, 7}, {"", 1, 2.5}, {flightlog.RollRate, 0, 9}, {"", 2, 3}, {flightlog.PitchRate, 5, 4}}}
	require.Equal(t, []float64{0, 4, 5, 6, 8, 9}, clean(c, s, flightlog.PitchRate).Time)
	require.Empty(t, clean(c, s, flightlog.PitchRate, flightlog.RollRate).Time)
	require.Equal(t, c.Time, clean(c, Setup{}, flightlog.PitchRate).Time)
}
