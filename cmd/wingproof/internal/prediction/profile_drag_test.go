package prediction

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero/aerofoil"
	"wingproof/aero/atmosphere"
	"wingproof/aero/body"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
)

func dragSetup() Setup {
	s := Setup{CG: r3.Vec{X: 2.1}}
	s.Lattice.Density = 0.5
	return s
}

// A table with one drag everywhere gives plan area times that drag: wing 8 m², foreplane 1.5 m².
func TestProfileDragFromPolars(t *testing.T) {
	p, a := stallProgram(), analysed(t, sectioned(), dragSetup())
	sections, err := SectionsOf(p)
	require.NoError(t, err)
	c, err := CruiseCondition(p, a.Airframe.Reference.Area)
	require.NoError(t, err)
	require.InDelta(t, 700*atmosphere.Gravity, c.force(a.Airframe.Reference.Area*c.Lift), 1e-9) // lift is weight
	d, err := ProfileDrag(sections, a, dragSetup(), c)
	require.NoError(t, err)
	require.Empty(t, d.Profile.Warnings)
	require.InDelta(t, 0.01*9.5, d.Profile.Drag, 1e-9)
	require.InDelta(t, math.Hypot(0.07*0.08, 0.07*0.015), d.Profile.Deviation, 1e-9) // each table by itself
	require.InDelta(t, a.Solution.InducedDrag(d.Trim)*8, d.Induced, 1e-12)
	require.InDelta(t, c.Lift, a.Solution.Coefficients(d.Trim, r3.Vec{X: 2.1}).Lift, 1e-9)
	require.InDelta(t, 0, a.Solution.Coefficients(d.Trim, r3.Vec{X: 2.1}).Pitch, 1e-9)
}

// Without polars: friction and form of both surfaces, whose chords are constant.
func TestProfileDragFromFriction(t *testing.T) {
	p, a := stallProgram(), analysed(t, sectioned(), dragSetup())
	none, err := SectionsOf(&program.Program{})
	require.NoError(t, err)
	c, err := CruiseCondition(p, a.Airframe.Reference.Area)
	require.NoError(t, err)
	d, err := ProfileDrag(none, a, dragSetup(), c)
	require.NoError(t, err)
	perMetre := c.Air.Density * 60 / c.Air.Viscosity
	want := 8*aerofoil.ProfileDrag(perMetre, 0.14, aerofoil.Transition{}) + 1.5*aerofoil.ProfileDrag(perMetre/2, 0.15, aerofoil.Transition{})
	require.InDelta(t, want, d.Profile.Drag, 1e-9)
	require.InDelta(t, perMetre, d.Reynolds, 1e-6)
	require.NotEmpty(t, d.Profile.Warnings, "the deflected elevator is not in the friction estimate")
}

// A longer foreplane at the same lift: the profile drag grows with its area, and what both share is no doubt between them.
func TestProfileDragOfTwoLevels(t *testing.T) {
	p := stallProgram()
	sections, err := SectionsOf(p)
	require.NoError(t, err)
	longer := sectioned()
	tip := &longer.Surfaces[1].Stations[1]
	tip.LeadingEdge.Y, tip.TrailingEdge.Y = 2, 2
	a, b := analysed(t, sectioned(), dragSetup()), analysed(t, longer, dragSetup())
	c, err := CruiseCondition(p, a.Airframe.Reference.Area)
	require.NoError(t, err)
	first, err := ProfileDrag(sections, a, dragSetup(), c)
	require.NoError(t, err)
	second, err := ProfileDrag(sections, b, dragSetup(), c)
	require.NoError(t, err)
	d, err := second.Minus(first)
	require.NoError(t, err)
	require.InDelta(t, 0.01*0.5, d.Profile, 1e-9) // half a square metre more
	require.InDelta(t, 0.07*0.005, d.Deviation, 1e-9)
	require.InDelta(t, d.Induced+d.Profile, d.Net, 1e-15)
	require.InDelta(t, second.Force()-first.Force(), d.Force, 1e-9)
	second.Condition.Lift = 0.9
	_, err = second.Minus(first)
	require.ErrorContains(t, err, "not of one condition")
}

// Where least power is needed, induced drag is three times the rest.
func TestClimbConditionNeedsLeastPower(t *testing.T) {
	p, a := stallProgram(), analysed(t, sectioned(), dragSetup())
	sections, err := SectionsOf(p)
	require.NoError(t, err)
	s := dragSetup()
	c, err := ClimbCondition(p, sections, a, s, 0)
	require.NoError(t, err)
	require.Equal(t, evidence.FullSize, c.Size)
	d, err := ProfileDrag(sections, a, s, c)
	require.NoError(t, err)
	require.InDelta(t, 3, d.Induced/d.Profile.Drag, 0.01)
	power := func(lift float64) float64 {
		c := c
		c.Speed *= math.Sqrt(c.Lift / lift)
		c.Lift = lift
		d, err := ProfileDrag(sections, a, s, c)
		require.NoError(t, err)
		return d.Force() * c.Speed
	}
	require.Less(t, power(c.Lift), power(0.9*c.Lift))
	require.Less(t, power(c.Lift), power(1.1*c.Lift))
	more, err := ClimbCondition(p, sections, a, s, 0.2)
	require.NoError(t, err)
	require.Equal(t, mostClimbLift, more.Lift)
}

// A cylinder of 1 m by 10 m, ends left out: 10 π m² of wetted surface.
func TestFuselageDrag(t *testing.T) {
	b, err := body.New([]body.Station{{X: 0, Width: 1, Height: 1}, {X: 4, Width: 1, Height: 1}, {X: 10, Width: 1, Height: 1}})
	require.NoError(t, err)
	require.InDelta(t, 10*math.Pi*aerofoil.TurbulentFriction(2e7)*aerofoil.BodyFormHoerner(10), FuselageDrag(&b, 2e6), 1e-9)
	require.Zero(t, FuselageDrag(nil, 2e6))
}
