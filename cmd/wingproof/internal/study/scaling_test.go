package study

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/program"
)

// loaded is the invented aircraft of 600 kg empty at 4 m, with two loadings that fly and one that does not; all by hand.
func loaded(t *testing.T) *program.Program {
	t.Helper()
	p := invented(t)
	p.FullSize.EmptyMass = program.Figure{Value: 600, SD: 6, Status: "weighed"}
	p.FullSize.EmptyX, p.FullSize.EmptyZ = program.Figure{Value: 4, SD: 0.01}, program.Figure{Value: 0.1}
	p.Loadings = []program.Loading{
		{Name: "light", Flies: true, Items: []program.Item{{What: "pilot", Mass: 100, X: 3.3, Z: 0.8}}}, // 3.9 m, 0.2 m
		{Name: "Parked", Items: []program.Item{{What: "tools", Mass: 100, X: 6}}},
		{Name: "heavy", Flies: true, Items: []program.Item{{What: "crew", Mass: 200, X: 2.8, Z: 0.5}}}, // 3.7 m, 0.2 m
	}
	return p
}

func TestScaleImitatesTheGrossMassMidwayOrALoading(t *testing.T) {
	p := loaded(t)
	s, err := ScaleOf(p, ScaleOptions{})
	require.NoError(t, err)
	require.Equal(t, "gross mass", s.Imitates.Name)
	require.Equal(t, p.FullSize.Mass.Value, s.Imitates.Mass)
	require.InDelta(t, 3.8, *s.Imitates.CGX, 1e-12, "midway between 3.7 and 3.9")
	require.InDelta(t, 0.2, *s.Imitates.CGZ, 1e-12)
	require.Len(t, s.Loadings, 2, "the parked one does not fly")
	require.Equal(t, []string{"heavy", "light"}, []string{s.Loadings[0].Name, s.Loadings[1].Name}, "the foremost first")
	require.InDelta(t, 3.7*p.Model.LengthRatio, *s.Loadings[0].ModelCGX, 1e-12)

	s, err = ScaleOf(p, ScaleOptions{Loading: " LIGHT"})
	require.NoError(t, err)
	require.InDelta(t, 700, s.Imitates.Mass, 1e-12)
	require.InDelta(t, 3.9, *s.Imitates.CGX, 1e-12)
	require.InDelta(t, 3.9*p.Model.LengthRatio, s.Sheet.CG[0].Target, 1e-12)
	require.InDelta(t, 0.01*600/700, *s.CGXSD, 2e-4, "the empty CG by its share; 6 kg at 0.1 m add 0.1 mm in the root sum")

	s, err = ScaleOf(p, ScaleOptions{Loading: "parked"})
	require.NoError(t, err)
	require.False(t, s.Imitates.Flies)
	require.Contains(t, s.Notes[0], "on the ground only")
}

func TestScaleNamesWhatItDoesNotFind(t *testing.T) {
	p := loaded(t)
	var input *InputError
	_, err := ScaleOf(p, ScaleOptions{Loading: "three"})
	require.ErrorAs(t, err, &input)
	require.Equal(t, `loadings of program.toml are "light"; "Parked"; "heavy"`, input.Right)
	p.Weighings = []program.Weighing{{Name: "w1", Mass: 15}}
	_, err = ScaleOf(p, ScaleOptions{Weighing: "w2"})
	require.ErrorAs(t, err, &input)
	require.Equal(t, `weighings are "w1"`, input.Right)
	p.FullSize.EmptyMass = program.Figure{}
	_, err = ScaleOf(p, ScaleOptions{Loading: "light"})
	require.ErrorContains(t, err, "the empty aircraft is not stated")
	s, err := ScaleOf(p, ScaleOptions{})
	require.NoError(t, err)
	require.Empty(t, s.Sheet.CG)
	require.Nil(t, s.Ballast)
	require.Contains(t, s.Notes[0], "no target for the CG")
}

// The ballast brings mass and CG onto their targets with the bays of the folder, and what was not measured is said.
func TestScaleProposesBallast(t *testing.T) {
	p := loaded(t)
	s, err := ScaleOf(p, ScaleOptions{})
	require.NoError(t, err)
	require.Contains(t, s.Notes[0], "not weighed")
	target, x := s.Sheet.Rows[0].Target, s.Sheet.CG[0].Target
	p.Weighings = []program.Weighing{{Name: "w1", Mass: target - 0.5, CGX: (x - 0.01) / p.Model.LengthRatio}}
	s, err = ScaleOf(p, ScaleOptions{})
	require.NoError(t, err)
	require.Nil(t, s.Ballast)
	require.Contains(t, s.Notes[0], "[[model.bay]]")
	p.Model.Bays = []program.Bay{{Name: "nose", From: x - 0.8, To: x - 0.7, Most: 2}, {Name: "tail", From: x + 0.6, To: x + 0.6, Most: 2}}
	s, err = ScaleOf(p, ScaleOptions{})
	require.NoError(t, err)
	require.True(t, s.Ballast.Met)
	require.InDelta(t, target, s.Ballast.Rows[0].Exact, 1e-6)
	require.InDelta(t, x, s.Ballast.Rows[1].Exact, 1e-6)
	require.InDelta(t, 0.5, s.Ballast.Added, 0.01)
	require.Contains(t, s.Notes[0], "no height of the CG")
	require.Contains(t, s.Notes[1], "not swung on the model")
}
