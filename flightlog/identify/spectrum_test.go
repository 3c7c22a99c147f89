package identify

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog/rehearse"
)

// The lines of a straight line are what the geometric series says, and a line of the transform is that of a cosine.
func TestLinesOfDriftAndCosine(t *testing.T) {
	const n = 90
	lines := []int{2, 3, 7, 20}
	drift, cosine := make([]float64, n), make([]float64, n)
	for i := range drift {
		drift[i] = float64(i)
		cosine[i] = math.Cos(2 * math.Pi * 7 * float64(i) / n)
	}
	got, want := newTurns(n).lines([][]float64{drift}, lines)[0], driftLines(n, lines)
	for i := range want {
		require.InDelta(t, want[i]*n/2, got[i], 1e-9)
	}
	require.InDeltaSlice(t, []float64{0, 0, n / 2, 0, 0, 0, 0, 0}, newTurns(n).lines([][]float64{cosine}, lines)[0], 1e-10)
}

// A relation that holds from sample to sample holds from line to line, exactly, whatever constants and drifts lie on the channels.
func TestSpectrumIsExactUnderBiasAndDrift(t *testing.T) {
	const n, step = 200, 0.04
	b := block{step: step, fresh: 1, columns: zeros(2, n), responses: zeros(1, n), input: make([]float64, n), apart: [][]float64{constant(n)}}
	for i := range n {
		at := float64(i) * step
		x, y := math.Sin(2*math.Pi*0.7*at)+0.3*math.Cos(2*math.Pi*1.9*at), math.Sin(2*math.Pi*1.2*at+1)*math.Exp(-at/4)
		b.columns[0][i], b.columns[1][i] = x+4, y-0.2*at
		b.responses[0][i] = 1.7*x - 0.6*y + 12 + 0.9*at
		b.input[i] = x
	}
	r, err := regress(spectra([]block{b}))
	require.NoError(t, err)
	require.InDelta(t, 1.7, r.values[0][0], 1e-9)
	require.InDelta(t, -0.6, r.values[0][1], 1e-9)
	r, err = regress([]block{b})
	require.NoError(t, err)
	require.Greater(t, math.Abs(r.values[0][1]+0.6), 0.1, "the time domain takes the drift for motion")
}

// Drifting gyros and a drifting angle of attack: the frequency domain forgives them, the time domain does not.
func TestSpectrumForgivesDrift(t *testing.T) {
	ac := rehearse.ExampleAircraft()
	setup := setupOf(ac)
	clean := programme(t, ac, Longitudinal, rehearse.DefaultWeather(), rehearse.DefaultInstruments(), 1)
	drifting := make([]Segment, len(clean))
	for i, s := range clean {
		drifting[i] = s
		drifting[i].PitchRate, drifting[i].Alpha = append([]float64(nil), s.PitchRate...), append([]float64(nil), s.Alpha...)
		for k := range s.PitchRate {
			at := float64(k) * s.Step
			drifting[i].PitchRate[k] += 0.05 + 0.01*at
			drifting[i].Alpha[k] += 0.02 + 0.01*at
		}
	}
	moved := func(run func([]Segment, Axis, Setup) (Fit, error)) (most float64) {
		before, err := run(clean, Longitudinal, setup)
		require.NoError(t, err)
		after, err := run(drifting, Longitudinal, setup)
		require.NoError(t, err)
		for i, d := range after.Derivatives {
			most = math.Max(most, math.Abs(d.Value-before.Derivatives[i].Value)/before.Derivatives[i].SD)
		}
		return most
	}
	require.Less(t, moved(EquationErrorSpectrum), 1.0)
	require.Greater(t, moved(EquationError), 5.0)
}

// The band follows the input: slow inputs end low, quick ones reach up, none leaves the bounds.
func TestBandFollowsTheInput(t *testing.T) {
	const n, step = 250, 0.04
	square := func(period float64) []float64 {
		out := make([]float64, n)
		for i := range out {
			at := float64(i) * step
			switch {
			case at < 2:
			case at < 2+period/2:
				out[i] = 1
			case at < 2+period:
				out[i] = -1
			}
		}
		return newKernel(step).value(out)
	}
	top := func(input []float64) float64 {
		lines := bandOf(input, newTurns(len(input)), step)
		require.Equal(t, fewestPeriods, lines[0])
		return float64(lines[len(lines)-1]) / (float64(len(input)) * step)
	}
	slow, quick := top(square(4)), top(square(0.5))
	require.GreaterOrEqual(t, slow, lowestTop-0.2)
	require.Greater(t, quick, slow)
	require.LessOrEqual(t, quick, topOfSampling/step+1e-9)
}
