package identify

import (
	"flag"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
	"wingproof/flightlog/source"
)

var equationSeeds = flag.Int("equation-seeds", 16, "rehearsed programmes in the coverage study of equation error")

// perfect is a quick recorder without errors.
func perfect() rehearse.Instruments {
	return rehearse.Instruments{FastRate: 100, AirRate: 100, SatelliteRate: 5}
}

// programme is one flight of elevator inputs, or one of rudder and one of aileron inputs.
func programme(t testing.TB, ac rehearse.Aircraft, axis Axis, w rehearse.Weather, ins rehearse.Instruments, seed uint64) []Segment {
	t.Helper()
	if axis == Longitudinal {
		return flownCards(t, ac, inputCards(ac, "elevator", 0.05), w, ins, seed).segments()
	}
	return append(flownCards(t, ac, inputCards(ac, "rudder", 0.14), w, ins, seed).segments(),
		flownCards(t, ac, inputCards(ac, "aileron", 0.07), w, ins, 1000+seed).segments()...)
}

// Smoothing keeps straight lines; the slope of a smoothed parabola is that of the parabola.
func TestKernelKeepsLinesAndSlopes(t *testing.T) {
	const step = 0.04
	k := newKernel(step)
	var line, parabola []float64
	for i := range 40 {
		at := float64(i) * step
		line, parabola = append(line, 3-2*at), append(parabola, 5+at*at)
	}
	smooth, slope := k.value(line), k.slope(parabola, step)
	require.Len(t, smooth, 40-2*k.margin())
	require.Len(t, slope, len(smooth))
	for i := range smooth {
		at := float64(i+k.margin()) * step
		require.InDelta(t, 3-2*at, smooth[i], 1e-12)
		require.InDelta(t, 2*at, slope[i], 1e-10)
	}
}

// Without noise the derivatives come out about any moment point, whatever the CG: the transfer of samples here against the transfer of
// derivatives in package stability. What is left is the integration of the rehearsal, which holds surfaces for a hundredth of a second.
func TestEquationErrorIsExactWithoutNoise(t *testing.T) {
	for _, shift := range []float64{0, 0.06} {
		ac := rehearse.ExampleAircraft()
		setup := setupOf(ac)
		setup.MomentX += shift
		for _, axis := range []Axis{Longitudinal, Lateral} {
			if axis == Lateral { // along, forces and so the moments of a shift in height depend on the lift that is flown
				setup.MomentZ -= shift / 2
			}
			want := truths(ac, setup)
			segments := programme(t, ac, axis, rehearse.Weather{}, perfect(), 1)
			for _, run := range []func([]Segment, Axis, Setup) (Fit, error){EquationError, EquationErrorSpectrum} {
				fit, err := run(segments, axis, setup)
				require.NoError(t, err)
				for _, d := range fit.Derivatives {
					scale := math.Max(math.Abs(want[d.Quantity]), usualSize(d.Quantity)/2)
					require.InDelta(t, want[d.Quantity], d.Value, 0.04*scale, "%s, %s, moment point %g m aft", d.Quantity, fit.Method, shift)
					require.True(t, d.Determined, d.Why)
				}
				require.InDelta(t, 0.5, fit.LiftCoefficient, 0.1)
				require.Equal(t, setup.MomentX, fit.MomentX)
			}
		}
	}
}

func usualSize(quantity string) float64 {
	for _, axis := range []Axis{Longitudinal, Lateral} {
		for _, e := range axisResponses(axis) {
			for j, name := range e.names {
				if name == quantity {
					return e.usual[j]
				}
			}
		}
	}
	if quantity == PitchByAlphaRate {
		return usualAlphaRate
	}
	return 0
}

// Intervals hold the truth: with noise and gusts, angles known, over programmes whose seeds were fixed beforehand. Bounds are those of the
// small numbers flown here; the table shows the figures.
func TestEquationErrorCovers(t *testing.T) {
	ac := rehearse.ExampleAircraft()
	setup := setupOf(ac)
	want := truths(ac, setup)
	for _, axis := range []Axis{Longitudinal, Lateral} {
		tallies := map[string]*tally{}
		var order []string
		for seed := range uint64(*equationSeeds) {
			segments := programme(t, ac, axis, rehearse.DefaultWeather(), rehearse.DefaultInstruments(), 1+seed)
			for _, run := range []func([]Segment, Axis, Setup) (Fit, error){EquationError, EquationErrorSpectrum} {
				fit, err := run(segments, axis, setup)
				require.NoError(t, err)
				for _, d := range fit.Derivatives {
					name := fit.Method + " " + d.Quantity
					if tallies[name] == nil {
						tallies[name], order = &tally{}, append(order, name)
					}
					tallies[name].add(d.Value, d.SD, want[d.Quantity])
				}
			}
		}
		pooled, n := 0.0, 0.0
		for _, name := range order {
			mean, sd, covered, bias, width := tallies[name].figures()
			t.Logf("%-52s bias %8.4f sd %7.4f (value − truth)/sd %5.2f ± %4.2f covered %3.0f %%", name, bias, width, mean, sd, 100*covered)
			require.Less(t, math.Abs(mean), 1.5, name)
			require.Less(t, sd, 1.7, name)
			require.Greater(t, sd, 0.4, name)
			pooled, n = pooled+covered, n+1
		}
		require.InDelta(t, 0.93, pooled/n, 0.05, axis)
	}
}

// Errors of what all segments share, against what the formulas of the coefficients say.
func TestSharedErrorsOfEquationError(t *testing.T) {
	ac := rehearse.ExampleAircraft()
	setup := setupOf(ac)
	setup.Errors = Errors{AirspeedScale: 0.01, Mass: 0.02, Density: 0.01, CG: 0.002, InertiaY: 0.03, ElevatorScale: 0.02}
	servo := setup.Servos[flightlog.Elevator]
	servo.LagSD = 0.01
	setup.Servos[flightlog.Elevator] = servo
	fit, err := EquationError(programme(t, ac, Longitudinal, rehearse.Weather{}, perfect(), 1), Longitudinal, setup)
	require.NoError(t, err)
	by := map[string]Derivative{}
	for _, d := range fit.Derivatives {
		by[d.Quantity] = d
	}
	lift, stiffness, power := by[LiftCurveSlope], by[PitchStiffness], by[ElevatorPower]
	near := func(want, got, tol float64) {
		t.Helper()
		require.InEpsilon(t, want, got, tol)
	}
	near(0.02*lift.Value, lift.Common[source.Mass], 0.02)
	near((math.Pow(1.01, -2)-1)*lift.Value, lift.Common[source.AirspeedScale], 0.02)
	near(0.03*stiffness.Value, stiffness.Common[source.InertiaY], 1e-4) // but for what roll and yaw do to pitch
	near((1/1.02-1)*power.Value, power.Common[source.ElevatorScale], 1e-4)
	near(-0.002/setup.Reference.MeanChord*lift.Value, stiffness.Common[source.CG], 0.1) // reported aft, so the moments that are moved ahead are more nose down
	require.NotContains(t, lift.Common, source.InertiaY)
	require.NotContains(t, lift.Common, source.InertiaX)
	require.Contains(t, by[PitchDamping].Common, source.Lag(flightlog.Elevator))
	require.Less(t, math.Abs(by[PitchDamping].Common[source.Lag(flightlog.Elevator)]), 1.0, "the times of edges are free, and with them the delay")
}

// An unequal CG in each flight moves nothing: all are carried to one moment point.
func TestFlightsOfDifferentBalancePool(t *testing.T) {
	var segments []Segment
	setup := setupOf(rehearse.ExampleAircraft())
	for k, cg := range []float64{3.8, 3.95} {
		ac := rehearse.ExampleAircraft()
		ac.CGX = cg
		segments = append(segments, programme(t, ac, Longitudinal, rehearse.Weather{}, perfect(), uint64(k+1))...)
	}
	fit, err := EquationError(segments, Longitudinal, setup)
	require.NoError(t, err)
	want := truths(rehearse.ExampleAircraft(), setup)
	for _, d := range fit.Derivatives {
		require.InEpsilon(t, want[d.Quantity], d.Value, 0.03, d.Quantity)
	}
	require.Equal(t, []string{"F01", "F02"}, fit.Flights)
	require.Equal(t, 8, fit.Segments)
	require.Empty(t, fit.Warnings)
}

// The histories show each segment measured and fitted, and the surface behind its servo.
func TestHistoriesOfEquationError(t *testing.T) {
	ac := rehearse.ExampleAircraft()
	segments := programme(t, ac, Longitudinal, rehearse.Weather{}, rehearse.DefaultInstruments(), 1)
	fit, err := EquationError(segments, Longitudinal, setupOf(ac))
	require.NoError(t, err)
	require.Len(t, fit.Histories, len(segments))
	h := fit.Histories[0]
	require.Equal(t, "lift_coefficient", h.Signals[0].Name)
	require.Equal(t, "pitching_moment_coefficient", h.Signals[1].Name)
	require.Len(t, h.Input, len(h.Signals[1].Fitted))
	require.Greater(t, h.Start, segments[0].Start)
	for _, s := range h.Signals {
		scatter := 0.0
		for i := range s.Fitted {
			scatter += math.Pow(s.Fitted[i]-s.Measured[i], 2)
		}
		own := centred([][]float64{s.Measured})[0]
		require.Less(t, scatter, 0.1*inner(own, own), s.Name)
	}
}
