package lattice

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"
)

// A solution is a sum over basis states: unit stream velocity along x, y and z, unit rotation of the
// aircraft about x, y and z through the origin (datum axes, right-hand rule), then for every control
// one radian of deflection in a unit stream along x, y and z.
const (
	streamX = iota
	streamY
	streamZ
	turnX
	turnY
	turnZ
	firstControl
)

// basisCount is the number of basis states.
func (l *controlList) basisCount() int { return firstControl + 3*len(l.controls) }

// antisymmetric tells whether basis state i is antisymmetric about y = 0.
func (l *controlList) antisymmetric(i int) bool {
	switch i {
	case streamY, turnX, turnZ:
		return true
	case streamX, streamZ, turnY:
		return false
	}
	c, axis := (i-firstControl)/3, (i-firstControl)%3
	return l.controls[c].antisymmetric != (axis == 1)
}

// outer is the velocity of basis state i at p without any vortex: stream or rotation.
func outer(i int, p r3.Vec) r3.Vec {
	switch i {
	case streamX:
		return r3.Vec{X: 1}
	case streamY:
		return r3.Vec{Y: 1}
	case streamZ:
		return r3.Vec{Z: 1}
	case turnX: // −x̂ × p
		return r3.Vec{Y: p.Z, Z: -p.Y}
	case turnY:
		return r3.Vec{X: -p.Z, Z: p.X}
	case turnZ:
		return r3.Vec{X: p.Y, Y: -p.X}
	}
	return r3.Vec{}
}

// solveBasis returns the circulation of every panel in every basis state, circulation[i][k].
//
// Streams and rotations come first; the controls need the velocities of the streams.
func (g *grid) solveBasis(list *controlList) ([][]float64, error) {
	symmetric, antisymmetric := g.influence()
	var even, odd mat.LU
	even.Factorize(symmetric)
	odd.Factorize(antisymmetric)
	circulation := make([][]float64, list.basisCount())
	solve := func(states []int, wash func(state, panel int) float64) error {
		for _, side := range []struct {
			lu            *mat.LU
			antisymmetric bool
		}{{&even, false}, {&odd, true}} {
			own := slices.DeleteFunc(slices.Clone(states), func(i int) bool { return list.antisymmetric(i) != side.antisymmetric })
			if err := g.solveSide(side.lu, side.antisymmetric, own, wash, circulation); err != nil {
				return err
			}
		}
		return nil
	}
	if err := solve([]int{streamX, streamY, streamZ, turnX, turnY, turnZ}, g.wash); err != nil {
		return nil, err
	}
	var controls []int
	for i := firstControl; i < len(circulation); i++ {
		controls = append(controls, i)
	}
	along := g.velocitiesAlongX(circulation[:turnX])
	return circulation, solve(controls, func(i, k int) float64 { return g.controlWash(i, k, along) })
}

// solveSide solves the states of one symmetry and stores their circulation.
func (g *grid) solveSide(lu *mat.LU, antisymmetric bool, states []int, wash func(state, panel int) float64, circulation [][]float64) error {
	if len(states) == 0 {
		return nil
	}
	right := mat.NewDense(len(g.panels), len(states), nil)
	for col, i := range states {
		for k := range g.panels {
			if !antisymmetric && g.panels[k].central {
				continue // a single surface on y = 0 carries nothing in symmetric flow
			}
			right.Set(k, col, -wash(i, k))
		}
	}
	var x mat.Dense
	if err := lu.SolveTo(&x, false, right); err != nil {
		return err
	}
	for col, i := range states {
		circulation[i] = mat.Col(nil, col, &x)
	}
	return nil
}

// wash is the normal velocity at panel k that a stream or a rotation asks the vortices to cancel.
func (g *grid) wash(i, k int) float64 {
	p := &g.panels[k]
	return r3.Dot(outer(i, p.control), normalAt(g.strips[p.strip].normal, p.turn))
}

// controlWash is that of a control in a stream: the velocity v there, induced parts included, times
// the change of the normal, v · (cos t · x − sin t · n0). As v has no component along the normal itself, that is
// v_x / cos t.
func (g *grid) controlWash(i, k int, along [3][]float64) float64 {
	p := &g.panels[k]
	turned := g.strips[p.strip].turned((i-firstControl)/3, k)
	if turned == 0 {
		return 0
	}
	return turned * along[(i-firstControl)%3][k] / math.Cos(p.turn)
}

// turned is the turn of the normal of panel k per radian of a control.
func (s *strip) turned(control, k int) float64 {
	sum := 0.0
	for j, h := range s.hinges {
		if h.control == control {
			sum += s.turnHinges[j][k-s.first]
		}
	}
	return sum
}

// velocitiesAlongX is the velocity along x in the three streams at the control points of every strip
// with a hinge; circulation holds those of the streams.
func (g *grid) velocitiesAlongX(circulation [][]float64) (along [3][]float64) {
	for i := range along {
		along[i] = make([]float64, len(g.panels))
	}
	forRows(len(g.panels), func(k int) {
		p := &g.panels[k]
		if len(g.strips[p.strip].hinges) == 0 {
			return
		}
		sum := [3]float64{streamX: 1}
		for m := range g.panels {
			own, image := g.panels[m].pair(p.control, p.group, false)
			even, odd := own.X+image.X, own.X-image.X
			sum[streamX] += circulation[streamX][m] * even
			sum[streamY] += circulation[streamY][m] * odd
			sum[streamZ] += circulation[streamZ][m] * even
		}
		for i := range sum {
			along[i][k] = sum[i]
		}
	})
	return along
}

// influence fills the symmetric and the antisymmetric matrix of normal velocities per unit circulation.
func (g *grid) influence() (symmetric, antisymmetric *mat.Dense) {
	n := len(g.panels)
	symmetric, antisymmetric = mat.NewDense(n, n, nil), mat.NewDense(n, n, nil)
	forRows(n, func(row int) {
		p := &g.panels[row]
		normal := normalAt(g.strips[p.strip].normal, p.turn)
		rowS, rowA := symmetric.RawRowView(row), antisymmetric.RawRowView(row)
		for col := range g.panels {
			own, image := g.panels[col].pair(p.control, p.group, false)
			a, b := r3.Dot(own, normal), r3.Dot(image, normal)
			rowS[col], rowA[col] = a+b, a-b
			if g.panels[col].central {
				rowS[col] = 0
			}
		}
		if p.central {
			clear(rowS)
			rowS[row] = 1
		}
	})
	return symmetric, antisymmetric
}
