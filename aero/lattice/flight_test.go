package lattice

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

func TestAlphaForLiftAndTrim(t *testing.T) {
	a, point := controlled(t)
	s := solved(t, a)
	alpha, err := s.AlphaForLift(0.7, map[string]float64{"flap": 0.1})
	require.NoError(t, err)
	require.InDelta(t, 0.7, s.Coefficients(State{Alpha: alpha, Controls: map[string]float64{"flap": 0.1}}, point).Lift, 1e-11)
	state, err := s.Trim(0.6, "elevator", point)
	require.NoError(t, err)
	c := s.Coefficients(state, point)
	require.InDelta(t, 0.6, c.Lift, 1e-11)
	require.InDelta(t, 0, c.Pitch, 1e-11)

	_, err = s.AlphaForLift(50, nil)
	require.ErrorContains(t, err, "lift coefficient of 50")
	_, err = s.Trim(0.5, "canard", point)
	require.ErrorContains(t, err, `no surface has a control "canard"`)
	_, err = s.Trim(0.5, "aileron", point)
	require.ErrorContains(t, err, "cannot balance")
}

// TestNeutralPointByTwoRoads compares Cm_α/CL_α with the centre of gravity at which the elevator angle
// to trim stops changing with lift.
func TestNeutralPointByTwoRoads(t *testing.T) {
	a, point := controlled(t)
	s := solved(t, a)
	slope := func(x float64) float64 {
		at := r3.Vec{X: x, Z: point.Z}
		const cl, h = 0.4, 1e-3
		high, err := s.Trim(cl+h, "elevator", at)
		require.NoError(t, err)
		low, err := s.Trim(cl-h, "elevator", at)
		require.NoError(t, err)
		return (high.Controls["elevator"] - low.Controls["elevator"]) / (2 * h)
	}
	require.Positive(t, slope(3.9), "ahead of the neutral point a foreplane needs more elevator for more lift")
	require.Negative(t, slope(4.6))
	low, high := 3.9, 4.6
	for range 40 {
		if middle := (low + high) / 2; slope(middle) > 0 {
			low = middle
		} else {
			high = middle
		}
	}
	trimmed, err := s.Trim(0.4, "elevator", r3.Vec{X: low, Z: point.Z})
	require.NoError(t, err)
	require.InDelta(t, s.NeutralPointAbout(trimmed, r3.Vec{X: low, Z: point.Z}), low, 1e-4)
	require.InDelta(t, s.NeutralPoint(State{}), s.NeutralPointAbout(State{}, r3.Vec{X: 3}), 1e-3)
}

func TestTrimmedLiftSlopeExceedsUntrimmed(t *testing.T) {
	a, point := controlled(t)
	s := solved(t, a)
	ahead := r3.Vec{X: s.NeutralPoint(State{}) - 0.2, Z: point.Z}
	high, err := s.Trim(0.51, "elevator", ahead)
	require.NoError(t, err)
	low, err := s.Trim(0.49, "elevator", ahead)
	require.NoError(t, err)
	trimmed := 0.02 / (high.Alpha - low.Alpha)
	require.Greater(t, trimmed, s.Derivatives(low, ahead).ByAlpha.Lift)
}

// bent is a mean line whose slope changes linearly: −turn·(x − pivot).
type bent struct{ turn, pivot float64 }

func (b bent) Slope(x float64) float64 { return -b.turn * (x - b.pivot) }

func TestPitchingAgainstCamber(t *testing.T) {
	// A pitch rate q about x0 is felt as an upward velocity q (x − x0), which a mean line of slope
	// −q (x − x0) gives as well: two roads to CL_q and Cm_q.
	const rate = 1e-4
	wing := aero.Airframe{Surfaces: []aero.Surface{wingAt("wing", aero.RoleWing, 0, 0, 1)}} // chord 0.2
	about := r3.Vec{X: 0.07}
	pitching := solved(t, wing).Coefficients(State{PitchRate: rate}, about)
	for i := range wing.Surfaces[0].Stations {
		wing.Surfaces[0].Stations[i].MeanLine = bent{turn: 2 * rate, pivot: 0.35} // q = 2V/c times the rate
	}
	cambered := solved(t, wing).Coefficients(State{}, about)
	require.InDelta(t, 1, pitching.Lift/cambered.Lift, 1e-3)
	require.InDelta(t, 1, pitching.Pitch/cambered.Pitch, 1e-3)
}

func TestEffectivenessScalesAControl(t *testing.T) {
	a, point := controlled(t)
	full := solved(t, a).Derivatives(State{}, point).ByControl["elevator"]
	a.Surfaces[2].Hinges[0].Effectiveness = 0.8
	real := solved(t, a).Derivatives(State{}, point).ByControl["elevator"]
	require.InDelta(t, 0.8*full.Pitch, real.Pitch, 1e-12)
	a.Surfaces[2].Hinges[0].Effectiveness = 0
	s := solved(t, a)
	require.Len(t, s.Warnings(), 1)
	require.Contains(t, s.Warnings()[0].What, "effectiveness 0")
}

func TestHingePlaceAlongTheChordIsSmooth(t *testing.T) {
	// The effect of a hinge that moves along the chord must not jump where it passes a control point.
	a, point := controlled(t)
	before := math.NaN()
	for hinge := 0.60; hinge < 0.80; hinge += 0.02 {
		a.Surfaces[2].Hinges[0].HingeFraction = hinge
		s, err := Solve(a, Options{Density: 0.6})
		require.NoError(t, err)
		power := s.Derivatives(State{}, point).ByControl["elevator"].Pitch
		if !math.IsNaN(before) {
			require.Less(t, power, before)
			require.Greater(t, power, 0.94*before)
		}
		before = power
	}
}
