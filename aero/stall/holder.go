package stall

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
)

// thinAerofoilSlope is the section lift per radian of turn where no response matrix is given.
const thinAerofoilSlope = 2 * math.Pi

// settled is how far, in lift coefficient and in radians, round-off may leave a condition unfulfilled.
const settled = 1e-10

// holder solves one problem after another, each from a guess of the set of held strips.
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
	block    block  // of the strips guessed to be held
	guess    []int  // their numbers
	room     []float64
	turn     []float64 // turn down of each strip, ≥ 0 when settled
	relief   []float64 // by how much the turns lower the lift of each attached strip
	wrong    []int     // strips that violate a condition
}

func newHolder(response *mat.Dense, n int) *holder {
	numbers := func() []float64 { return make([]float64, n) }
	return &holder{response: response, isHeld: make([]bool, n), room: numbers(), turn: numbers(), relief: numbers()}
}

// hold returns the settled state for one set of section lifts. It starts from the strips held before, which saves rounds and does
// not change the answer.
func (h *holder) hold(attached, maximum []float64) (Held, error) {
	n := len(h.isHeld)
	if err := liftMistakes(attached, maximum, n); err != nil {
		return Held{}, err
	}
	if h.response == nil {
		return clip(attached, maximum), nil
	}
	for i := range h.room {
		h.room[i] = maximum[i] - attached[i]
		h.isHeld[i] = h.isHeld[i] && !math.IsInf(h.room[i], 1)
	}
	if err := h.settle(); err != nil {
		return Held{}, err
	}
	held := Held{Lift: make([]float64, n), Turn: make([]float64, n), LetGo: slices.Clone(h.isHeld)}
	for i := range n {
		if h.isHeld[i] {
			held.Lift[i], held.Turn[i] = maximum[i], min(0, -h.turn[i])
			continue
		}
		held.Lift[i] = min(maximum[i], attached[i]-h.relief[i])
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
func (h *holder) settle() error {
	const patience = 10
	n := len(h.room)
	best, tries := n+1, patience
	for range 100 * (n + 1) {
		if err := h.try(); err != nil {
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
func (h *holder) try() error {
	if err := h.solveTurns(); err != nil {
		return err
	}
	h.wrong = h.wrong[:0]
	for i := range h.room {
		condition := h.turn[i] // both must not be negative: the turn of a held strip,
		if !h.isHeld[i] {
			h.relief[i] = floats.Dot(h.response.RawRowView(i), h.turn) // attached strips are not turned and add nothing
			condition = h.room[i] + h.relief[i]                        // the spare lift of an attached one
		}
		if condition < -settled {
			h.wrong = append(h.wrong, i)
		}
	}
	return nil
}

// solveTurns finds the turns that put the guessed strips exactly on their maximum; the rest are not turned.
func (h *holder) solveTurns() error {
	h.guess = h.guess[:0]
	for i, isHeld := range h.isHeld {
		if isHeld {
			h.guess = append(h.guess, i)
		}
	}
	if !slices.Equal(h.guess, h.block.held) {
		h.block.factor(h.response, h.guess)
	}
	clear(h.turn)
	if h.block.singular {
		return fmt.Errorf("%w: the strips held do not answer independently; check the response matrix", ErrNotSettled)
	}
	h.block.solve(h.turn, h.room)
	return nil
}
