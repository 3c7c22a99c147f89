package response

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// swing samples one motion with its own amplitude, phase, offset and drift.
func swing(frequency, damping, amplitude, phase, offset, drift, step float64, n int) []float64 {
	out := make([]float64, n)
	turn := frequency * math.Sqrt(1-damping*damping)
	for i := range out {
		t := float64(i) * step
		out[i] = amplitude*math.Exp(-damping*frequency*t)*math.Cos(turn*t+phase) + offset + drift*t
	}
	return out
}

func pureStretch(frequency, damping, size float64, from, n int) Stretch {
	const step = 0.01
	cut := func(v []float64) []float64 { return v[from : from+n] }
	total := from + n
	return Stretch{Step: step, Signals: []Signal{
		{"yaw rate", cut(swing(frequency, damping, 0.3*size, 0.4, 0.01*size, 0.002*size, step, total))},
		{"right force", cut(swing(frequency, damping, 2*size, -1.1, -0.3*size, 0.01*size, step, total))},
		{"roll rate", cut(swing(frequency, damping, 0.2*size, 2, 0.02*size, -0.003*size, step, total))},
	}}
}

// Without noise the closed form comes back to ten digits.
func TestPureSwingComesBack(t *testing.T) {
	for _, c := range []struct{ frequency, damping float64 }{{3, 0.05}, {5, 0.15}, {5, 0.4}, {8, 0.1}, {4, -0.05}} {
		m := FindDutchRoll(pureStretch(c.frequency, c.damping, 1, 0, 600))
		require.True(t, m.Determined, m.Why)
		require.InEpsilon(t, c.frequency, m.Frequency, 1e-9)
		require.InDelta(t, c.damping, m.Damping, 1e-9)
		require.Less(t, m.FrequencySD, 1e-7)
		require.InEpsilon(t, 0.3, m.Amplitudes[0], 0.05, "a mean over a block of samples weakens the swing a little")
	}
}

// Frequency and damping depend neither on when the stretch begins nor on the size of the motion.
func TestShiftAndSizeDoNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		frequency := rapid.Float64Range(2, 9).Draw(t, "frequency")
		damping := rapid.Float64Range(0.03, 0.3).Draw(t, "damping")
		size := math.Exp(rapid.Float64Range(-4, 4).Draw(t, "log size"))
		from := rapid.IntRange(0, 60).Draw(t, "from")
		m := FindDutchRoll(pureStretch(frequency, damping, size, from, 500))
		require.True(t, m.Determined, m.Why)
		require.InEpsilon(t, frequency, m.Frequency, 1e-8)
		require.InDelta(t, damping, m.Damping, 1e-8)
	})
}
