package stall

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// thinAerofoilSlope is the section lift per radian of turn where no response matrix is given.
const thinAerofoilSlope = 2 * math.Pi

// settled is how far, in lift coefficient and in radians, round-off may leave a condition unfulfilled.
const settled = 1e-10

// holder solves one problem after another, each from the set of held strips of the one before.
//
// Method: block principal pivoting. All strips that violate their condition change sides at once as
// long as their number falls; after ten rounds without progress only the last one of them changes sides
// (the rule of K. G. Murty, Note on a Bard-type scheme for solving the complementarity problem, 1974), until the number has
// fallen below its best. For P-matrices Murty's rule cannot cycle, so the whole is finite: J. J. Júdice and F. M. Pires,
// A block principal pivoting algorithm for large-scale strictly monotone linear complementarity problems,
// Computers & Operations Research 21, 1994. For other matrices the number of rounds is bounded.
type holder struct {
	response *mat.Dense
	isHeld   []bool // the current guess
	factored []int  // strips whose block of the response is in lu
	lu       mat.LU
	turn     []float64 // turn down of each strip, ≥ 0 when settled
	wrong    []int     // strips that violate a condition
}

func newHolder(response *mat.Dense, n int) *holder {
	return &holder{response: response, isHeld: make([]bool, n), turn: make([]float64, n)}
}

// hold returns the settled state for one set of section lifts.
func (h *holder) hold(attached, maximum []float64) (Held, error) {
	n := len(h.isHeld)
	if err := liftMistakes(attached, maximum, n); err != nil {
		return Held{}, err
	}
	if h.response == nil {
		return clip(attached, maximum), nil
	}
	room := make([]float64, n)
	for i := range room {
		room[i] = maximum[i] - attached[i]
		h.isHeld[i] = h.isHeld[i] && !math.IsInf(room[i], 1)
	}
	if err := h.settle(room); err != nil {
		return Held{}, err
	}
	held := Held{Lift: make([]float64, n), Turn: make([]float64, n), LetGo: slices.Clone(h.isHeld)}
	for i := range n {
		if h.isHeld[i] {
			held.Lift[i], held.Turn[i] = maximum[i], min(0, -h.turn[i])
			continue
		}
		held.Lift[i] = min(maximum[i], attached[i]-h.relief(i))
	}
	return held, nil
}

// clip holds sections that do not feel one another.
func clip(attached, maximum []float64) Held {
	n := len(attached)
	held := Held{Lift: make([]float64, n), Turn: make([]float64, n), LetGo: make([]bool, n)}
	for i := range n {
		held.Lift[i] = min(attached[i], maximum[i])
		held.LetGo[i] = attached[i] > maximum[i]+settled
		if held.LetGo[i] {
			held.Turn[i] = (maximum[i] - attached[i]) / thinAerofoilSlope
		}
	}
	return held
}

// settle moves strips between attached and held until every condition is met.
func (h *holder) settle(room []float64) error {
	const patience = 10
	n := len(room)
	best, tries := n+1, patience
	for range 100 * (n + 1) {
		if err := h.try(room); err != nil {
			return err
		}
		switch {
		case len(h.wrong) == 0:
			return nil
		case len(h.wrong) < best:
			best, tries = len(h.wrong), patience
		case tries > 0:
			tries--
		default:
			h.wrong = h.wrong[len(h.wrong)-1:]
		}
		for _, i := range h.wrong {
			h.isHeld[i] = !h.isHeld[i]
		}
	}
	return fmt.Errorf("%w after %d rounds; check the response matrix", ErrNotSettled, 100*(n+1))
}

// try works out turns and spare lifts for the guessed set and lists the strips that violate it.
func (h *holder) try(room []float64) error {
	if err := h.solveTurns(room); err != nil {
		return err
	}
	h.wrong = h.wrong[:0]
	for i := range room {
		condition := h.turn[i] // both must not be negative: the turn of a held strip,
		if !h.isHeld[i] {
			condition = room[i] + h.relief(i) // the spare lift of an attached one
		}
		if condition < -settled {
			h.wrong = append(h.wrong, i)
		}
	}
	return nil
}

// relief is by how much the turns of the held strips lower the lift of strip i.
func (h *holder) relief(i int) float64 {
	row, sum := h.response.RawRowView(i), 0.0
	for _, j := range h.factored {
		sum += row[j] * h.turn[j]
	}
	return sum
}

// solveTurns finds the turns that put the guessed strips exactly on their maximum; the rest are not turned.
func (h *holder) solveTurns(room []float64) error {
	held := make([]int, 0, len(room))
	for i, isHeld := range h.isHeld {
		h.turn[i] = 0
		if isHeld {
			held = append(held, i)
		}
	}
	if !slices.Equal(held, h.factored) {
		h.factor(held)
	}
	if len(held) == 0 {
		return nil
	}
	excess := mat.NewVecDense(len(held), nil)
	for k, i := range held {
		excess.SetVec(k, -room[i])
	}
	if err := h.lu.SolveVecTo(excess, false, excess); err != nil {
		return fmt.Errorf("%w: the strips held do not answer independently (%w); check the response matrix", ErrNotSettled, err)
	}
	for k, i := range held {
		h.turn[i] = excess.AtVec(k)
	}
	return nil
}

func (h *holder) factor(held []int) {
	h.factored = held
	if len(held) == 0 {
		return
	}
	block := mat.NewDense(len(held), len(held), nil)
	for k, i := range held {
		row := h.response.RawRowView(i)
		for l, j := range held {
			block.Set(k, l, row[j])
		}
	}
	h.lu.Factorize(block)
}
