package study

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero/atmosphere"
	"wingproof/aero/loads"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/program"
)

// A program that states nothing beyond the limit load factor is judged at limit load and gross mass, trimmed at the aftmost
// loading (another surface: the foremost), with the load shape of PredictionLift and no relief.
func TestBendingWithNothingMoreStatedIsTheLimitLoad(t *testing.T) {
	p := invented(t)
	y := []float64{0.3, 0.7, 1.1}
	p.Built = []program.Built{
		{Part: "main spar", Surface: "wing", Y: y, Basis: "limit", KnockDown: 1, SD: 0.05, Allowable: []float64{1e5, 1e5, 1e5}},
		{Part: "foreplane spar", Surface: "foreplane", Y: y, Basis: "limit", KnockDown: 1, SD: 0.05, Allowable: []float64{1e4, 1e4, 1e4}},
	}
	forward, aft, ok := prediction.LoadedRange(p)
	require.True(t, ok)
	s := studied(t, p, Predicted)
	for _, c := range s.Configurations {
		solution := c.Analysis.Solution
		pressure := p.FullSize.Mass.Value * atmosphere.Gravity * p.FullSize.LimitLoadFactor / (PredictionLift * c.Airframe.Reference.Area)
		for surface, cg := range map[string]float64{"wing": aft, "foreplane": forward} {
			carried := []string{surface}
			if surface == "wing" {
				carried = prediction.WingSurfaces(c.Airframe)
			}
			state, err := solution.Trim(PredictionLift, "elevator", r3.Vec{X: cg, Z: p.FullSize.EmptyZ.Value})
			require.NoError(t, err)
			line := c.spars[surface]
			require.Len(t, line, 4)
			for i, moment := range loads.Bending(solution.Strips(state), carried, append([]float64{0}, y...)) {
				require.InEpsilon(t, pressure*moment, line[i].Moment, 1e-9, "%s of %s at %g m", surface, c.Name, line[i].Y)
			}
		}
		root := predictions(s, c.Name, evidence.RootBendingMoment)
		require.Equal(t, p.FullSize.LimitLoadFactor, *root.At.LoadFactor)
		require.InDelta(t, aft, *root.At.CG, 1e-12)
		require.InDelta(t, PredictionLift, *root.At.LiftCoefficient, 1e-12)
		require.Nil(t, root.At.Speed, "none is stated")
		require.Contains(t, *root.Method, "limit load up at the lift coefficient 0.5; gross mass")
	}
}

// With the figures of a load envelope each station has the greatest of its own flights, and the root says which governs.
func TestBendingIsTheGreatestOverTheEnvelope(t *testing.T) {
	p := invented(t)
	f := &p.FullSize
	f.NegativeLimitLoadFactor, f.ManoeuvreSpeed, f.DiveSpeed, f.GustCruise, f.GustDive = -1.9, 55, 95, loads.CruiseGust, loads.DiveGust
	s := studied(t, p, Predicted)
	c := s.Configurations[0]
	wing, ok := c.Loads.Beam("wing")
	require.True(t, ok)
	for i, e := range wing.Envelope {
		require.GreaterOrEqual(t, c.Bending[i], e.Bending.Highest.Value)
		require.GreaterOrEqual(t, c.Bending[i], -e.Bending.Lowest.Value)
		require.GreaterOrEqual(t, c.Bending[i], 0.0)
	}
	root := predictions(s, c.Name, evidence.RootBendingMoment)
	peak := wing.Envelope[0].Bending.Greatest()
	flown, ok := c.Loads.Flown(peak)
	require.True(t, ok)
	require.Contains(t, *root.Method, peak.Condition)
	require.Equal(t, flown.Speed, *root.At.Speed)
	require.Equal(t, flown.LoadFactor, *root.At.LoadFactor)
	require.Equal(t, c.Bending[0], *root.Value)
}

// A part in a winglet is judged along the winglet, from its root; a table that begins beyond its end is refused, since
// nothing would bend it there.
func TestBuiltPartsInAWingletAreJudgedAlongIt(t *testing.T) {
	p := invented(t)
	p.Parts = nil
	p.Built = []program.Built{{Part: "winglet bracket", Surface: "winglet", Y: []float64{0, 0.2}, Basis: "limit", KnockDown: 1, SD: 0.05, Allowable: []float64{1e4, 1e4}}}
	s := studied(t, p, Judged)
	for _, c := range s.Configurations {
		line, wing := c.spars["winglet"], c.Bending
		require.Equal(t, 0.0, line[0].Y)
		require.Greater(t, line[0].Moment, line[1].Moment)
		require.Less(t, line[0].Moment, 0.2*wing[0])
		require.InDelta(t, line[0].Moment/1e4, s.BendingRatios(c, p.Built[0])[0].Value, 1e-12)
	}
	p.Built[0].Y = []float64{3.9, 4.2}
	_, err := Run(context.Background(), p, Options{Until: Judged})
	var input *InputError
	require.ErrorAs(t, err, &input)
	require.Contains(t, input.What, `[built.winglet bracket] begins where "winglet" has ended`)
	require.Contains(t, input.Right, "count its stations from its inboard end")
}
