package prediction

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero/aerofoil"
	"wingproof/aero/atmosphere"
	"wingproof/aero/body"
	"wingproof/cmd/wingproof/internal/program"
)

// A table with one drag at every Reynolds number changes nothing on the way to full size.
func TestDragStepOfAFlatTable(t *testing.T) {
	p, a := stallProgram(), analysed(t, sectioned(), dragSetup())
	sections, err := SectionsOf(p)
	require.NoError(t, err)
	d, err := ZeroLiftDragStep(p, sections, a, dragSetup())
	require.NoError(t, err)
	require.True(t, d.Known)
	require.InDelta(t, 0.01*9.5/8, d.Model, 1e-9)
	require.InDelta(t, 0, d.Step, 1e-9)
	require.InDelta(t, 0, d.Deviation, 1e-9, "both sizes share the table's error")
	require.Contains(t, d.Missing[0], "[fuselage]")
}

// Without polars the step is that of friction and form, by hand: chords of 1 m and 0.5 m, areas of 8 m² and 1.5 m², at the speeds that carry the
// weight at the lift coefficient of the setup; and of a fuselage's friction at both Reynolds numbers of its length.
func TestDragStepFromFriction(t *testing.T) {
	p := stallProgram()
	p.Aerofoils = nil
	b, err := body.New([]body.Station{{X: 0, Width: 0.1, Height: 0.1}, {X: 1.5, Width: 1, Height: 1}, {X: 5, Width: 0.2, Height: 0.2}})
	require.NoError(t, err)
	s := dragSetup()
	a := analysed(t, sectioned(), s)
	s.Body = &b
	none, err := SectionsOf(&program.Program{})
	require.NoError(t, err)
	d, err := ZeroLiftDragStep(p, none, a, s)
	require.NoError(t, err)
	full, err := atmosphere.Standard(0)
	require.NoError(t, err)
	field, err := atmosphere.Standard(300)
	require.NoError(t, err)
	speed := math.Sqrt(2 * 700 * atmosphere.Gravity / (full.Density * 8 * Lift))
	perMetre := full.Density * speed / full.Viscosity
	small := field.Density * speed / 2 * 0.25 / field.Viscosity // half the speed at a quarter of the length: the ratio's root
	drag := func(r float64) float64 {
		return 8*aerofoil.ProfileDrag(r, 0.14, aerofoil.Transition{}) + 1.5*aerofoil.ProfileDrag(r/2, 0.15, aerofoil.Transition{}) + FuselageDrag(&b, r)
	}
	require.InEpsilon(t, drag(perMetre)/8, d.Full, 1e-9)
	require.InEpsilon(t, drag(small)/8, d.Model, 1e-9)
	require.InDelta(t, d.Full-d.Model, d.Step, 1e-12)
	require.Negative(t, d.Step)
	require.Positive(t, d.Deviation)
	require.Less(t, d.Deviation, -d.Step)
}

func TestDragStepSaysWhatIsMissing(t *testing.T) {
	d, err := ZeroLiftDragStep(&program.Program{}, nil, nil, Setup{CG: r3.Vec{}})
	require.NoError(t, err)
	require.False(t, d.Known)
	require.Contains(t, d.Missing[0], "mass_kg")
}
