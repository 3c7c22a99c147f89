package lattice

import (
	"slices"
	"strconv"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/spatial/r3"
)

// The points where loads are taken, part by part: the middles of the bound segments first, then the chordwise pieces of every
// edge from the inboard to the outboard one.

// receivers lists the load points of a part.
func (g *grid) receivers(p part) []receiver {
	n := len(g.chord.vortex)
	out := make([]receiver, 0, g.panelCount(p)+(p.last-p.first+1)*n)
	for i := p.first; i < p.last; i++ {
		s := &g.strips[i]
		for k := range n {
			at := g.panels[s.first+k].load
			low, high := g.widthAt(s, at.X-s.at.X)
			out = append(out, receiver{at: at, low: low, high: high, group: s.group, bound: true})
		}
	}
	for i := p.first; i <= p.last; i++ {
		le, chord, inner, outer := g.edge(p, i)
		for k := range n {
			_, _, at := g.edgeSpan(k)
			out = append(out, receiver{
				at: aft(le, at*chord), low: inner(at), high: outer(at), group: g.strips[p.first].group,
			})
		}
	}
	return out
}

// edge is the leading edge and chord of edge i of a part (that inboard of strip i), and the points at a chord fraction of the
// control stations to both sides; beyond the segment's ends that of the strip inside, reflected, or the end itself where it is free.
func (g *grid) edge(p part, i int) (le r3.Vec, chord float64, inner, outer func(fraction float64) r3.Vec) {
	station := func(s *strip) func(float64) r3.Vec {
		return func(f float64) r3.Vec { return aft(s.at, f*s.chord) }
	}
	if i == p.last {
		s := &g.strips[i-1]
		le, chord, inner = s.b, s.chordB, station(s)
	} else {
		s := &g.strips[i]
		le, chord, outer = s.a, s.chordA, station(s)
	}
	at := func(f float64) r3.Vec { return aft(le, f*chord) }
	beyond := func(inside func(float64) r3.Vec) func(float64) r3.Vec {
		return func(f float64) r3.Vec { return r3.Sub(r3.Scale(2, at(f)), inside(f)) }
	}
	switch {
	case i == p.last && g.strips[i-1].tip:
		outer = at
	case i == p.last && g.continues(i):
		outer = station(&g.strips[i])
	case i == p.last:
		outer = beyond(inner)
	case g.continues(i):
		inner = station(&g.strips[i-1])
	case g.strips[i].free:
		inner = at
	default:
		inner = beyond(outer)
	}
	return le, chord, inner, outer
}

// batch is a run of receivers that are filled and multiplied at once, all of one kind.
type batch struct{ from, to int }

// batchPoints is the size of a batch: small enough for the second-level cache with a thousand panels' rows in use.
const batchPoints = 96

// batches cuts the receivers of a part: bound points and edge points stand apart.
func batches(at []receiver, bound int) []batch {
	var out []batch
	for from := 0; from < len(at); {
		end := len(at)
		if from < bound {
			end = bound
		}
		to := min(end, from+batchPoints)
		out = append(out, batch{from, to})
		from = to
	}
	return out
}

// washes is the velocity that the panels of a block give at a batch of load points, per unit circulation and with a mirror
// image of equal (0) or opposite (1) strength: a column a panel; rows are y and z at all points, then x at bound ones.
type washes [2]blas64.General

// washesOf fills the velocities of block c at some load points of part r, into used storage where there is any.
func (g *grid) washesOf(see *sight, r part, c *block, at []receiver, used *washes) *washes {
	n := len(at)
	rows := 2 * n
	if at[0].bound {
		rows = 3 * n
	}
	w := used.sized(rows, c.panels)
	for j, q := range c.parts {
		close := g.close(r, q)
		for k := range at {
			g.inflow(see, q, &at[k], close)
			put := func(row int, own, image []float64) {
				line := row*c.panels + c.starts[j]
				even, odd := w[0].Data[line:][:len(own)], w[1].Data[line:][:len(own)]
				for column, v := range own {
					even[column], odd[column] = v+image[column], v-image[column]
				}
			}
			put(k, see.own.y, see.image.y)
			put(n+k, see.own.z, see.image.z)
			if at[0].bound {
				put(2*n+k, see.own.x, see.image.x)
			}
		}
	}
	return w
}

// sized gives storage of a size, its own where that suffices; every element is written afterwards.
func (w *washes) sized(rows, columns int) *washes {
	if w == nil {
		return &washes{newGeneral(rows, columns), newGeneral(rows, columns)}
	}
	for side := range w {
		if cap(w[side].Data) < rows*columns {
			w[side] = newGeneral(rows, columns)
		}
		w[side] = blas64.General{Rows: rows, Cols: columns, Stride: max(1, columns), Data: w[side].Data[:rows*columns]}
	}
	return w
}

// flow is the velocity of every basis state at every sample: flow[state], each x, y and z a list over the samples. At
// chordwise pieces, whose force has no use for it, x is that of the stream and rotation alone.
type flow []components

type components struct{ x, y, z []float64 }

func newFlow(states, samples int) flow {
	f := make(flow, states)
	for i := range f {
		f[i] = components{make([]float64, samples), make([]float64, samples), make([]float64, samples)}
	}
	return f
}

// at is the velocity of a state at a sample.
func (f flow) at(state, sample int) r3.Vec {
	c := &f[state]
	return r3.Vec{X: c.x[sample], Y: c.y[sample], Z: c.z[sample]}
}

// task is one batch of receivers of one part.
type task struct {
	part   part
	block  int
	batch  batch
	at     []receiver
	sample int // of its first receiver
}

// velocities sums what all panels induce at every sample in every basis state.
func (m *model) velocities(circulation [][]float64, samples int) flow {
	out := newFlow(len(circulation), samples)
	var tasks []task
	start := 0
	for _, p := range m.grid.parts {
		at := m.grid.receivers(p)
		for _, b := range batches(at, m.grid.panelCount(p)) {
			tasks = append(tasks, task{p, m.blockOf(p), b, at[b.from:b.to], start + b.from})
		}
		start += len(at)
	}
	sides := m.sides(circulation)
	forEach(len(tasks), m.grid.newSight, func(see *sight, i int) { m.addFlow(out, see, &tasks[i], sides) })
	return out
}

// sideStates is the circulation of the basis states of one symmetry, by block: states × panels.
type sideStates struct {
	states []int
	gamma  []blas64.General // by block
}

func (m *model) sides(circulation [][]float64) (out [2]sideStates) {
	for i := range circulation {
		side := 0
		if m.controls.antisymmetric(i) {
			side = 1
		}
		out[side].states = append(out[side].states, i)
	}
	for side := range out {
		s := &out[side]
		for b := range m.blocks {
			g := newGeneral(len(s.states), m.blocks[b].panels)
			for row, i := range s.states {
				copy(g.Data[row*g.Stride:], m.gather(b, circulation[i]))
			}
			s.gamma = append(s.gamma, g)
		}
	}
	return out
}

// addFlow works one task: outer streams and what each block induces.
func (m *model) addFlow(out flow, see *sight, t *task, sides [2]sideStates) {
	n := len(t.at)
	for i := range out {
		c := &out[i]
		for k := range t.at {
			v := outer(i, t.at[k].at)
			c.x[t.sample+k], c.y[t.sample+k], c.z[t.sample+k] = v.X, v.Y, v.Z
		}
	}
	for b := range m.blocks {
		w := m.washes(see, t, b)
		for side, s := range sides {
			if len(s.states) == 0 {
				continue
			}
			sum := newGeneral(len(s.states), w[side].Rows)
			blas64.Gemm(blas.NoTrans, blas.Trans, 1, s.gamma[b], w[side], 0, sum)
			for row, i := range s.states {
				line := sum.Data[row*sum.Stride:]
				c := &out[i]
				floats.Add(c.y[t.sample:t.sample+n], line[:n])
				floats.Add(c.z[t.sample:t.sample+n], line[n:2*n])
				if w[side].Rows > 2*n {
					floats.Add(c.x[t.sample:t.sample+n], line[2*n:3*n])
				}
			}
		}
	}
}

// washes of block b at the points of a task, kept where another airframe asks for the same.
func (m *model) washes(see *sight, t *task, b int) *washes {
	if !m.family.uses(m.blocks[t.block].key, m.blocks[b].key) {
		return m.grid.washesOf(see, t.part, &m.blocks[b], t.at, &see.spare)
	}
	name := string(t.part.key[:]) + m.blocks[b].key + strconv.Itoa(t.batch.from)
	return m.family.pool.washes.get(name, func() *washes { return m.grid.washesOf(see, t.part, &m.blocks[b], t.at, nil) })
}

// blockOf is the block that holds a part.
func (m *model) blockOf(p part) int {
	return slices.IndexFunc(m.blocks, func(b block) bool {
		return slices.ContainsFunc(b.parts, func(q part) bool { return q.first == p.first })
	})
}
