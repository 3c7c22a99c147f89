package rehearse

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Fast logs show the same flight: the rate of the recorder changes the step of the integration, not the motion.
func TestFastLogsShowTheSameFlight(t *testing.T) {
	fly := func(rate float64) Log {
		ins := perfect()
		ins.FastRate = rate
		log, err := Fly(model(3.9), []Card{
			{Kind: Climb, Speed: 23, Duration: 15},
			{Kind: Doublet, Speed: 23, Duration: 10, Control: "aileron", Size: 4 * degree, Width: 0.5},
		}, still(), ins, seeded(1))
		require.NoError(t, err)
		return log
	}
	slow := fly(100)
	for _, rate := range []float64{200, 500} {
		fast := fly(rate)
		every := int(rate / 100)
		require.InDelta(t, len(slow.Time)*every, len(fast.Time), 3*float64(every))
		for i := 0; i < len(slow.Time)-5; i += 10 {
			k := i * every
			require.InDelta(t, slow.Time[i], fast.Time[k], 1e-9)
			require.InDelta(t, slow.Truth.Airspeed[i], fast.Truth.Airspeed[k], 0.1)
			require.InDelta(t, slow.Truth.Height[i], fast.Truth.Height[k], 0.2)
			require.InDelta(t, slow.Truth.Roll[i], fast.Truth.Roll[k], 1*degree, "%g s", slow.Time[i])
			require.InDelta(t, slow.Truth.Alpha[i], fast.Truth.Alpha[k], 0.5*degree)
		}
	}
}
