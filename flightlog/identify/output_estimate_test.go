package identify

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/stability"
	"wingproof/flightlog"
	"wingproof/flightlog/source"
)

// derivative finds one by name.
func derivative(t *testing.T, fit Fit, name string) Derivative {
	t.Helper()
	for _, d := range fit.Derivatives {
		if d.Quantity == name {
			return d
		}
	}
	t.Fatalf("no %s in %v", name, fit.Derivatives)
	return Derivative{}
}

// Two CGs, one of them off in height too, in one fit about a third point: the transfer of every sample here against the transfer of
// derivatives in package stability, by which the two aircraft were made.
func TestSegmentsOfDifferentCGs(t *testing.T) {
	m, alpha, speed := publishedCessna()
	m.d.Alpha, m.d.At.Drag, m.bank = alpha, dragAtZero.mean, dragByLiftSquared.mean
	pressure := 0.5 * m.density * speed * speed * m.d.Reference.Area
	m.body.Mass = pressure * m.d.At.Lift / 9.80665
	still := map[flightlog.Quantity]Servo{flightlog.Elevator: {}, flightlog.Aileron: {}, flightlog.RudderLeft: {}}
	setup := Setup{Reference: m.d.Reference, MomentX: 0.02, MomentZ: 0.01, Servos: still}
	var along, across []Segment
	for _, cg := range [][2]float64{{0.06, 0}, {-0.04, 0.05}} {
		moved := m
		moved.d = stability.Moved(m.d, cg[0], cg[1])
		moved.body.Mass *= 1 + cg[0]
		moved.inputs = func(time float64) (e, a, r float64) { return stick(time, 1, 0.8, 0.02), 0, 0 }
		along = append(along, moved.segment(alpha, speed, 8, 0.01, flightlog.Elevator))
		moved.inputs = func(time float64) (e, a, r float64) { return 0, stick(time, 1, 0.9, 0.04), stick(time, 4, 1.3, 0.06) }
		across = append(across, moved.segment(alpha, speed, 10, 0.01, flightlog.Aileron))
	}
	want := truthOf(stability.Moved(m.d, setup.MomentX, setup.MomentZ))
	for axis, segments := range map[Axis][]Segment{Longitudinal: along, Lateral: across} {
		fit, err := Estimate(segments, axis, setup)
		require.NoError(t, err)
		for _, d := range fit.Derivatives {
			scale := math.Max(math.Abs(want[d.Quantity]), usualSize(d.Quantity))
			t.Logf("%-26s %9.5f, derivatives moved %9.5f", d.Quantity, d.Value, want[d.Quantity])
			require.InDelta(t, want[d.Quantity], d.Value, 0.02*scale, d.Quantity) // that transfer is linear in angles, this one is not
		}
	}
}

// Two roads to what a shared error does: one step from the fit, and the whole fit again with other figures.
func TestSharedErrorsAgainstFittingAgain(t *testing.T) {
	for _, axis := range []Axis{Longitudinal, Lateral} {
		segments, ac := studySegments(t, axis, 0.2, 25, 5)
		setup := setupOf(ac)
		setup.Errors = Errors{Mounting: 0.005, AirspeedScale: 0.01, Mass: 0.01, Density: 0.02, CG: 0.003, InertiaX: 0.02, InertiaY: 0.02, InertiaZ: 0.02, ElevatorScale: 0.02, AileronScale: 0.02, RudderScale: 0.02}
		for control, s := range setup.Servos {
			s.LagSD = 0.005
			setup.Servos[control] = s
		}
		fit, err := Estimate(segments, axis, setup)
		require.NoError(t, err)
		again := map[string]func(s *Segment, u *Setup){
			source.AirspeedScale: func(s *Segment, _ *Setup) {
				s.Airspeed = mapped(s.Airspeed, func(v float64) float64 { return v * 1.01 })
			},
			source.Alpha:    func(s *Segment, _ *Setup) { *s = *s.turned(0.005) },
			source.Mass:     func(s *Segment, _ *Setup) { s.Body.Mass *= 1.01 },
			source.CG:       func(s *Segment, _ *Setup) { s.CGX += 0.003 },
			source.InertiaX: func(s *Segment, _ *Setup) { s.Body.Ix *= 1.02 },
			source.InertiaY: func(s *Segment, _ *Setup) { s.Body.Iy *= 1.02 },
			source.ElevatorScale: func(s *Segment, _ *Setup) {
				s.Elevator = mapped(s.Elevator, func(v float64) float64 { return v * 1.02 })
			},
			source.RudderScale:             func(s *Segment, _ *Setup) { s.Rudder = mapped(s.Rudder, func(v float64) float64 { return v * 1.02 }) },
			source.Lag(flightlog.Elevator): func(_ *Segment, u *Setup) { u.later(flightlog.Elevator, 0.005) },
			source.Lag(flightlog.Aileron):  func(_ *Segment, u *Setup) { u.later(flightlog.Aileron, 0.005) },
		}
		for name, change := range again {
			other, moved := setup, append([]Segment(nil), segments...)
			for i := range moved {
				change(&moved[i], &other)
			}
			refit, err := Estimate(moved, axis, other)
			require.NoError(t, err)
			for i, d := range fit.Derivatives {
				difference := refit.Derivatives[i].Value - d.Value
				require.InDelta(t, difference, d.Common[name], 0.15*math.Abs(difference)+0.15*d.SD, "%s by %s", d.Quantity, name)
			}
		}
	}
}

// later sets one servo's delay anew, from what all segments share.
func (u *Setup) later(control flightlog.Quantity, by float64) {
	servos := map[flightlog.Quantity]Servo{}
	for c, s := range u.Servos {
		servos[c] = s
	}
	s := servos[control]
	s.Lag = 0.04 + by // called once for each segment
	servos[control] = s
	u.Servos = servos
}

// The laws that hold whatever was flown.
func TestSharedErrorsScale(t *testing.T) {
	segments, ac := studySegments(t, Longitudinal, 0.2, 25, 6)
	setup := setupOf(ac)
	setup.Errors = Errors{AirspeedScale: 0.01, Mass: 0.01, CG: 0.003, InertiaY: 0.01, ElevatorScale: 0.01}
	fit, err := Estimate(segments, Longitudinal, setup)
	require.NoError(t, err)
	slope, stiffness, power := derivative(t, fit, LiftCurveSlope), derivative(t, fit, PitchStiffness), derivative(t, fit, ElevatorPower)
	require.InEpsilon(t, 0.01*stiffness.Value, stiffness.Common[source.InertiaY], 0.02, "a moment is inertia times what was measured")
	require.InEpsilon(t, 0.01*power.Value, power.Common[source.InertiaY], 0.02)
	require.InEpsilon(t, 0.01*slope.Value, slope.Common[source.Mass], 0.05, "a force is mass times what was measured")
	require.InEpsilon(t, -0.01*power.Value, power.Common[source.ElevatorScale], 0.02, "per angle that was reported too large")
	require.InEpsilon(t, -0.02*stiffness.Value, stiffness.Common[source.AirspeedScale], 0.25, "dynamic pressure goes with the square")
	require.InEpsilon(t, -0.02*slope.Value, slope.Common[source.AirspeedScale], 0.25)
	require.InEpsilon(t, -slope.Value*0.003/setup.Reference.MeanChord, stiffness.Common[source.CG], 0.05, "lift acts so much farther aft of the moment point than was thought")
	require.NotContains(t, slope.Common, source.RudderScale)
}

// Where nobody knows how the elevator follows, damping is not given out, and the rest with a wider interval.
func TestServoNotKnown(t *testing.T) {
	segments, ac := studySegments(t, Longitudinal, 0.2, 25, 7)
	setup := setupOf(ac)
	known, err := Estimate(segments, Longitudinal, setup)
	require.NoError(t, err)
	setup.Servos = nil
	fit, err := Estimate(segments, Longitudinal, setup)
	require.NoError(t, err)
	damping := derivative(t, fit, PitchDamping)
	require.False(t, damping.Determined)
	require.Contains(t, damping.Why, "bench")
	require.Zero(t, fit.Covariance[4][4])
	truth := truths(ac, setup)
	for _, name := range []string{LiftCurveSlope, PitchStiffness, ElevatorPower} {
		d, before := derivative(t, fit, name), derivative(t, known, name)
		require.True(t, d.Determined, d.Why)
		require.GreaterOrEqual(t, d.SD, 0.999*before.SD, name)
		require.InDelta(t, truth[name], d.Value, 4*d.SD, name)
	}
	require.Greater(t, damping.SD, derivative(t, known, PitchDamping).SD)
}

func TestInertiaNotMeasured(t *testing.T) {
	segments, ac := studySegments(t, Longitudinal, 0.2, 25, 8)
	for i := range segments {
		segments[i].Body.Iy = 0
	}
	fit, err := Estimate(segments, Longitudinal, setupOf(ac))
	require.NoError(t, err)
	stiffness, slope := derivative(t, fit, PitchStiffness), derivative(t, fit, LiftCurveSlope)
	require.False(t, stiffness.Determined)
	require.Contains(t, stiffness.Why, "swing")
	require.True(t, slope.Determined, slope.Why)
	require.InDelta(t, 4.4, slope.Value, 4*slope.SD)
}

func TestControlNotMoved(t *testing.T) {
	segments, ac := studySegments(t, Lateral, 0.2, 25, 9)
	fit, err := Estimate(segments[:4], Lateral, setupOf(ac)) // ailerons only
	require.NoError(t, err)
	power := derivative(t, fit, RudderPower)
	require.False(t, power.Determined)
	require.Contains(t, power.Why, "rudder")
	damping := derivative(t, fit, RollDamping)
	require.True(t, damping.Determined, damping.Why)
	require.InDelta(t, -0.45, damping.Value, 4*damping.SD)
}

func TestEstimateRefuses(t *testing.T) {
	segments, ac := studySegments(t, Longitudinal, 0, 25, 1)
	setup := setupOf(ac)
	_, err := Estimate(nil, Longitudinal, setup)
	require.Error(t, err)
	_, err = Estimate(segments, "sideways", setup)
	require.ErrorContains(t, err, "longitudinal")
	short := segments[0]
	short.Roll = short.Roll[1:]
	_, err = Estimate([]Segment{short}, Longitudinal, setup)
	require.ErrorContains(t, err, "roll and pitch angle")
}

func TestEstimateRepeats(t *testing.T) {
	segments, ac := studySegments(t, Lateral, 0.3, 25, 2)
	first, err := Estimate(segments, Lateral, setupOf(ac))
	require.NoError(t, err)
	second, err := Estimate(segments, Lateral, setupOf(ac))
	require.NoError(t, err)
	require.Equal(t, first, second)
	require.Len(t, first.Histories, len(segments))
	h := first.Histories[0]
	require.Equal(t, flightlog.Aileron, h.Control)
	require.Len(t, h.Input, len(segments[0].RollRate))
	require.Equal(t, segments[0].RollRate, h.Signals[0].Measured)
}
