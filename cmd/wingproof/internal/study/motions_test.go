package study

import (
	"maps"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero"
	"wingproof/aero/atmosphere"
	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/flightlog/estimate"
)

// swung is the invented program with inertias, predicted, and a loading in flight.
func swung(t *testing.T) (*Study, Configuration, decide.Flown) {
	t.Helper()
	p := invented(t)
	figure := func(v float64) program.Figure { return program.Figure{Value: v, SD: 0.08 * v, Status: "estimated"} }
	p.FullSize.Ix, p.FullSize.Iy, p.FullSize.Iz = figure(1150), figure(1420), figure(2450)
	s := studied(t, p, Predicted)
	c := s.Configurations[0]
	return s, c, decide.Flown{Mass: 800, CG: c.NeutralPoint - 0.2*c.Airframe.Reference.MeanChord, Ix: 1150, Iy: 1420, Iz: 2450}
}

func motionsOf(t *testing.T, s *Study, c Configuration, beliefs map[string]float64, in decide.Flown) map[string]float64 {
	t.Helper()
	out, err := s.motions()(c.Levels, beliefs, in)
	require.NoError(t, err)
	for quantity, v := range out {
		require.False(t, math.IsNaN(v) || math.IsInf(v, 0), quantity)
	}
	return out
}

// Two roads: the lattice's derivatives moved to the CG and put into the matrices directly.
func TestMotionsAreThoseOfTheLattice(t *testing.T) {
	s, c, in := swung(t)
	air, err := atmosphere.Standard(s.Program.FullSize.CruiseAltitude)
	require.NoError(t, err)
	ref := c.Airframe.Reference
	d := stability.Moved(c.Derivatives, in.CG, c.Derivatives.MomentZ)
	d.Alpha, d.At = c.TrimAlpha, aero.Coefficients{Lift: PredictionLift, Drag: usualZeroLiftDrag + c.InducedDrag}
	d.ByAlpha.Drag = 2 * c.InducedDrag / PredictionLift * c.LiftSlope
	speed := math.Sqrt(2 * in.Mass * atmosphere.Gravity / (air.Density * ref.Area * PredictionLift))
	m, err := stability.FindModes(d, stability.Body{Mass: in.Mass, Ix: in.Ix, Iy: in.Iy, Iz: in.Iz}, stability.Condition{Density: air.Density, Speed: speed})
	require.NoError(t, err)
	require.NotNil(t, m.DutchRoll)
	got := motionsOf(t, s, c, nil, in)
	require.InEpsilon(t, m.DutchRoll.Frequency, got[evidence.DutchRollFrequency], 2e-3)
	require.InEpsilon(t, m.DutchRoll.Damping, got[evidence.DutchRollDamping], 0.02)
	require.InEpsilon(t, m.Roll.TimeConstant(), got[evidence.RollTimeConstant], 2e-3)
	require.InDelta(t, m.Spiral.Root, got[evidence.SpiralRate], 2e-3)
	require.NotNil(t, m.ShortPeriod)
	require.InEpsilon(t, m.ShortPeriod.Damping, got[evidence.ShortPeriodDamping], 0.01)
	// In level flight n/α is CL_α/CL.
	require.InEpsilon(t, m.ShortPeriod.Frequency*m.ShortPeriod.Frequency/(c.LiftSlope/PredictionLift), got[evidence.ControlAnticipation], 0.01)
	require.InEpsilon(t, m.Phugoid.Damping, got[evidence.PhugoidDamping], 0.02)
	// Lanchester's phugoid, from memory: ζ = CD/(CL√2), within what it leaves out.
	require.InEpsilon(t, (usualZeroLiftDrag+c.InducedDrag)/(PredictionLift*math.Sqrt2), got[evidence.PhugoidDamping], 0.4)
}

// Beliefs that say what is predicted change nothing, and each of them is heeded.
func TestMotionsHeedBeliefs(t *testing.T) {
	s, c, in := swung(t)
	p := c.prediction()
	s.Program.Limits = append(s.Program.Limits, program.Limit{Quantity: evidence.PhugoidDamping})
	s.believeMotions(c, &p)
	plain := motionsOf(t, s, c, nil, in)
	same := motionsOf(t, s, c, p.Values, in)
	for quantity, v := range plain {
		require.InDelta(t, v, same[quantity], 1e-9*math.Max(1, math.Abs(v)), quantity)
	}
	for _, quantity := range append(motionDerivatives(), evidence.NeutralPoint, evidence.LiftCurveSlope, evidence.DirectionalStiffness, evidence.ZeroLiftDrag) {
		beliefs := maps.Clone(p.Values)
		require.Contains(t, beliefs, quantity)
		beliefs[quantity] *= 1.05
		require.NotEqual(t, same, motionsOf(t, s, c, beliefs, in), quantity)
	}
	beliefs := maps.Clone(p.Values)
	beliefs[evidence.RollDamping] *= 2 // τ = 1/|L_p| nearly
	require.InEpsilon(t, same[evidence.RollTimeConstant]/2, motionsOf(t, s, c, beliefs, in)[evidence.RollTimeConstant], 0.1)
	beliefs = maps.Clone(p.Values)
	beliefs[evidence.DirectionalStiffness] *= 4 // ω² = N_β nearly
	require.InEpsilon(t, 2*same[evidence.DutchRollFrequency], motionsOf(t, s, c, beliefs, in)[evidence.DutchRollFrequency], 0.2)
}

// By hand: ω² = q·S·CL_α·Δx/Iy and n/α = q·S·CL_α/W, so that control anticipation falls by W/Iy for each metre that the CG goes aft, and rises
// alike with the neutral point; what the phugoid couples in, and that damping in pitch changes a little with the CG, is left out of that.
func TestControlAnticipationFollowsTheMargin(t *testing.T) {
	s, c, in := swung(t)
	const step = 0.05
	want := in.Mass * atmosphere.Gravity / in.Iy * step
	forward, middle := in, motionsOf(t, s, c, nil, in)
	forward.CG -= step
	require.InEpsilon(t, want, motionsOf(t, s, c, nil, forward)[evidence.ControlAnticipation]-middle[evidence.ControlAnticipation], 0.1)
	aft := map[string]float64{evidence.NeutralPoint: c.NeutralPoint + step}
	require.InEpsilon(t, want, motionsOf(t, s, c, aft, in)[evidence.ControlAnticipation]-middle[evidence.ControlAnticipation], 0.1)

	behind := in
	behind.CG = c.NeutralPoint + 0.5*c.Airframe.Reference.MeanChord
	unstable := motionsOf(t, s, c, nil, behind)
	require.Negative(t, unstable[evidence.ShortPeriodDamping])
	require.Negative(t, unstable[evidence.ControlAnticipation])
}

// A belief on directional stiffness is about StiffnessCG: about a CG further forward the side force adds −CY_β·Δx/b to it.
func TestLateralBeliefsAreAboutTheStiffnessCG(t *testing.T) {
	s, c, _ := swung(t)
	d := s.motionBase(c).with(map[string]float64{evidence.DirectionalStiffness: 0.1, evidence.SideForceSlope: -0.5, evidence.YawDamping: -0.2, evidence.YawDueToRoll: -0.03})
	require.Equal(t, c.StiffnessCG, d.MomentPoint)
	require.Equal(t, []float64{0.1, -0.5, -0.2, -0.03}, []float64{d.ByBeta.Yaw, d.ByBeta.Side, d.ByYawRate.Yaw, d.ByRollRate.Yaw})
	there := stability.Moved(d, c.StiffnessCG-0.2, d.MomentZ)
	require.InDelta(t, 0.1+0.5*0.2/d.Reference.Span, there.ByBeta.Yaw, 1e-12)
}

func TestMotionsRefuse(t *testing.T) {
	s, c, in := swung(t)
	_, err := s.motions()(map[string]string{"winglet": "none such"}, nil, in)
	require.ErrorContains(t, err, "no such configuration")
	in.Iy = 0
	_, err = s.motions()(c.Levels, nil, in)
	require.ErrorContains(t, err, "pitch inertia")
}

// Without inertias the derivatives serve nothing, and are not handed on; zero-lift drag only where a limit asks for the phugoid.
func TestDerivativesAreBelievedWhereMotionsCanBeJudged(t *testing.T) {
	s, c, _ := swung(t)
	p := c.prediction()
	s.believeMotions(c, &p)
	for _, quantity := range motionDerivatives() {
		require.Contains(t, p.Values, quantity)
	}
	require.NotContains(t, p.Values, evidence.ZeroLiftDrag)
	require.InDelta(t, c.DirectionalStiffness, p.Values[evidence.DirectionalStiffness], 0)
	s.Program.Limits = []program.Limit{{Quantity: evidence.PhugoidDamping}}
	s.believeMotions(c, &p)
	require.Equal(t, usualZeroLiftDrag, p.Values[evidence.ZeroLiftDrag])
	require.InDelta(t, 0.3*0.025, p.Doubt[evidence.ZeroLiftDrag], 1e-15)

	s.Program.FullSize.Iy = program.Figure{}
	p = c.prediction()
	s.believeMotions(c, &p)
	require.NotContains(t, p.Values, evidence.YawDamping)
	require.NotContains(t, p.Values, evidence.ZeroLiftDrag)
}

func TestZeroLiftDragForThePhugoid(t *testing.T) {
	told := func(name string, v float64) Fit {
		return Fit{Configuration: name, ZeroLiftDrag: estimate.Result{State: estimate.Determined, Value: &v}}
	}
	s := &Study{}
	require.Equal(t, usualZeroLiftDrag, s.zeroLiftDrag(Configuration{Name: "a"}))
	s.Fits = []Fit{told("a", 0.03), told("b", 0.04)}
	require.Equal(t, 0.03, s.zeroLiftDrag(Configuration{Name: "a"}))
	require.InDelta(t, 0.035, s.zeroLiftDrag(Configuration{Name: "c"}), 1e-15)
	s.Fits[0].ZeroLiftDrag.State = estimate.Weak
	require.Equal(t, 0.04, s.zeroLiftDrag(Configuration{Name: "a"}))
}

// Determined derivatives go to the judging with all their errors, and nothing that is weak or rests on a stabilised flight.
func TestDerivativesFromFlightsForTheJudging(t *testing.T) {
	s, c, _ := swung(t)
	result := func(quantity, state string, v, sd float64) estimate.Result {
		return estimate.Result{Quantity: quantity, State: state, Value: &v, SDOwn: &sd, Common: map[string]float64{"airspeed_scale": 0.01}, Degrees: 4,
			Flights: []string{"F1", "F2"}, Power: "level", Lift: 0.6}
	}
	f := Fit{Configuration: c.Name, Levels: c.Levels, Manoeuvres: []estimate.Result{
		result(evidence.RollDamping, estimate.Determined, -0.4, 0.02), result(evidence.YawDueToRoll, estimate.Determined, -0.05, 0.01),
		result(evidence.YawDamping, estimate.Weak, -0.1, 0.01), result("rudder_power", estimate.Determined, -0.04, 0.01),
		result(evidence.DihedralEffect, estimate.Determined, -0.1, 0.01), // roads say it together
	}, Agreements: []estimate.Agreement{{Pooled: result(evidence.DihedralEffect, estimate.Determined, -0.09, 0.006)}}}
	s.Fits = []Fit{f}
	got := map[string]decide.Direct{}
	for _, d := range s.motionEvidence() {
		require.NotContains(t, got, d.Quantity)
		got[d.Quantity] = d
	}
	require.Len(t, got, 3)
	roll := got[evidence.RollDamping]
	require.Equal(t, decide.Direct{Levels: c.Levels, Quantity: evidence.RollDamping, Value: -0.4, SDOwn: 0.02, Common: map[string]float64{"airspeed_scale": 0.01},
		Degrees: 4, Flights: []string{"F1", "F2"}, Power: "level"}, roll)
	require.Equal(t, -0.09, got[evidence.DihedralEffect].Value)
	// Half of 0.05·(0.6/0.5 − 1) = 0.005, with the sign of the number: it may grow with lift in full or not at all.
	require.InDelta(t, -0.005, got[evidence.YawDueToRoll].Common["lift coefficient of the flights"], 1e-12)

	s.Fits[0].Stabilised = []string{"flight F1: a stabiliser moved the ailerons"}
	require.Empty(t, s.motionEvidence())
	s.Fits[0].Stabilised = nil
	s.Program.FullSize.Ix = program.Figure{}
	require.Empty(t, s.motionEvidence())
}

// An override states percent: of 1 for what may be about zero, of the chord for the neutral point, of the value for the rest.
func TestOverriddenErrorsOfDerivatives(t *testing.T) {
	s, c, _ := swung(t)
	chord := c.Airframe.Reference.MeanChord
	for _, quantity := range []string{evidence.YawDueToRoll, evidence.YawDamping, evidence.NeutralPoint} {
		s.Program.TheoryErrors = append(s.Program.TheoryErrors, program.TheoryError{Quantity: quantity, Bias: 0.03, FullSize: map[string]float64{"power": 0.01}, Source: "a guess"})
	}
	byName := map[string]decide.TheoryError{}
	for _, e := range TheoryErrors(s.Program, chord) {
		byName[e.Quantity] = e
	}
	require.Equal(t, 0.03, byName[evidence.YawDueToRoll].Bias)
	require.False(t, byName[evidence.YawDueToRoll].Relative)
	require.Equal(t, 0.03, byName[evidence.YawDamping].Bias)
	require.True(t, byName[evidence.YawDamping].Relative)
	require.InDelta(t, 0.03*chord, byName[evidence.NeutralPoint].Bias, 1e-15)
	require.InDelta(t, 0.01*chord, byName[evidence.NeutralPoint].FullSize["power"], 1e-15)
}

func BenchmarkMotions(b *testing.B) {
	s := &Study{Program: &program.Program{}}
	s.Configurations = []Configuration{{Name: evidence.Name(nil), LiftSlope: 4.9, NeutralPoint: 4.1, StiffnessCG: 3.95, InducedDrag: 0.012, Derivatives: aero.Derivatives{
		Reference: aero.Reference{Area: 11, Span: 8.6, MeanChord: 1.4}, MomentPoint: 3.85, Alpha: 0.05, At: aero.Coefficients{Lift: 0.5},
		ByAlpha: aero.Coefficients{Lift: 4.9, Pitch: -0.9}, ByPitchRate: aero.Coefficients{Lift: 5, Pitch: -9},
		ByBeta: aero.Coefficients{Side: -0.4, Roll: -0.09, Yaw: 0.08}, ByRollRate: aero.Coefficients{Roll: -0.45, Yaw: -0.04}, ByYawRate: aero.Coefficients{Roll: 0.12, Yaw: -0.12}}}}
	motions := s.motions()
	beliefs := map[string]float64{evidence.NeutralPoint: 4.12, evidence.LiftCurveSlope: 4.8, evidence.YawDamping: -0.13}
	in := decide.Flown{Mass: 850, CG: 3.9, Ix: 1150, Iy: 1420, Iz: 2450}
	for b.Loop() {
		if _, err := motions(nil, beliefs, in); err != nil {
			b.Fatal(err)
		}
	}
}
