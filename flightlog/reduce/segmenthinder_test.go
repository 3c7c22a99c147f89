package reduce

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
)

// A lost rudder hinders no input of the elevator, and the other way round; a lost gyro hinders all.
func TestWhatHindersAnInput(t *testing.T) {
	for _, c := range []struct {
		lost, moved flightlog.Quantity
		want        bool
	}{
		{flightlog.RudderLeft, flightlog.Elevator, false}, {flightlog.Aileron, flightlog.Elevator, false}, {flightlog.Elevator, flightlog.Elevator, true},
		{flightlog.Elevator, flightlog.RudderLeft, false}, {flightlog.RudderRight, flightlog.Aileron, true}, {flightlog.Aileron, flightlog.RudderLeft, true},
		{flightlog.PitchRate, flightlog.Aileron, true}, {"", flightlog.Elevator, true},
	} {
		require.Equal(t, c.want, obstacle{control: c.lost}.hinders(c.moved), "lost %q, moved %q", c.lost, c.moved)
	}
}
