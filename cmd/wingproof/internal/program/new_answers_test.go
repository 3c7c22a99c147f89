package program

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestLengthRatioAsItStandsOnADrawing(t *testing.T) {
	for answer, want := range map[string]float64{"1:3.5": 2.0 / 7, "1/4": 0.25, "1 : 3,5": 2.0 / 7, "2:7": 2.0 / 7, "0,2857": 0.2857, "25 %": 0.25} {
		var o NewOptions
		require.NoError(t, o.Set("length_ratio", answer), answer)
		require.InDelta(t, want, o.LengthRatio, 1e-12, answer)
	}
	var o NewOptions
	for _, answer := range []string{"1:", "1:0", ":4", "1:4:2", "one to four"} {
		require.Error(t, o.Set("length_ratio", answer), answer)
	}
	require.Error(t, o.Set("span", "1:4"))
}

// A ratio that no few decimals hold is not rounded on its way into the folder.
func TestNewKeepsTheLengthRatio(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, New(dir, NewOptions{LengthRatio: 2.0 / 7}))
	p, err := Load(dir)
	require.NoError(t, err)
	require.InDelta(t, 2.0/7, p.Model.LengthRatio, 1e-8)
}

// Figures that are numbers but make no aircraft together: what a wrong unit or an exchanged answer looks like.
func TestNewNamesWrongUnits(t *testing.T) {
	for name, c := range map[string]struct {
		options NewOptions
		want    string
	}{
		"span in millimetres":      {NewOptions{Span: 6400}, `span 6400 m: more than 60 m; a bare number is in metres, so give it a unit, such as "6400 mm"`},
		"chord in millimetres":     {NewOptions{RootChord: 950, StrakeChord: -1}, `root chord 950 m on a span of 8.6 m`},
		"foreplane without comma":  {NewOptions{Span: 6.4, ForeplaneSpans: []float64{24}}, "foreplane span 24 m: the wing's is 6.4 m"},
		"winglet in millimetres":   {NewOptions{WingletHeights: []float64{500, 750}}, "winglet height 500 m: half the wing is 4.3 m"},
		"foreplane behind":         {NewOptions{ForeplaneX: 5}, "x counts aft, and a foreplane stands ahead of the wing"},
		"mass in grams":            {NewOptions{Mass: 281000, EmptyMass: 177000}, "gross mass 281000 kg on a wing of about 9.67 m²"},
		"cruising speed too small": {NewOptions{CruiseSpeed: 2}, "cruising speed 2 m/s: a bare number is in knots"},
	} {
		dir := filepath.Join(t.TempDir(), "fresh")
		require.ErrorContains(t, New(dir, c.options), c.want, name)
		require.NoDirExists(t, dir, name)
	}
}

// Without strake or winglets neither their surfaces nor their parts are drafted.
func TestNewLeavesOutWhatTheAircraftHasNot(t *testing.T) {
	var o NewOptions
	require.NoError(t, o.Set("strake_chord", "none"))
	require.NoError(t, o.Set("winglet_height", "None"))
	dir := t.TempDir()
	require.NoError(t, New(dir, o))
	p, err := Load(dir)
	require.NoError(t, err)
	require.Empty(t, p.Choices)
	var surfaces, parts []string
	for _, s := range p.Surfaces {
		surfaces = append(surfaces, s.Name)
	}
	for _, part := range p.Parts {
		parts = append(parts, part.Name)
	}
	require.Equal(t, []string{"wing", "foreplane"}, surfaces)
	require.Equal(t, []string{"foreplane", "elevator", "wing", "main spar", "main gear", "nose bowl"}, parts)
	_, err = os.Stat(filepath.Join(dir, "shape", "winglet.csv"))
	require.ErrorIs(t, err, os.ErrNotExist)
}

// The default that is shown is the one that Enter takes: it follows the answers before it.
func TestQuestionsFollowTheAnswers(t *testing.T) {
	ask := func(o NewOptions, key string) (Question, bool) {
		for _, q := range NewQuestions() {
			if q.Key == key {
				return o.Follows(q)
			}
		}
		require.Fail(t, key)
		return Question{}, false
	}
	for _, q := range NewQuestions() {
		asked, yes := NewOptions{}.Follows(q)
		require.True(t, yes, q.Key)
		if q.Key != "strake_span" && q.Key != "empty_mass" { // rounded in the list of questions
			require.Equal(t, q.Default+" "+q.Unit, asked.Default+" "+q.Unit, q.Key)
		}
	}
	half, _ := ask(NewOptions{Span: 4.3}, "foreplane_span")
	require.Equal(t, "1.75", half.Default)
	heights, _ := ask(NewOptions{Span: 4.3}, "winglet_height")
	require.Equal(t, "0.45; 0.55; 0.675", heights.Default)
	_, yes := ask(NewOptions{StrakeChord: -1}, "strake_span")
	require.False(t, yes)
}

// One seat or two follows from what can be carried; nobody weighs twenty kilograms.
func TestDraftedLoadingsCarryPeople(t *testing.T) {
	for _, o := range []NewOptions{{}, {Span: 6.4, StrakeChord: -1, Mass: 281, EmptyMass: 177}, {Span: 10, Mass: 1200, EmptyMass: 800}} {
		o = o.filled()
		b := o.balance()
		for _, l := range b.loads {
			require.Greater(t, l.people, 60.0, l.name)
			require.LessOrEqual(t, o.EmptyMass+l.people+l.fuel, o.Mass+1e-9, l.name)
		}
		require.InDelta(t, o.Mass, o.EmptyMass+b.loads[0].people+b.loads[0].fuel, 1e-9)
		require.Less(t, b.noseX, b.emptyX)
		require.Greater(t, b.mainX, b.emptyX)
	}
}
