package identify

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog/rehearse"
)

// calm is what these tests are flown in.
func calm() (rehearse.Weather, rehearse.Instruments) {
	return rehearse.DefaultWeather(), rehearse.DefaultInstruments()
}

func lacksOf(x Excitation) map[string]string {
	out := map[string]string{}
	for _, l := range x.Lacks {
		for _, d := range l.Derivatives {
			out[d] = l.Why
		}
	}
	return out
}

// Variance proportions and condition by hand: two unit columns with correlation r have the singular values √(1 ± r), and both share each
// direction's variance alike.
func TestDecompositionOfTwoColumns(t *testing.T) {
	const n = 1000
	b := block{columns: zeros(2, n), apart: [][]float64{constant(n)}}
	for i := range n {
		phase := 2 * math.Pi * float64(i) / n
		b.columns[0][i] = 5 * math.Sin(phase)
		b.columns[1][i] = 0.1 * (0.98*math.Sin(phase) + math.Sqrt(1-0.98*0.98)*math.Cos(phase))
	}
	x := Excitation{Axis: Longitudinal, Regressors: []string{"a", "b"}}
	x.decompose(unitColumns([]block{b}))
	require.InDelta(t, math.Sqrt(1.98), x.Singular[0], 1e-9)
	require.InDelta(t, math.Sqrt(0.02), x.Singular[1], 1e-9)
	require.InDelta(t, math.Sqrt(99), x.Condition, 1e-6)
	for j := range 2 {
		require.InDelta(t, 0.99, x.Proportions[1][j], 1e-9)
		require.InDelta(t, 0.01, x.Proportions[0][j], 1e-9)
	}
}

// Doublets and multisteps on the elevator, on both lateral controls: nothing that matters is missing.
func TestFullInputsExciteAll(t *testing.T) {
	ac := rehearse.ExampleAircraft()
	w, ins := calm()
	for _, axis := range []Axis{Longitudinal, Lateral} {
		x, err := Excite(programme(t, ac, axis, w, ins, 1), axis, setupOf(ac))
		require.NoError(t, err)
		require.Less(t, x.Condition, float64(strongIndex))
		for d := range lacksOf(x) {
			require.Contains(t, []string{SideForceByRollRate, SideForceByAileron}, d, "only what is tiny may drown")
		}
		require.Len(t, x.Singular, len(axisTerms(axis)))
	}
}

// Only the rudder was moved: what the ailerons do cannot be known, what the rudder does can. Sideslip and the two rates swing in one
// Dutch roll; the derivatives by them come out four standard deviations off, because the noise of the gyros enters where the columns are
// alike, and are refused.
func TestRudderAlone(t *testing.T) {
	ac := rehearse.ExampleAircraft()
	w, ins := calm()
	f := flownCards(t, ac, inputCards(ac, "rudder", 0.14), w, ins, 1)
	var segments []Segment
	for _, s := range f.log.Stretches[1:] { // from the first movement on, when the pilot no longer holds the wings level
		segments = append(segments, f.segment(s.Card, s.From, s.To))
	}
	x, err := Excite(segments, Lateral, setupOf(ac))
	require.NoError(t, err)
	lacks := lacksOf(x)
	require.Contains(t, lacks[AileronPower], "the ailerons were not moved")
	require.Contains(t, lacks[AileronPower], "fly an aileron doublet")
	require.NotContains(t, lacks, RudderPower)
	require.Contains(t, lacks[DihedralEffect], "always moved together")
	require.Contains(t, lacks[DihedralEffect], "fly an aileron doublet as well")
	fit, err := EquationError(segments, Lateral, setupOf(ac))
	require.NoError(t, err)
	want := truths(ac, setupOf(ac))
	var determined []string
	for i, d := range fit.Derivatives {
		if strings.HasSuffix(d.Quantity, "by_aileron") || d.Quantity == AileronPower {
			require.False(t, d.Determined)
			require.Zero(t, d.Value)
			require.Zero(t, fit.Covariance[i][i])
		} else if d.Determined {
			require.InEpsilon(t, want[d.Quantity], d.Value, 0.15, d.Quantity)
			determined = append(determined, d.Quantity)
		}
	}
	require.Equal(t, []string{SideForceByRudder, RollByRudder, RudderPower}, determined)
	require.Contains(t, strings.Join(fit.Warnings, "\n"), "all input manoeuvres are from flight F01")
}

// Rudder and ailerons always moved together, as by one stick with a mixer: they cannot be told apart, and the words say so.
func TestMixedControls(t *testing.T) {
	ac := rehearse.ExampleAircraft()
	w, ins := calm()
	segments := flownCards(t, ac, inputCards(ac, "rudder", 0.14), w, ins, 1).segments()
	for i := range segments {
		segments[i].Aileron = make([]float64, len(segments[i].Rudder))
		for k, r := range segments[i].Rudder {
			segments[i].Aileron[k] = 0.5 * r
		}
	}
	x, err := Excite(segments, Lateral, setupOf(ac))
	require.NoError(t, err)
	require.True(t, math.IsInf(x.Condition, 1))
	why := lacksOf(x)[RudderPower]
	require.Equal(t, why, lacksOf(x)[AileronPower])
	require.Contains(t, why, "the ailerons and the rudder always moved together")
	require.Contains(t, why, "fly an aileron doublet on its own and a rudder doublet on its own")
	_, err = EquationError(segments, Lateral, setupOf(ac))
	require.ErrorContains(t, err, "always moved together", "a refusal in words")
}

// An input far too small against the noise, and one that is no input at all.
func TestSmallInputs(t *testing.T) {
	ac := rehearse.ExampleAircraft()
	w, ins := calm()
	small := flownCards(t, ac, inputCards(ac, "elevator", 0.003), w, ins, 1).segments()
	x, err := Excite(small[:1], Longitudinal, setupOf(ac))
	require.NoError(t, err)
	lacks := lacksOf(x)
	require.Contains(t, lacks[LiftByPitchRate], tooLittle)
	require.Contains(t, lacks[LiftByPitchRate], "fly larger inputs")
	for i := range small {
		small[i].Elevator = make([]float64, len(small[i].Elevator))
	}
	x, err = Excite(small, Longitudinal, setupOf(ac))
	require.NoError(t, err)
	require.Contains(t, lacksOf(x)[ElevatorPower], "the elevator was not moved by as much as 0.2°")
}

// In steady swinging at one frequency angle of attack, pitch rate and elevator are three sines of one frequency, which two can stand for.
func TestOneFrequency(t *testing.T) {
	const n, step = 500, 0.02
	s := Segment{Flight: "F01", Kind: "sine", Control: "elevator", Power: "idle", Step: step, Density: 1.2}
	ac := rehearse.ExampleAircraft()
	s.Body, s.CGX, s.CGZ = ac.Body, ac.CGX*ac.LengthRatio, ac.CGZ*ac.LengthRatio
	wave := func(size, phase float64) []float64 {
		out := make([]float64, n)
		for i := range out {
			out[i] = size * math.Sin(2*math.Pi*0.8*float64(i)*step+phase)
		}
		return out
	}
	flat := func(v float64) []float64 {
		out := make([]float64, n)
		for i := range out {
			out[i] = v
		}
		return out
	}
	s.Elevator, s.Alpha, s.PitchRate = wave(0.05, 0), wave(0.03, -1), wave(0.2, 0.4)
	s.RollRate, s.YawRate, s.Beta, s.Roll, s.Pitch, s.Aileron, s.Rudder = flat(0), flat(0), flat(0), flat(0), flat(0.05), flat(0), flat(0)
	s.ForwardForce, s.RightForce, s.DownForce, s.Airspeed = flat(0), flat(0), wave(2, -1), flat(22)
	x, err := Excite([]Segment{s}, Longitudinal, setupOf(ac))
	require.NoError(t, err)
	why := lacksOf(x)[PitchDamping]
	require.Contains(t, why, "at one frequency only")
	require.Contains(t, why, "sharp steps hold many frequencies")
	doublet := flat(0)
	for i := range doublet {
		switch {
		case i > 100 && i < 125:
			doublet[i] = 1
		case i >= 125 && i < 150:
			doublet[i] = -1
		}
	}
	require.False(t, pure(doublet))
	require.True(t, pure(wave(1, 0)))
}
