package estimate

import (
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero"
	"wingproof/aero/stability"
	"wingproof/flightlog/identify"
	"wingproof/flightlog/source"
	"wingproof/flightlog/statistic"
)

// modelForModes is an invented quarter-scale foreplane model, its derivatives about the CG and their random errors.
func modelForModes() ModeInput {
	d := func(quantity string, value, sd float64) ModeDerivative {
		return ModeDerivative{Quantity: quantity, Value: value, SD: sd, Common: map[string]float64{}}
	}
	return ModeInput{
		Derivatives: []ModeDerivative{
			d(identify.LiftCurveSlope, 4.4, 0.1), d(identify.LiftByPitchRate, 3.2, 1), d(identify.PitchStiffness, -0.44, 0.02), d(identify.PitchDamping, -9.5, 0.5),
			d(identify.SideForceSlope, -0.55, 0.02), d(identify.DihedralEffect, -0.09, 0.003), d(identify.RollDamping, -0.45, 0.02), d(identify.RollDueToYaw, 0.12, 0.02),
			d(identify.DirectionalStiff, 0.06, 0.002), d(identify.YawDueToRoll, -0.04, 0.01), d(identify.YawDamping, -0.13, 0.02),
			d(identify.SideForceByRollRate, -0.05, 0.05), d(identify.SideForceByYawRate, 0.25, 0.05),
		},
		Reference: aero.Reference{Area: 0.7875, Span: 2.15, MeanChord: 0.425}, MomentX: 0.975, MomentZ: 0.0125,
		Flights: []string{"F1", "F2"}, Points: 12, Seed: 1,
		Aircraft: ModeAircraft{
			Scale: "model", LengthRatio: 0.25, Reference: aero.Reference{Area: 0.7875, Span: 2.15, MeanChord: 0.425},
			Body: stability.Body{Mass: 15, Ix: 1.2, Iy: 1.3, Iz: 2.3}, CGX: 0.975, CGZ: 0.0125,
			Speed: 22, Density: 1.2, Alpha: 0.06, Drag: 0.04, DragByAlpha: 0.25,
		},
	}
}

func byName(results []Result) map[string]Result {
	out := map[string]Result{}
	for _, r := range results {
		out[r.Quantity] = r
	}
	return out
}

// Two roads: the values are those of the linear model with the same derivatives, built by hand.
func TestModesAreThoseOfTheLinearModel(t *testing.T) {
	in := modelForModes()
	a := in.Aircraft
	lift := 2 * a.Body.Mass * 9.80665 / (a.Density * a.Speed * a.Speed * a.Reference.Area)
	want, err := stability.FindModes(aero.Derivatives{
		Reference: a.Reference, MomentPoint: 0.975, MomentZ: 0.0125, Alpha: 0.06,
		At:          aero.Coefficients{Lift: lift, Drag: 0.04},
		ByAlpha:     aero.Coefficients{Lift: 4.4, Drag: 0.25, Pitch: -0.44},
		ByPitchRate: aero.Coefficients{Lift: 3.2, Pitch: -9.5},
		ByBeta:      aero.Coefficients{Side: -0.55, Roll: -0.09, Yaw: 0.06},
		ByRollRate:  aero.Coefficients{Side: -0.05, Roll: -0.45, Yaw: -0.04},
		ByYawRate:   aero.Coefficients{Side: 0.25, Roll: 0.12, Yaw: -0.13},
	}, a.Body, stability.Condition{Density: 1.2, Speed: 22})
	require.NoError(t, err)
	got := byName(Modes(in))
	require.Len(t, got, 9)
	for name, value := range map[string]float64{
		ShortPeriodFrequency: want.ShortPeriod.Frequency, ShortPeriodDamping: want.ShortPeriod.Damping,
		PhugoidFrequency: want.Phugoid.Frequency, PhugoidDamping: want.Phugoid.Damping,
		DutchRollFrequency: want.DutchRoll.Frequency, DutchRollDamping: want.DutchRoll.Damping,
		RollTimeConstant: want.Roll.TimeConstant(), SpiralRoot: want.Spiral.Root,
	} {
		require.NotNil(t, got[name].Value, name)
		require.InEpsilon(t, value, *got[name].Value, 1e-12, name)
		t.Logf("%s %.4f ± %.4f [%.4f, %.4f] %s %v", name, *got[name].Value, *got[name].SD, *got[name].Low, *got[name].High, got[name].State, got[name].Warnings)
	}
}

// A moment derivative was measured in proportion to the inertia, so the error of the inertia cancels at model scale; the full-size
// inertia has an error of its own, and that one does not.
func TestInertiaErrorCancelsAtModelScale(t *testing.T) {
	const model, full = 0.05, 0.03
	in := modelForModes()
	for i, d := range in.Derivatives {
		switch d.Quantity {
		case identify.PitchStiffness, identify.PitchDamping:
			in.Derivatives[i].Common = map[string]float64{source.InertiaY: model * d.Value}
		}
		in.Derivatives[i].SD = 0
	}
	in.Aircraft.Errors.InertiaY = map[string]float64{source.InertiaY: model}
	got := byName(Modes(in))
	require.Less(t, math.Abs(got[ShortPeriodFrequency].Common[source.InertiaY]), 1e-9*(*got[ShortPeriodFrequency].Value))
	require.Less(t, math.Abs(got[ShortPeriodDamping].Common[source.InertiaY]), 1e-9)

	in.Aircraft.Errors.InertiaY = map[string]float64{FullSizeInertiaY: full}
	got = byName(Modes(in))
	f := got[ShortPeriodFrequency]
	// ω² ≈ −M_α − M_q·Z_α/V: half of the relative error of what holds Iy
	require.InEpsilon(t, 0.5*model, f.Common[source.InertiaY] / *f.Value, 0.02)
	require.InEpsilon(t, -0.5*full, f.Common[FullSizeInertiaY] / *f.Value, 0.02)
	require.InEpsilon(t, math.Hypot(f.Common[source.InertiaY], f.Common[FullSizeInertiaY]), *f.SD, 1e-6)
}

// The CG that was reported a little aft of the true one: derivatives moved to one point and back again to the CG as flown lose nothing.
func TestCGErrorCancelsForTheCGAsFlown(t *testing.T) {
	in := modelForModes()
	const off = 0.004
	from := in.derivatives(in.reported())
	// the same aircraft, reported with its CG aft of the true one: derivatives measured about the true CG are taken for those
	// about the reported one and moved back to the common point
	shifted := from
	shifted.MomentPoint += off
	wrong := stability.Moved(shifted, in.MomentX, in.MomentZ)
	common := map[string]float64{
		identify.PitchStiffness: wrong.ByAlpha.Pitch - from.ByAlpha.Pitch, identify.PitchDamping: wrong.ByPitchRate.Pitch - from.ByPitchRate.Pitch,
		identify.LiftByPitchRate:  wrong.ByPitchRate.Lift - from.ByPitchRate.Lift,
		identify.DirectionalStiff: wrong.ByBeta.Yaw - from.ByBeta.Yaw, identify.YawDamping: wrong.ByYawRate.Yaw - from.ByYawRate.Yaw,
		identify.YawDueToRoll: wrong.ByRollRate.Yaw - from.ByRollRate.Yaw, identify.RollDueToYaw: wrong.ByYawRate.Roll - from.ByYawRate.Roll,
		identify.SideForceByYawRate: wrong.ByYawRate.Side - from.ByYawRate.Side,
	}
	for i, d := range in.Derivatives {
		in.Derivatives[i].Common = map[string]float64{source.CG: common[d.Quantity]}
	}
	in.Aircraft.Errors.CG = map[string]float64{source.CG: off}
	for _, r := range Modes(in) {
		if r.Quantity == PhugoidDamping || r.Quantity == SpiralTimeToDouble || r.Quantity == SpiralRoot {
			continue // moving by a derivative at a time leaves drag by rates out
		}
		require.Less(t, math.Abs(r.Common[source.CG]), 2e-4*math.Abs(*r.Value), r.Quantity)
	}
	in.Aircraft.Errors.CG = nil // a CG that is prescribed, at which the error of the derivatives stays
	require.Greater(t, math.Abs(byName(Modes(in))[ShortPeriodFrequency].Common[source.CG]), 0.02)
}

// Intervals of values drawn from the stated errors hold the truth as often as they say.
func TestModeIntervalsCover(t *testing.T) {
	want := byName(Modes(modelForModes()))
	random := rand.New(rand.NewPCG(5, 5))
	trials := 200
	if testing.Short() {
		trials = 40
	}
	hits := map[string]int{}
	for range trials {
		drawn := modelForModes()
		for i := range drawn.Derivatives {
			drawn.Derivatives[i].Value += drawn.Derivatives[i].SD * random.NormFloat64()
		}
		for _, r := range Modes(drawn) {
			if w := want[r.Quantity].Value; w != nil && *w >= *r.Low && *w <= *r.High {
				hits[r.Quantity]++
			}
		}
	}
	slack := 3 * math.Sqrt(0.95*0.05/float64(trials)) // eight quantities are looked at
	for _, name := range slices.Sorted(maps.Keys(hits)) {
		share := float64(hits[name]) / float64(trials)
		t.Logf("%s: %.3f", name, share)
		require.InDelta(t, 0.95, share, slack, name)
	}
	require.Len(t, hits, 8)
}

// A full-size aircraft ballasted to dynamic similarity moves as the model does, slower by the root of the length ratio.
func TestFullSizeOfASimilarAircraft(t *testing.T) {
	in := modelForModes()
	model := byName(Modes(in))
	const k = 4
	a := &in.Aircraft
	a.Scale, a.LengthRatio = "full_size", 1
	a.Reference = aero.Reference{Area: 0.7875 * k * k, Span: 2.15 * k, MeanChord: 0.425 * k}
	a.Body = stability.Body{Mass: 15 * k * k * k, Ix: 1.2 * math.Pow(k, 5), Iy: 1.3 * math.Pow(k, 5), Iz: 2.3 * math.Pow(k, 5)}
	a.CGX, a.CGZ, a.Speed = a.CGX*k, a.CGZ*k, a.Speed*2
	full := byName(Modes(in))
	for name, factor := range map[string]float64{ShortPeriodFrequency: 0.5, ShortPeriodDamping: 1, PhugoidFrequency: 0.5, DutchRollFrequency: 0.5, DutchRollDamping: 1, RollTimeConstant: 2, SpiralRoot: 0.5} {
		require.InEpsilon(t, factor**model[name].Value, *full[name].Value, 1e-9, name)
		require.InEpsilon(t, factor**model[name].SD, *full[name].SD, 1e-3, name)
	}
}

func TestModesSayWhatIsMissingAndBorrowed(t *testing.T) {
	in := modelForModes()
	for i, d := range in.Derivatives {
		if d.Quantity == identify.RollDueToYaw {
			in.Derivatives[i].From = "the vortex lattice"
		}
	}
	got := byName(Modes(in))
	require.Contains(t, got[DutchRollDamping].Warnings, "roll due to yaw was not measured; taken from the vortex lattice")
	require.Empty(t, got[ShortPeriodDamping].Warnings)

	var kept []ModeDerivative
	for _, d := range in.Derivatives {
		if d.Quantity != identify.YawDueToRoll && d.Quantity != identify.LiftByPitchRate {
			kept = append(kept, d)
		}
	}
	in.Derivatives = kept
	got = byName(Modes(in))
	require.Equal(t, NotDetermined, got[DutchRollFrequency].State)
	require.Equal(t, NotDetermined, got[SpiralTimeToDouble].State)
	require.Contains(t, got[DutchRollFrequency].Warnings[0], "Dutch roll not determined, because yaw due to roll was not measured")
	require.Equal(t, Determined, got[ShortPeriodFrequency].State)
	require.Contains(t, got[ShortPeriodFrequency].Warnings[0], "lift by pitch rate was not measured and counted as zero")

	in.Lift = 1.2
	require.Contains(t, byName(Modes(in))[PhugoidFrequency].Warnings[1], "measured at a lift coefficient of 1.20")
	in.Aircraft.Body.Iy = 0
	require.Contains(t, byName(Modes(in))[ShortPeriodFrequency].Warnings[0], "pitch inertia")
	in.Aircraft.Speed = 0
	for _, r := range Modes(in) {
		require.Equal(t, NotDetermined, r.State)
	}
}

// A short period on the brink of not swinging is weak and says so, with an interval from draws; beyond the brink it is not determined.
func TestShortPeriodThatMayNotSwing(t *testing.T) {
	in := modelForModes()
	in.set(identify.PitchStiffness, -0.07, 0.03)
	r := byName(Modes(in))[ShortPeriodFrequency]
	require.Equal(t, Weak, r.State, r.Warnings)
	require.Contains(t, r.Warnings[len(r.Warnings)-1], "takes another character")
	require.NotNil(t, r.Low)
	require.Contains(t, r.Warnings[0], "comes from draws")

	in.set(identify.PitchStiffness, 0.1, 0.02)
	r = byName(Modes(in))[ShortPeriodFrequency]
	require.Equal(t, NotDetermined, r.State)
	require.Contains(t, r.Warnings[0], "short period not determined")
	require.Contains(t, r.Warnings[0], "statically unstable")
}

func (in ModeInput) set(quantity string, value, sd float64) {
	for i, d := range in.Derivatives {
		if d.Quantity == quantity {
			in.Derivatives[i].Value, in.Derivatives[i].SD = value, sd
		}
	}
}

func TestTimeToDouble(t *testing.T) {
	root := func(value, low, high float64) Result {
		sd := (high - low) / 4
		return Result{Quantity: SpiralRoot, State: Determined, Value: &value, SD: &sd, SDOwn: &sd, Low: &low, High: &high, Common: map[string]float64{"a": 0.001}}
	}
	r := timeToDouble(root(0.05, 0.03, 0.07))
	require.InEpsilon(t, 13.863, *r.Value, 1e-4) // ln 2/0.05
	require.InEpsilon(t, math.Ln2/0.07, *r.Low, 1e-12)
	require.InEpsilon(t, math.Ln2/0.03, *r.High, 1e-12)
	require.InEpsilon(t, -13.863/0.05*0.001, r.Common["a"], 1e-4)
	r = timeToDouble(root(0.02, -0.02, 0.06))
	require.NotNil(t, r.Value)
	require.Nil(t, r.High)
	require.Contains(t, r.Warnings[0], "no longest time")
	r = timeToDouble(root(-0.03, -0.08, 0.02))
	require.Nil(t, r.Value)
	require.InEpsilon(t, 34.657, *r.Low, 1e-4)
	require.Contains(t, r.Warnings[0], "may double in 35 s and more")
	r = timeToDouble(root(-0.05, -0.08, -0.02))
	require.Nil(t, r.Low)
	require.Contains(t, r.Warnings[0], "dies out")
}

// The same input gives the same bytes, and few flights give wider intervals.
func TestModesRepeatAndStretch(t *testing.T) {
	in := modelForModes()
	require.Equal(t, Modes(in), Modes(in))
	wide := modelForModes()
	wide.Degrees = 3
	a, b := byName(Modes(in))[DutchRollFrequency], byName(Modes(wide))[DutchRollFrequency]
	require.InEpsilon(t, statistic.StudentQuantile(3)/statistic.Normal975, (*b.High-*b.Low)/(*a.High-*a.Low), 0.05)
}
