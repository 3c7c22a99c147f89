package similitude

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// What a shop is told when the bays cannot do it; the figures are the moments of each case, worked by hand.
func TestAdviceWhenBallastCannotDoIt(t *testing.T) {
	model := func(mass, x float64) Body { return Body{Mass: mass, CG: Place{X: x}, Iy: 1.6} }
	nose, tail := Bay{"nose", 0.3, 0.3, 0, 0, 1}, Bay{"tail", 1.1, 1.1, 0, 0, 1}
	for _, c := range []struct {
		name        string
		now, target Body
		bays        []Bay
		want        []string
	}{
		{"too heavy", model(15.8, 0.9), model(15, 0.9), []Bay{nose, tail},
			[]string{"0.8 kg too heavy as weighed: only taking weight out helps", "0.8 kg taken out at x = 900 mm"}},
		{"hardly too heavy and far out of balance", model(15.01, 0.92), model(15, 0.9), []Bay{{"rear", 1.3, 1.3, 0, 0, 1}},
			[]string{"0.01 kg too heavy", "such as 0.5 kg by 600 mm forward"}}, // 15 × 0.02 / 0.5
		{"right mass, wrong balance", model(15, 0.91), model(15, 0.9), nil,
			[]string{"the CG lies 10.0 mm too far aft", "such as 0.5 kg by 300 mm forward"}}, // 15 × 0.01 / 0.5
		{"bays end too far forward", model(14, 0.9), model(15, 0.93), []Bay{nose, tail},
			[]string{"the CG stays", "own centre at x = 1350 mm", "bays end at 1100 mm", "empty bay 250 mm further aft", "or, besides this ballast, move weight that is in the model, such as 0.5 kg by 500 mm aft"}}, // 13.95 − 12.6 = 1.35
		{"bays begin too far aft", model(14, 0.9), model(15, 0.85), []Bay{tail}, []string{"own centre at x = 150 mm", "empty bay 950 mm further forward"}}, // 12.75 − 12.6 = 0.15
		{"a full bay", model(14, 0.9), model(15, 0.91), []Bay{nose, {"tail", 1.3, 1.3, 0, 0, 0.5}}, []string{"full: tail", "with room for 0.75 kg in bay tail it comes out"}},
		{"too little room in all", model(14, 0.9), model(16, 0.9), []Bay{{"nose", 0.5, 0.5, 0, 0, 0.4}, {"tail", 1.3, 1.3, 0, 0, 0.4}},
			[]string{"the mass stays 1.2 kg too small", "full: nose, tail", "the bays hold 0.8 kg in all: room for 1.2 kg more would help, about x = 900 mm"}},
		{"no bay", model(14, 0.9), model(15, 0.9), nil, []string{"no bay is stated"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, err := Propose(Ballasting{Now: c.now, Target: c.target, Bays: c.bays})
			require.NoError(t, err)
			require.False(t, p.Met)
			for _, want := range c.want {
				require.Contains(t, strings.Join(p.Advice, "\n"), want)
			}
		})
	}
}

// An inertia that is too large already is not cured by ballast, one that is too small by bays further out.
func TestAdviceOnInertias(t *testing.T) {
	b := Ballasting{
		Now: Body{Mass: 14, CG: Place{X: 0.9, Z: 0.05}, Ix: 1.5, Iy: 1.2}, Target: Body{Mass: 15, CG: Place{X: 0.9, Z: 0.05}, Ix: 1.2, Iy: 1.7},
		Asked: Asked{Z: true, Ix: true, Iy: true}, Bays: []Bay{{"belly", 0.9, 0.9, 0, 0, 2}},
	}
	p, err := Propose(b)
	require.NoError(t, err)
	require.True(t, p.Met)
	words := strings.Join(p.Advice, "\n")
	require.Contains(t, words, "the CG stays 3.3 mm too low: bays higher up would help") // 1 kg 50 mm below, of 15
	require.Contains(t, words, "Ix stays 25.2 % too large, of that 25.0 % as weighed, and ballast only adds: take weight out of the outer wing")
	require.Contains(t, words, "Iy stays 29.3 % too small: bays further forward and aft would raise it")
}

func TestBallastRefusesWhatMakesNoSense(t *testing.T) {
	sound := Ballasting{Now: Body{Mass: 14}, Target: Body{Mass: 15}, Bays: []Bay{{"nose", 0.3, 0.4, 0, 0, 1}}}
	for name, spoil := range map[string]func(*Ballasting){
		"no mass":           func(b *Ballasting) { b.Now.Mass = 0 },
		"no target":         func(b *Ballasting) { b.Target.Mass = -1 },
		"no target inertia": func(b *Ballasting) { b.Asked.Iy = true },
		"bay backwards":     func(b *Ballasting) { b.Bays = []Bay{{"nose", 0.4, 0.3, 0, 0, 1}} },
		"bay of no use":     func(b *Ballasting) { b.Bays = []Bay{{"nose", 0.3, 0.3, 0, 0, 0}} },
	} {
		b := sound
		spoil(&b)
		_, err := Propose(b)
		require.ErrorContains(t, err, "similitude:", name)
	}
	_, err := Propose(sound)
	require.NoError(t, err)
}

func TestSmallModelsAreBallastedToTheGram(t *testing.T) {
	p, err := Propose(Ballasting{Now: Body{Mass: 0.9}, Target: Body{Mass: 0.9333}, Bays: []Bay{{"nose", 0, 0, 0, 0, 1}}})
	require.NoError(t, err)
	require.Equal(t, 0.001, p.Step)
	require.InDelta(t, 0.033, p.Added, 1e-12)
}
