package estimate

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// foremostLift is that of the foremost CG.
func foremostLift(stalls []Stall, s Systematics, pooled *Scatter) (lift, alpha Result) {
	lifts, alphas := MaximumLifts(stalls, s, pooled)
	return lifts[0], alphas[0]
}

// Weighings differ by millimetres: the same place. An order of stalls has no say.
func TestMaximumLiftsGoByCG(t *testing.T) {
	stalls := exactStalls(canard(), []float64{2.42, 2.301, 2.3, 2.425})
	lifts, _ := MaximumLifts(stalls, Systematics{}, nil)
	require.Len(t, lifts, 2)
	near(t, lifts[0].CG, 2.3005, 1e-12, "mean of both weighings")
	near(t, lifts[1].CG, 2.4225, 1e-12, "mean of both weighings")
	require.Equal(t, []string{"F01", "F02"}, lifts[0].Flights)
}

func TestMaximumLiftOfExactFlights(t *testing.T) {
	a := canard()
	a.slowing, a.slowingAngle = 0.08, 0.02 // another effect than is believed: two rates in each flight tell it
	stalls := exactStalls(a, []float64{2.30, 2.36, 2.42, 2.36})
	s := Systematics{AirspeedScale: 0.01, Mass: 0.004, Alpha: 0.01, CG: 0.003}
	lifts, alphas := MaximumLifts(stalls, s, new(Scatter).PoolStalls([][]Stall{stalls}))
	require.Len(t, lifts, 3, "one for each CG, nothing drawn between them")
	lift, alpha := lifts[1], alphas[1]
	want, angle := a.stall(2.36, standardSlowing)
	const source = "the aircraft that was flown"
	near(t, *lift.Value, want, 2e-4, source)
	near(t, *alpha.Value, angle, 2e-4, source)
	near(t, lift.CG, 2.36, 1e-12, "the CG that was flown twice")
	require.Less(t, lifts[0].CG, lift.CG, "foremost first")
	near(t, lift.Common[SourceAirspeedScale], -0.02**lift.Value, 1e-12, "CL goes with the inverse square of airspeed")
	near(t, lift.Common[SourceMass], 0.004**lift.Value, 1e-12, "CL goes with mass")
	near(t, alpha.Common[SourceAlpha], 0.01, 1e-12, "one for one")
	require.Contains(t, strings.Join(lift.Warnings, "\n"), "the foreplane let go first in 4 of 4 decelerations")
}

// One deceleration a flight cannot tell the effect of slowing: what is believed stands in, with its doubt in the shared part.
func TestMaximumLiftBelievesTheUsualEffectOfSlowing(t *testing.T) {
	a := canard()
	var stalls []Stall
	for i, s := range exactStalls(a, []float64{2.3, 2.3, 2.3, 2.3, 2.3}) {
		if i%2 == 1 {
			stalls = append(stalls, s) // the fast ones: 0.9 m/s²
		}
	}
	lift, _ := foremostLift(stalls, Systematics{}, nil)
	want, _ := a.stall(2.3, standardSlowing)
	near(t, *lift.Value, want, 2e-3, "5 % a m/s², as believed")
	near(t, lift.Common[SourceSlowing], -0.05*0.4**lift.Value, 1e-12, "doubt times 0.4 m/s²")
}

func TestMaximumLiftNamesTheWing(t *testing.T) {
	stalls := exactStalls(canard(), []float64{2.3, 2.3, 2.3})
	stalls[5].First, stalls[4].First = firstWing, "unknown"
	lift, alpha := foremostLift(stalls, Systematics{}, nil)
	for _, r := range []Result{lift, alpha} {
		words := strings.Join(r.Warnings, "\n")
		require.Contains(t, words, "in 1 of 6 decelerations the wing let go first: F02: a danger")
		require.Contains(t, words, "the foreplane let go first in 4 of 6")
		require.Contains(t, words, "in 1 of 6 decelerations nothing told which surface")
	}
}

func TestMaximumLiftWithoutABreakIsALowerBound(t *testing.T) {
	stalls := exactStalls(canard(), []float64{2.3, 2.3, 2.3})
	for i := range stalls {
		stalls[i].Broke, stalls[i].LiftSD = false, 0.01
	}
	lift, alpha := foremostLift(stalls, Systematics{Mass: 0.01}, nil)
	require.Equal(t, Weak, lift.State)
	require.Nil(t, lift.High)
	require.Nil(t, lift.SD)
	require.Less(t, *lift.Low, *lift.Value)
	require.Contains(t, strings.Join(lift.Warnings, "\n"), "a lower bound only")
	require.Equal(t, NotDetermined, alpha.State)
	stalls[0].Broke = true
	lift, _ = foremostLift(stalls, Systematics{}, nil)
	require.Contains(t, strings.Join(lift.Warnings, "\n"), "5 of 6 decelerations ended without a break")
}

func TestMaximumLiftPowersAreNotMixed(t *testing.T) {
	stalls := exactStalls(canard(), []float64{2.3, 2.3, 2.3})
	other := exactStalls(canard(), []float64{2.3, 2.3})
	for i := range other {
		other[i].Power, other[i].Lift = "full", other[i].Lift+0.3
	}
	lift, _ := foremostLift(append(other, stalls...), Systematics{}, nil)
	require.Equal(t, idlePower, lift.Power)
	require.Less(t, *lift.Value, 1.3)
	require.Contains(t, strings.Join(lift.Warnings, "\n"), "power full left out")
}

func TestMaximumLiftInWords(t *testing.T) {
	lift, _ := foremostLift(nil, Systematics{}, nil)
	require.Equal(t, NotDetermined, lift.State)
	require.Contains(t, strings.Join(lift.Warnings, "\n"), "fly three, wings level")
	lift, alpha := foremostLift(exactStalls(canard(), []float64{2.3}), Systematics{}, nil)
	for _, r := range []Result{lift, alpha} {
		require.Equal(t, NotDetermined, r.State)
		require.NotNil(t, r.Value, "the flight's own number is shown")
		require.Contains(t, strings.Join(r.Warnings, "\n"), "1 flight more")
	}
	bad := exactStalls(canard(), []float64{2.3})
	bad[0].Lift = math.NaN()
	lift, _ = foremostLift(bad, Systematics{}, nil)
	require.Contains(t, strings.Join(lift.Warnings, "\n"), "1 deceleration left out")
}

// Decelerations that stop short by up to a tenth: the bound lies above the truth in no more than a fortieth of the programmes.
func TestLowerBoundCovers(t *testing.T) {
	random := rand.New(rand.NewPCG(12, 1))
	const programmes = 600
	above, span := 0, 0.0
	for range programmes {
		p := flyProgramme(random, canard(), 1, 3, 6, []float64{2.30}, usualErrors(), 0.2)
		for i := range p.stalls[0] {
			p.stalls[0][i].Broke = false
			p.stalls[0][i].Lift *= 1 - 0.1*random.Float64()
		}
		r, _ := foremostLift(p.stalls[0], usualErrors(), nil)
		truth, _ := p.truth[0].stall(2.30, standardSlowing)
		if *r.Low > truth {
			above++
		}
		span += (truth - *r.Low) / truth / programmes
	}
	t.Logf("above the truth in %d of %d; %.0f %% below it on average", above, programmes, 100*span)
	require.LessOrEqual(t, float64(above), 0.025*programmes)
	require.Less(t, span, 0.2, "a bound that is worth something")
}
