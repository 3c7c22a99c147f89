package stability

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"wingproof/aero"
)

// levelsOf are the levels of the five motions by their names.
func levelsOf(all []MotionLevel) map[string]int {
	out := map[string]int{}
	for _, l := range all {
		out[l.Motion] = l.Level
	}
	return out
}

// The Navion of Nelson's set: control anticipation 1.176696 and n/α 11.06468 recomputed by another program; a second public listing
// has 1.21 with its own closed-loop frequency.
func TestNavionHandling(t *testing.T) {
	d, b, c := navion()
	m, err := FindModes(d, b, c)
	require.NoError(t, err)
	load := LoadFactorPerAlpha(d, b, c)
	// The recomputation takes −Zα/g, which has the drag in it, and lift from the given 2750 lb: 4.44 + 0.05 over 0.41 in all.
	require.InDelta(t, 11.06468, load*(4.44+0.05)/4.44, 1e-5, "n/α recomputed from the Navion set of Nelson, Flight Stability and Automatic Control")
	n := m.HandlingNumbers(load)
	require.InDelta(t, 1.176696, n.ControlAnticipation*4.44/(4.44+0.05), 1e-5)
	require.InDelta(t, 0.695749, n.ShortPeriodDamping, 1e-5)
	require.InDelta(t, 0.118556, n.RollTimeConstant, 1e-5)
	require.True(t, math.IsInf(n.SpiralTimeToDouble, 1))
	for _, phase := range []FlightPhase{PhaseA, PhaseB, PhaseC} {
		levels := HandlingLevels(m, load, phase)
		require.Len(t, levels, 5)
		for _, l := range levels {
			require.Equal(t, 1, l.Level, "%s in category %s, %g", l.Motion, phase, l.Value)
			require.NotEmpty(t, l.Decides.Source)
		}
	}
}

// The roots are those of TestNavionFromFlightTests (Seckel and Morris, FAA-RD-71-6, 1971, recomputed). Its Dutch roll has ζ 0.368811/2.876064 =
// 0.128 and so misses the 0.19 of category A; its spiral doubles in ln 2/0.000121 = 5728 s.
func TestNavionInFlightHandling(t *testing.T) {
	m := Modes{
		ShortPeriod: oscillation(-3.193281, 3.031234), Phugoid: oscillation(-0.015932, 0.158409), DutchRoll: oscillation(-0.368811, 2.852318),
		Roll: &Decay{-7.409016}, Spiral: &Decay{0.000121},
	}
	n := m.HandlingNumbers(10)
	require.InDelta(t, 5728, n.SpiralTimeToDouble, 1)
	require.InDelta(t, 0.12823, n.DutchRollDamping, 1e-5)
	require.Equal(t, 1, levelsOf(n.Levels(PhaseB))[DutchRollMotion])
	all := n.Levels(PhaseA)
	require.Equal(t, map[string]int{ShortPeriodMotion: 1, PhugoidMotion: 1, DutchRollMotion: 2, RollMotion: 1, SpiralMotion: 1}, levelsOf(all))
	require.Equal(t, 0.19, all[2].Decides.Bound)
	require.Equal(t, dutchRollDamping, all[2].Decides.Quantity)
}

// The jet transport of TestJetTransportLongitudinal prints ζ 0.0488821 of the phugoid, just within Level 1; the short period's ζ follows from
// the printed roots: 6.55727818/√(6.55727818² + 15.64731²) = 0.3865. It is no Class I aircraft: the numbers alone are used.
func TestJetTransportHandling(t *testing.T) {
	m := Modes{ShortPeriod: oscillation(-6.55727818e-3, 1.564731e-2), Phugoid: oscillation(-5.80316e-5, 1.18576e-3)}
	n := m.HandlingNumbers(math.NaN())
	require.InDelta(t, 0.0488821, n.PhugoidDamping, 5e-7)
	require.InDelta(t, 0.3865, n.ShortPeriodDamping, 5e-5)
	require.Equal(t, 1, levelsOf(n.Levels(PhaseB))[PhugoidMotion])
	require.Equal(t, 1, levelsOf(n.Levels(PhaseB))[ShortPeriodMotion])
}

func oscillation(re, im float64) *Oscillation {
	size := math.Hypot(re, im)
	return &Oscillation{Root: complex(re, im), Frequency: size, Damping: -re / size}
}

// The numbers do not care whether a pair of roots is just complex or just real, and growing motions have negative damping.
func TestHandlingNumbersOfRealRoots(t *testing.T) {
	d, b, c := navion()
	damping := func(stiffness, pitchDamping float64) HandlingNumbers {
		d.ByAlpha.Pitch, d.ByPitchRate.Pitch = stiffness, pitchDamping
		m, err := FindModes(d, b, c)
		require.NoError(t, err)
		return m.HandlingNumbers(11)
	}
	over := damping(-0.1, -30) // two real roots
	require.Greater(t, over.ShortPeriodDamping, 1.0)
	require.Positive(t, over.ControlAnticipation)
	unstable := damping(1.5, -9.96)
	require.Negative(t, unstable.ShortPeriodDamping)
	require.Negative(t, unstable.ControlAnticipation)
	require.Zero(t, unstable.ShortPeriodFrequency)
	require.Equal(t, WorseThanLevel3, levelsOf(unstable.Levels(PhaseB))[ShortPeriodMotion])

	d, b, c = navion()
	d.ByBeta.Yaw = -0.3
	m, err := FindModes(d, b, c)
	require.NoError(t, err)
	n := m.HandlingNumbers(11)
	require.Negative(t, n.DutchRollDamping)
	require.Equal(t, WorseThanLevel3, levelsOf(n.Levels(PhaseB))[DutchRollMotion])
}

// A roll and a spiral that swing together are read by how fast they die out or grow.
func TestHandlingNumbersOfCoupledRollAndSpiral(t *testing.T) {
	m := Modes{DutchRoll: oscillation(-0.4, 2), LateralRoots: []complex128{complex(-0.4, 2), complex(-0.4, -2), complex(-0.5, 0.3), complex(-0.5, -0.3)}}
	n := m.HandlingNumbers(10)
	require.InDelta(t, 2, n.RollTimeConstant, 1e-12)
	require.True(t, math.IsInf(n.SpiralTimeToDouble, 1))
	m.LateralRoots[2], m.LateralRoots[3] = complex(0.1, 0.3), complex(0.1, -0.3)
	n = m.HandlingNumbers(10)
	require.True(t, math.IsInf(n.RollTimeConstant, 1))
	require.InDelta(t, math.Ln2/0.1, n.SpiralTimeToDouble, 1e-12)
}

// Every bound names its source, and a better level never asks for less.
func TestHandlingBoundsAreOrdered(t *testing.T) {
	for _, phase := range []FlightPhase{PhaseA, PhaseB, PhaseC} {
		bounds := HandlingBounds(phase)
		require.NotEmpty(t, bounds)
		for i, b := range bounds {
			require.NotEmpty(t, b.Source)
			require.False(t, math.IsNaN(b.Bound))
			for _, other := range bounds[i+1:] {
				if other.Quantity != b.Quantity || other.Most != b.Most {
					continue
				}
				require.Greater(t, other.Level, b.Level, "each bound once")
				if b.Most {
					require.GreaterOrEqual(t, other.Bound, b.Bound)
				} else {
					require.LessOrEqual(t, other.Bound, b.Bound)
				}
			}
		}
	}
}

// More damping of a swing, and a quicker roll, never make a level worse.
func TestLevelsAreMonotonous(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := HandlingNumbers{DutchRollDamping: rapid.Float64Range(-0.1, 0.4).Draw(t, "damping"), DutchRollFrequency: rapid.Float64Range(0, 4).Draw(t, "frequency"),
			RollTimeConstant: rapid.Float64Range(0.1, 12).Draw(t, "constant"), SpiralTimeToDouble: rapid.Float64Range(1, 40).Draw(t, "double"),
			PhugoidDamping: math.NaN(), PhugoidTimeToDouble: math.NaN()}
		better := n
		better.DutchRollDamping += 0.05
		better.RollTimeConstant *= 0.8
		better.SpiralTimeToDouble *= 1.2
		phase := rapid.SampledFrom([]FlightPhase{PhaseA, PhaseB, PhaseC}).Draw(t, "phase")
		one, other := levelsOf(n.Levels(phase)), levelsOf(better.Levels(phase))
		for _, motion := range []string{DutchRollMotion, RollMotion, SpiralMotion} {
			require.LessOrEqual(t, other[motion], one[motion], motion)
		}
		require.NotContains(t, one, PhugoidMotion, "nothing is known of it")
	})
}

// Froude scaling: frequencies of the model are 1/√N those of the aircraft, n/α is the same, so control anticipation is 1/N.
func TestControlAnticipationIsJudgedAtFullSize(t *testing.T) {
	const n = 0.25
	d, b, c := lightSingle()
	full, err := FindModes(d, b, c)
	require.NoError(t, err)
	model := d
	model.Reference = aero.Reference{Area: d.Reference.Area * n * n, Span: d.Reference.Span * n, MeanChord: d.Reference.MeanChord * n}
	body := Body{Mass: b.Mass * n * n * n, Ix: b.Ix * math.Pow(n, 5), Iy: b.Iy * math.Pow(n, 5), Iz: b.Iz * math.Pow(n, 5)}
	slow := Condition{Density: c.Density, Speed: c.Speed * math.Sqrt(n)}
	small, err := FindModes(model, body, slow)
	require.NoError(t, err)
	require.InEpsilon(t, LoadFactorPerAlpha(d, b, c), LoadFactorPerAlpha(model, body, slow), 1e-12)
	load := LoadFactorPerAlpha(d, b, c)
	require.InEpsilon(t, full.HandlingNumbers(load).ControlAnticipation/n, small.HandlingNumbers(load).ControlAnticipation, 1e-9)
	require.InEpsilon(t, full.HandlingNumbers(load).DutchRollDamping, small.HandlingNumbers(load).DutchRollDamping, 1e-9)
}
