package similitude

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// drawTask is a model of some 15 kg with bays about it, and a target that its own bays can meet or not.
func drawTask(t *rapid.T, least, most int) Ballasting {
	f := func(low, high float64, what string) float64 { return rapid.Float64Range(low, high).Draw(t, what) }
	b := Ballasting{
		Now:   Body{Mass: f(10, 16, "mass"), CG: Place{f(0.85, 1, "x"), f(0, 0.1, "z")}, Ix: f(0.8, 1.6, "Ix"), Iy: f(1, 2, "Iy"), Iz: f(2, 3, "Iz"), Ixz: f(-0.1, 0.1, "Ixz")},
		Asked: Asked{Z: true, Ix: true, Iy: true, Iz: true, Ixz: rapid.Bool().Draw(t, "Ixz asked")},
	}
	b.Target = Body{Mass: f(10, 18, "target mass"), CG: Place{f(0.85, 1, "target x"), f(0, 0.1, "target z")}, Ix: f(0.8, 1.6, "target Ix"), Iy: f(1, 2, "target Iy"), Iz: f(2, 3, "target Iz")}
	for range rapid.IntRange(least, most).Draw(t, "bays") {
		bay := Bay{Name: "bay", From: f(0.1, 1.6, "from"), Z: f(-0.05, 0.15, "height"), Most: f(0.05, 3, "most")}
		bay.To = bay.From
		if rapid.Bool().Draw(t, "tray") {
			bay.To += f(0.02, 0.4, "length")
		}
		if rapid.Bool().Draw(t, "two sides") {
			bay.Y = f(0.05, 1, "y")
		}
		b.Bays = append(b.Bays, bay)
	}
	return b
}

// Whatever is asked, no mass is negative, no bay too full, before and behind rounding, and rounded masses are whole steps.
func TestBoundsAreNeverBroken(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawTask(t, 0, 6)
		at := spots(b.Bays)
		exact, err := b.solve(at)
		require.NoError(t, err)
		for _, masses := range [][]float64{exact, b.round(at, exact)} {
			require.True(t, b.fits(at, masses))
			require.LessOrEqual(t, b.Now.with(at, exact).Mass, math.Max(b.Now.Mass, b.Target.Mass)+1e-9)
			for i, m := range masses {
				require.GreaterOrEqual(t, m, 0.0)
				require.True(t, m <= b.Bays[at[i].bay].Most+1e-9)
			}
		}
		p, err := Propose(b)
		require.NoError(t, err)
		sum := 0.0
		for _, l := range p.Lumps {
			steps := l.Each / p.Step
			require.InDelta(t, math.Round(steps), steps, 1e-6)
			sum += l.Mass
		}
		require.InDelta(t, sum, p.Added, 1e-12)
		require.InDelta(t, b.Now.Mass+sum, p.Body.Mass, 1e-9)
	})
}

// A target that some ballast gives is met in every quantity.
func TestAnExactSolutionIsFound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawTask(t, 1, 6)
		at := spots(b.Bays)
		hidden, room := make([]float64, len(at)), make([]float64, len(b.Bays))
		for i, s := range at {
			hidden[i] = rapid.Float64Range(0, 1).Draw(t, "share") * (b.Bays[s.bay].Most - room[s.bay]) * 0.7
			room[s.bay] += hidden[i]
		}
		b.Target = b.Now.with(at, hidden)
		got, err := b.solve(at)
		require.NoError(t, err)
		after := b.Now.with(at, got)
		first, then := b.departures(after)
		require.InDelta(t, 0, first[0], 1e-3, "mass, percent")
		require.InDelta(t, 0, first[1], 1e-2, "CG x, of four microns")
		for _, d := range then {
			require.InDelta(t, 0, d, 0.02, "a fiftieth of a percent")
		}
	})
}

// Where mass and CG x can be met with three places, one number is left free: a fine walk along it finds nothing better.
func TestAWalkAlongTheFreeMassFindsNothingBetter(t *testing.T) {
	walked := 0
	rapid.Check(t, func(t *rapid.T) {
		b := drawTask(t, 3, 3)
		for i := range b.Bays {
			b.Bays[i].To = b.Bays[i].From
		}
		at := spots(b.Bays)
		if math.Abs(at[0].x-at[1].x) < 0.1 {
			return
		}
		hidden := make([]float64, 3)
		for i := range hidden {
			hidden[i] = b.Bays[i].Most * rapid.Float64Range(0, 1).Draw(t, "hidden")
		}
		reached := b.Now.with(at, hidden)
		b.Target.Mass, b.Target.CG.X = reached.Mass, reached.CG.X
		got, err := b.solve(at)
		require.NoError(t, err)
		require.True(t, b.met(b.Now.with(at, got)))
		walked++
		rest := func(m []float64) float64 {
			_, then := b.departures(b.Now.with(at, m))
			return dot(then, then)
		}
		best, want := math.Inf(1), b.Target.Mass-b.Now.Mass
		moment := b.Target.Mass*b.Target.CG.X - b.Now.Mass*b.Now.CG.X
		for k := range 401 {
			third := b.Bays[2].Most * float64(k) / 400
			second := (moment - third*at[2].x - (want-third)*at[0].x) / (at[1].x - at[0].x)
			m := []float64{want - third - second, second, third}
			if m[0] >= 0 && m[1] >= 0 && b.fits(at, m) {
				best = math.Min(best, rest(m))
			}
		}
		require.LessOrEqual(t, rest(got), best*(1+1e-6)+1e-4)
	})
	require.Greater(t, walked, 30, "the draws never came to the point")
}

// Where they cannot, no cell of a grid over two or three places costs less in mass and CG x.
func TestAGridFindsNothingCheaper(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawTask(t, 2, 3)
		for i := range b.Bays {
			b.Bays[i].To = b.Bays[i].From
		}
		at := spots(b.Bays)
		got, err := b.solve(at)
		require.NoError(t, err)
		cost := func(m []float64) float64 {
			first, _ := b.departures(b.Now.with(at, m))
			return first[0]*first[0] + first[1]*first[1]
		}
		const cells = 10
		m := make([]float64, len(at))
		for k := range int(math.Pow(cells+1, float64(len(at)))) {
			for i := range m {
				m[i] = b.Bays[i].Most * float64(k%(cells+1)) / cells
				k /= cells + 1
			}
			if sum := b.Now.with(at, m).Mass; sum > math.Max(b.Target.Mass, b.Now.Mass)+1e-12 {
				continue
			}
			require.LessOrEqual(t, cost(got), cost(m)*(1+1e-9)+1e-9)
		}
	})
}

// The order in which bays are stated changes nothing.
func TestOrderOfBaysDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawTask(t, 2, 6)
		at := spots(b.Bays)
		one, err := b.solve(at)
		require.NoError(t, err)
		other := b
		other.Bays = append([]Bay(nil), b.Bays...)
		order := rand.New(rand.NewPCG(1, rapid.Uint64().Draw(t, "order")))
		order.Shuffle(len(other.Bays), func(i, j int) { other.Bays[i], other.Bays[j] = other.Bays[j], other.Bays[i] })
		two, err := other.solve(spots(other.Bays))
		require.NoError(t, err)
		a, c := b.Now.with(at, one), b.Now.with(spots(other.Bays), two)
		require.InDelta(t, b.cost(a), b.cost(c), 1e-3*(1+b.cost(a)))
		require.InDelta(t, a.Mass, c.Mass, 1e-4)
		require.InDelta(t, a.CG.X, c.CG.X, 1e-5)
	})
}

// Nor does it change the lumps, where bays are not so near to each other that one does for the other.
func TestOrderOfFarBaysDoesNotChangeTheLumps(t *testing.T) {
	b := Ballasting{
		Now:    Body{Mass: 14, CG: Place{0.9, 0.06}, Ix: 1.1, Iy: 1.5, Iz: 2.4},
		Target: Body{Mass: 15.2, CG: Place{0.905, 0.055}, Ix: 1.15, Iy: 1.7, Iz: 2.65},
		Asked:  Asked{Z: true, Ix: true, Iy: true, Iz: true},
		Bays:   []Bay{{"nose", 0.2, 0.3, 0, 0.05, 1}, {"tail", 1.5, 1.5, 0, 0.1, 1}, {"wing", 1.1, 1.1, 0.6, 0, 1}, {"belly", 0.9, 0.9, 0, -0.02, 1}},
	}
	want, err := Propose(b)
	require.NoError(t, err)
	require.True(t, want.Met)
	for _, order := range [][]int{{3, 2, 1, 0}, {1, 3, 0, 2}, {2, 0, 3, 1}} {
		other := b
		other.Bays = nil
		for _, i := range order {
			other.Bays = append(other.Bays, b.Bays[i])
		}
		got, err := Propose(other)
		require.NoError(t, err)
		require.Len(t, got.Lumps, len(want.Lumps))
		for _, l := range want.Lumps {
			found := false
			for _, g := range got.Lumps {
				if g.Bay == l.Bay && g.X == l.X {
					found = true
					require.InDelta(t, l.Mass, g.Mass, 1e-9)
					require.InDelta(t, l.Unround, g.Unround, 1e-4)
				}
			}
			require.True(t, found, l.Bay)
		}
	}
}

// A tray gets one lump where spreading gains nothing, and three where an inertia asks for them.
func TestATrayGetsOneLumpUnlessSpreadingHelps(t *testing.T) {
	b := Ballasting{Now: Body{Mass: 14, CG: Place{X: 0.9}, Iy: 1.5}, Target: Body{Mass: 15, CG: Place{X: 0.9}, Iy: 1.5},
		Bays: []Bay{{Name: "tray", From: 0.4, To: 1.6, Most: 2}}}
	p, err := Propose(b)
	require.NoError(t, err)
	require.Len(t, p.Lumps, 1)
	require.InDelta(t, 0.9, p.Lumps[0].X, 1e-12)
	require.InDelta(t, 1, p.Lumps[0].Mass, 1e-12)

	// One kilogram at both ends about 0.9 adds 7/12·0.25 + 5/12·0.49 = 0.35 kg·m².
	b.Asked.Iy, b.Target.Iy = true, 1.85
	p, err = Propose(b)
	require.NoError(t, err)
	require.Len(t, p.Lumps, 2)
	require.InDelta(t, 0.58, p.Lumps[0].Mass, 1e-9, "0.5833, so that the rounded CG comes nearest")
	require.InDelta(t, 0.415, p.Lumps[1].Mass, 1e-9)
	require.InDelta(t, 1.85, p.Rows[2].Exact, 1e-4)
}

// Inertias about the new CG, worked by hand.
func TestTwoSidesAndParallelAxes(t *testing.T) {
	b := Body{Mass: 2, CG: Place{1, 0}, Ix: 0.1, Iy: 0.2, Iz: 0.3, Ixz: 0.01}
	got := b.with([]spot{{x: 2, y: 0.5, z: 0.3}}, []float64{1})
	// CG at (4/3, 0.1): the model 1/3 ahead and 0.1 below, the ballast 2/3 behind and 0.2 above.
	require.InDelta(t, 4.0/3, got.CG.X, 1e-12)
	require.InDelta(t, 0.1, got.CG.Z, 1e-12)
	require.InDelta(t, 0.1+2*0.01+0.25+0.04, got.Ix, 1e-12)
	require.InDelta(t, 0.2+2*(1.0/9+0.01)+4.0/9+0.04, got.Iy, 1e-12)
	require.InDelta(t, 0.3+2.0/9+4.0/9+0.25, got.Iz, 1e-12)
	require.InDelta(t, 0.01+2*(1.0/3*0.1)+2.0/3*0.2, got.Ixz, 1e-12)
}
