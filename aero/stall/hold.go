package stall

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// Held is the state of all strips at one angle of attack with no section beyond its maximum lift.
type Held struct {
	Lift  []float64 // section lift coefficient of every strip
	Turn  []float64 // turn that holds it, rad: zero where the flow is attached, negative where it has let go
	LetGo []bool    // the section is held at its maximum
}

// ErrNotSettled says that no state was found in which every section is either attached or held at its
// maximum. With a response matrix whose principal minors are all positive there is exactly one such state.
var ErrNotSettled = errors.New("no state with every section attached or at its maximum lift was found")

// Hold returns the state in which every section lift is attached + response·turn, none exceeds its
// maximum, and only sections at their maximum are turned.
//
// attached and maximum are section lift coefficients of one length; a maximum may be +Inf. response [per
// rad] is as in Case.Response and may be nil. Errors: lengths that differ, values that are not
// numbers, a strip that does not answer its own turn (diagonal not positive), ErrNotSettled.
//
// The problem is a linear complementarity problem; see the package comment. It has one solution when the
// response matrix is a P-matrix (all principal minors positive): R. W. Cottle, J.-S. Pang and R. E. Stone, The Linear
// Complementarity Problem, 1992, theorem 3.3.7, from memory. That of lifting surfaces is one, because its quadratic
// form, weighted by the strips' areas, is positive.
func Hold(attached, maximum []float64, response *mat.Dense) (Held, error) {
	n := len(attached)
	if response != nil {
		if err := responseMistakes(response, n); err != nil {
			return Held{}, fmt.Errorf("stall: %w", err)
		}
	}
	held, err := newHolder(response, n).hold(attached, maximum)
	if err != nil {
		return Held{}, fmt.Errorf("stall: %w", err)
	}
	return held, nil
}

// responseMistakes tells what keeps a matrix from being the response of n strips.
func responseMistakes(r *mat.Dense, n int) error {
	if rows, columns := r.Dims(); rows != n || columns != n {
		return fmt.Errorf("the response matrix is %d × %d for %d strips; give one row and one column a strip", rows, columns, n)
	}
	for i := range n {
		for j := range n {
			if v := r.At(i, j); math.IsNaN(v) || math.IsInf(v, 0) {
				return fmt.Errorf("response of strip %d to strip %d is %g; give a change of section lift per radian", i, j, v)
			}
		}
		if !(r.At(i, i) > 0) {
			return fmt.Errorf("strip %d answers its own turn by %g per radian; trailing edge down must raise its lift", i, r.At(i, i))
		}
	}
	return nil
}

// liftMistakes tells what is wrong with the section lifts that a caller's functions gave for n strips.
func liftMistakes(attached, maximum []float64, n int) error {
	if len(attached) != n || len(maximum) != n {
		return fmt.Errorf("%d attached and %d maximum section lifts for %d strips; give one of each a strip", len(attached), len(maximum), n)
	}
	for i := range n {
		if math.IsNaN(attached[i]) || math.IsInf(attached[i], 0) {
			return fmt.Errorf("attached section lift of strip %d is %g; give a number", i, attached[i])
		}
		if math.IsNaN(maximum[i]) || math.IsInf(maximum[i], -1) {
			return fmt.Errorf("maximum section lift of strip %d is %g; give a number, or +Inf for a strip that is never held", i, maximum[i])
		}
	}
	return nil
}
