package lattice

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/spatial/r3"
)

// A solution is a sum over basis states: unit stream velocity along x, y and z, unit rotation of the
// aircraft about x, y and z through the origin (datum axes, right-hand rule), then for every control
// one radian of deflection in a unit stream along x and along z. Products of deflection with sideslip and with rotation are of
// second order and left out; that with the angle of attack is kept, since controls work at every lift coefficient.
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
func (l *controlList) basisCount() int { return firstControl + 2*len(l.controls) }

// antisymmetric tells whether basis state i is antisymmetric about y = 0.
func (l *controlList) antisymmetric(i int) bool {
	switch i {
	case streamY, turnX, turnZ:
		return true
	case streamX, streamZ, turnY:
		return false
	}
	return l.controls[(i-firstControl)/2].antisymmetric
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
func (m *model) solveBasis() ([][]float64, error) {
	circulation := make([][]float64, m.controls.basisCount())
	first := []int{streamX, streamY, streamZ, turnX, turnY, turnZ}
	if err := m.solveStates(first, m.grid.wash, circulation); err != nil {
		return nil, err
	}
	var controls []int
	for i := firstControl; i < len(circulation); i++ {
		controls = append(controls, i)
	}
	along := m.velocitiesAlongX([2][]float64{circulation[streamX], circulation[streamZ]})
	err := m.solveStates(controls, func(i, k int) float64 { return m.grid.controlWash(i, k, along) }, circulation)
	return circulation, err
}

// solveStates solves basis states, the two symmetries side by side, and stores their circulation.
func (m *model) solveStates(states []int, wash func(state, panel int) float64, circulation [][]float64) error {
	var failed [2]error
	forRows(2, func(side int) {
		var own []int
		for _, i := range states {
			if m.controls.antisymmetric(i) == (side == 1) {
				own = append(own, i)
			}
		}
		x, err := m.solveSide(side, len(own), func(column, k int) float64 { return wash(own[column], k) })
		failed[side] = err
		for column := range x {
			circulation[own[column]] = x[column]
		}
	})
	return errors.Join(failed[:]...)
}

// solveSide returns the circulations, by column and panel, that cancel given normal velocities at the control points.
func (m *model) solveSide(side, columns int, wash func(column, panel int) float64) ([][]float64, error) {
	if columns == 0 {
		return nil, nil
	}
	right := make([]blas64.General, len(m.blocks))
	for b := range m.blocks {
		right[b] = newGeneral(columns, m.blocks[b].panels)
		m.eachPanel(b, func(row, k int) {
			if side == 0 && m.grid.panels[k].central {
				return // a single surface on y = 0 carries nothing in symmetric flow
			}
			for column := range columns {
				right[b].Data[column*right[b].Stride+row] = -wash(column, k)
			}
		})
	}
	s := system{m, side}
	x, err := s.solve(right)
	if err != nil {
		return nil, err
	}
	out := make([][]float64, columns)
	for column := range out {
		out[column] = make([]float64, len(m.grid.panels))
	}
	for b := range m.blocks {
		m.eachPanel(b, func(row, k int) {
			for column := range columns {
				out[column][k] = x[b].Data[column*x[b].Stride+row]
			}
		})
	}
	return out, nil
}

// eachPanel visits the panels of a block: their row in it and their index in the grid.
func (m *model) eachPanel(b int, visit func(row, k int)) {
	row := 0
	for _, p := range m.blocks[b].parts {
		first := m.grid.firstPanel(p)
		for k := range m.grid.panelCount(p) {
			visit(row, first+k)
			row++
		}
	}
}

// wash is the normal velocity at panel k that a stream or a rotation asks the vortices to cancel.
func (g *grid) wash(i, k int) float64 {
	p := &g.panels[k]
	return r3.Dot(outer(i, p.control), normalAt(g.strips[p.strip].normal, p.turn))
}

// controlWash is that of a control in a stream: the velocity v there, induced parts included, times
// the change of the normal, v · (cos t · x − sin t · n0). As v has no component along the normal itself, that is
// v_x / cos t.
func (g *grid) controlWash(i, k int, along [2][]float64) float64 {
	p := &g.panels[k]
	turned := g.strips[p.strip].turned((i-firstControl)/2, k)
	if turned == 0 {
		return 0
	}
	return turned * along[(i-firstControl)%2][k] / math.Cos(p.turn)
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

// velocitiesAlongX is the velocity along x at the control points that controls turn, in the streams along x and along z whose
// circulations are given.
func (m *model) velocitiesAlongX(circulation [2][]float64) (along [2][]float64) {
	for i := range along {
		along[i] = make([]float64, len(m.grid.panels))
	}
	for r := range m.blocks {
		index := make([]int, 0, m.blocks[r].panels)
		m.eachPanel(r, func(_, k int) { index = append(index, k) })
		for c := range m.blocks {
			from := m.influence(r, c)
			for i := range along {
				gamma := m.gather(c, circulation[i])
				for j, row := range from.hinged {
					rowAt := from.along.Data[j*from.along.Stride:]
					along[i][index[row]] += floats.Dot(rowAt[:len(gamma)], gamma)
				}
			}
		}
		for _, row := range m.influence(r, 0).hinged {
			along[0][index[row]]++ // the stream along x itself
		}
	}
	return along
}

// gather takes the values of a block's panels.
func (m *model) gather(b int, values []float64) []float64 {
	out := make([]float64, m.blocks[b].panels)
	m.eachPanel(b, func(row, k int) { out[row] = values[k] })
	return out
}
