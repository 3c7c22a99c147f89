package prediction

import (
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
)

// plain is an invented foreplane aircraft with an elevator.
func plain() aero.Airframe {
	straight := func(name string, role aero.Role, x, z, chord, half float64, hinges ...aero.Hinge) aero.Surface {
		return aero.Surface{Name: name, Role: role, Mirrored: true, Hinges: hinges, Stations: []aero.Station{
			{LeadingEdge: r3.Vec{X: x, Z: z}, TrailingEdge: r3.Vec{X: x + chord, Z: z}},
			{LeadingEdge: r3.Vec{X: x, Y: half, Z: z}, TrailingEdge: r3.Vec{X: x + chord, Y: half, Z: z}},
		}}
	}
	elevator := aero.Hinge{Control: "elevator", FromStation: 1, ToStation: 2, HingeFraction: 0.7, TravelMin: -0.3, TravelMax: 0.4, Effectiveness: 0.8}
	a := aero.Airframe{Surfaces: []aero.Surface{
		straight("wing", aero.RoleWing, 3, 0, 1, 4), straight("foreplane", aero.RoleForeplane, 0, 0.3, 0.5, 1.5, elevator),
	}}
	a.Reference, _ = aero.ReferenceOf(a.Surfaces)
	return a
}

func TestAnalysisTrimsAndBoundsItsGrid(t *testing.T) {
	all, err := Analyse([]aero.Airframe{plain()}, Setup{CG: r3.Vec{X: 2.2}, Grids: true})
	require.NoError(t, err)
	a := all[0]
	require.True(t, a.Trimmed)
	require.InDelta(t, 0, a.Value(PitchingMoment), 1e-10)
	require.InDelta(t, Lift, a.Value(LiftCoefficient), 1e-10)
	require.Greater(t, a.Value(evidence.TrimmedLiftSlope), a.Value(evidence.LiftCurveSlope)) // stable, elevator ahead
	n := a.Number(evidence.NeutralPoint)
	require.Positive(t, n.Grid)
	require.Less(t, n.Grid, 0.02)
	require.InDelta(t, a.Value(evidence.StaticMargin), 100*(n.Value-2.2)/1, 1e-9)
}

func TestFuselageStatesItsDoubt(t *testing.T) {
	p := &program.Program{Fuselage: []program.FuselageStation{{X: 0.2}, {X: 1.5, Width: 0.8, Height: 1}, {X: 4, Width: 0.7, Height: 0.9}, {X: 5}}}
	fuselage, err := BodyOf(p)
	require.NoError(t, err)
	with, err := Analyse([]aero.Airframe{plain()}, Setup{CG: r3.Vec{X: 1.8}, Body: fuselage})
	require.NoError(t, err)
	without, err := Analyse([]aero.Airframe{plain()}, Setup{CG: r3.Vec{X: 1.8}})
	require.NoError(t, err)
	require.Less(t, with[0].Value(evidence.NeutralPoint), without[0].Value(evidence.NeutralPoint))
	require.Less(t, with[0].Value(evidence.DirectionalStiffness), without[0].Value(evidence.DirectionalStiffness))
	require.InDelta(t, 0, with[0].Value(PitchingMoment), 1e-9, "trimmed with the body's moment")
	require.Contains(t, with[0].Warnings[len(with[0].Warnings)-1], "fuselage: its moment is uncertain by 25 % in pitch and 40 % in yaw")
}
