package estimate

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestMaximumLiftOfExactFlights(t *testing.T) {
	a := canard()
	a.slowing, a.slowingAngle = 0.08, 0.02 // another effect than is believed: two rates in each flight tell it
	stalls := exactStalls(a, []float64{2.30, 2.36, 2.42, 2.36})
	s := Systematics{AirspeedScale: 0.01, Mass: 0.004, Alpha: 0.01, CG: 0.003}
	lift, alpha := MaximumLift(stalls, s, nil)
	want, angle := a.stall(2.36, standardSlowing)
	const source = "the aircraft that was flown"
	near(t, *lift.Value, want, 2e-4, source)
	near(t, *alpha.Value, angle, 2e-4, source)
	near(t, lift.CG, 2.36, 1e-12, "middle of the CGs")
	near(t, lift.Common[SourceAirspeedScale], -0.02**lift.Value, 1e-12, "CL goes with the inverse square of airspeed")
	near(t, lift.Common[SourceMass], 0.004**lift.Value, 1e-12, "CL goes with mass")
	near(t, alpha.Common[SourceAlpha], 0.01, 1e-12, "one for one")
	require.Contains(t, lift.Common, SourceCG)
	require.Contains(t, strings.Join(lift.Warnings, "\n"), "the foreplane let go first in 8 of 8 decelerations")
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
	lift, _ := MaximumLift(stalls, Systematics{}, nil)
	want, _ := a.stall(2.3, standardSlowing)
	near(t, *lift.Value, want, 2e-3, "5 % a m/s², as believed")
	near(t, lift.Common[SourceSlowing], -0.05*0.4**lift.Value, 1e-12, "doubt times 0.4 m/s²")
}

func TestMaximumLiftNamesTheWing(t *testing.T) {
	stalls := exactStalls(canard(), []float64{2.3, 2.3, 2.3})
	stalls[5].First, stalls[4].First = firstWing, "unknown"
	lift, alpha := MaximumLift(stalls, Systematics{}, nil)
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
	lift, alpha := MaximumLift(stalls, Systematics{Mass: 0.01}, nil)
	require.Equal(t, Weak, lift.State)
	require.Nil(t, lift.High)
	require.Nil(t, lift.SD)
	require.Less(t, *lift.Low, *lift.Value)
	require.Contains(t, strings.Join(lift.Warnings, "\n"), "a lower bound only")
	require.Equal(t, NotDetermined, alpha.State)
	stalls[0].Broke = true
	lift, _ = MaximumLift(stalls, Systematics{}, nil)
	require.Contains(t, strings.Join(lift.Warnings, "\n"), "5 of 6 decelerations ended without a break")
}

func TestMaximumLiftPowersAreNotMixed(t *testing.T) {
	stalls := exactStalls(canard(), []float64{2.3, 2.3, 2.3})
	other := exactStalls(canard(), []float64{2.3, 2.3})
	for i := range other {
		other[i].Power, other[i].Lift = "full", other[i].Lift+0.3
	}
	lift, _ := MaximumLift(append(other, stalls...), Systematics{}, nil)
	require.Equal(t, idlePower, lift.Power)
	require.Less(t, *lift.Value, 1.3)
	require.Contains(t, strings.Join(lift.Warnings, "\n"), "power full left out")
}

func TestMaximumLiftInWords(t *testing.T) {
	lift, _ := MaximumLift(nil, Systematics{}, nil)
	require.Equal(t, NotDetermined, lift.State)
	require.Contains(t, strings.Join(lift.Warnings, "\n"), "fly three, wings level")
	lift, alpha := MaximumLift(exactStalls(canard(), []float64{2.3}), Systematics{}, nil)
	for _, r := range []Result{lift, alpha} {
		require.Equal(t, NotDetermined, r.State)
		require.NotNil(t, r.Value, "the flight's own number is shown")
		require.Contains(t, strings.Join(r.Warnings, "\n"), "1 flight more")
	}
	bad := exactStalls(canard(), []float64{2.3})
	bad[0].Lift = math.NaN()
	lift, _ = MaximumLift(bad, Systematics{}, nil)
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
		r, _ := MaximumLift(p.stalls[0], usualErrors(), nil)
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
