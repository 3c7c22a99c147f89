package lattice

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// loaded is a wing of span 2 and a second surface whose every strip turns on its own, so that any load can be laid on
// them: at zero angle of attack flat plates carry nothing but what the strips' turns ask for.
type loaded struct {
	solution *Solution
	strips   []aero.StripLoad
	turns    mat.Dense // turn of every strip, rad, per unit circulation of every strip
}

// loadedPair sets the second surface, ratio times the wing's span, at x ahead of the wing's place and gap half spans above it.
func loadedPair(t *testing.T, ratio, gap, x, density float64) *loaded {
	t.Helper()
	return loadedPlates(t, density,
		plateThrough("wing", aero.RoleWing, "", 3, [2]float64{0, 0}, [2]float64{1, 0}),
		plateThrough("second", aero.RoleWing, "", 3-x, [2]float64{0, gap}, [2]float64{ratio, gap}),
	)
}

// loadedPlates cuts plates at the edges that their strips have without controls; where wakes pass close that may take
// another round to settle.
func loadedPlates(t *testing.T, density float64, plates ...aero.Surface) *loaded {
	t.Helper()
	keyed := solvedAt(t, spanTwo(plates...), density)
	for len(keyed.Controls()) != len(keyed.Strips(State{})) {
		strips := keyed.Strips(State{})
		require.Less(t, len(strips), 200, "strips must settle")
		cut := make([]aero.Surface, len(plates))
		for i, plate := range plates {
			cut[i] = stripwise(plate, strips)
		}
		keyed = solvedAt(t, spanTwo(cut...), density)
	}
	p := &loaded{solution: keyed, strips: keyed.Strips(State{})}
	controls := keyed.Controls()
	require.Len(t, p.strips, len(controls), "one strip a control")
	response := mat.NewDense(len(controls), len(controls), nil)
	for j, c := range controls {
		response.SetCol(j, circulations(keyed.Strips(State{Controls: map[string]float64{c: 1}})))
	}
	require.NoError(t, p.turns.Inverse(response))
	return p
}

// stripwise cuts a plate at the edges of its strips and hangs every piece on a control of its own.
func stripwise(plate aero.Surface, strips []aero.StripLoad) aero.Surface {
	root, tip := plate.Stations[0], plate.Stations[1]
	half := tip.LeadingEdge.Y
	out := plate
	out.Stations, out.Hinges = []aero.Station{root}, nil
	y := 0.0
	for _, s := range strips {
		if s.Surface != plate.Name {
			continue
		}
		y += s.Width
		cut := root
		cut.LeadingEdge.Y, cut.TrailingEdge.Y = y, y
		out.Stations = append(out.Stations, cut)
		n := len(out.Stations)
		out.Hinges = append(out.Hinges, aero.Hinge{
			Control: fmt.Sprintf("%s %03d", plate.Name, n), FromStation: n - 1, ToStation: n, Effectiveness: 1,
		})
	}
	last := &out.Stations[len(out.Stations)-1]
	last.LeadingEdge.Y, last.TrailingEdge.Y = half, half
	return out
}

// circulations are those of the strips over the speed, m.
func circulations(strips []aero.StripLoad) []float64 {
	out := make([]float64, len(strips))
	for i, s := range strips {
		out[i] = s.SectionLift * s.Chord / 2
	}
	return out
}

// lay is the state in which every strip carries the circulation that load asks for.
func (p *loaded) lay(t *testing.T, load func(aero.StripLoad) float64) State {
	t.Helper()
	want := make([]float64, len(p.strips))
	for i, s := range p.strips {
		want[i] = load(s)
	}
	var turns mat.VecDense
	turns.MulVec(&p.turns, mat.NewVecDense(len(want), want))
	state := State{Controls: make(map[string]float64, len(want))}
	for i, c := range p.solution.Controls() {
		state.Controls[c] = turns.AtVec(i)
	}
	for i, got := range circulations(p.solution.Strips(state)) {
		require.InDelta(t, want[i], got, 1e-9, "strip %d of %d", i, len(want))
	}
	return state
}

// ellipticLoad is an elliptic load of unit integral over both halves of a surface.
func ellipticLoad(surface string, half float64) func(aero.StripLoad) float64 {
	return func(s aero.StripLoad) float64 {
		if s.Surface != surface {
			return 0
		}
		return 2 / (math.Pi * half) * math.Sqrt(math.Max(0, 1-s.Centre.Y*s.Centre.Y/(half*half)))
	}
}

// elliptic lays an elliptic load of unit integral on both surfaces.
func (p *loaded) elliptic(t *testing.T, ratio float64) (wing, second State) {
	t.Helper()
	return p.lay(t, ellipticLoad("wing", 1)), p.lay(t, ellipticLoad("second", ratio))
}

// shareOut is (1 − share) of one state's controls and share of another's.
func shareOut(a, b State, share float64) State {
	out := State{Controls: make(map[string]float64, len(a.Controls))}
	for c := range a.Controls {
		out.Controls[c] = (1-share)*a.Controls[c] + share*b.Controls[c]
	}
	return out
}

// mutual is the induced drag that two loads cause each other, over L L'/(π b b'); of one state with itself it is 1/e of its own
// span. Lift is what the strips carry: an elliptic load sampled on them misses its integral by some 1e-4.
func (p *loaded) mutual(a, b State, spanA, spanB float64) float64 {
	s := p.solution
	both := 4 * s.InducedDrag(shareOut(a, b, 0.5)) // of the sum of both loads
	between := (both - s.InducedDrag(a) - s.InducedDrag(b)) / 2
	return between * math.Pi * spanA * spanB / (2 * plateChord * p.lift(a) * p.lift(b))
}

// lift is the near-field lift coefficient.
func (p *loaded) lift(s State) float64 { return p.solution.Coefficients(s, r3.Vec{}).Lift }
