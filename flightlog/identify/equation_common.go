package identify

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"wingproof/flightlog"
	"wingproof/flightlog/source"
)

// shift is one shared source of error with all reported figures moved by one standard deviation of it.
type shift struct {
	source string
	figure reported
	servos map[flightlog.Quantity]Servo // when it is the lag of one
}

// shifts lists the shared sources that have a standard deviation.
func (g *gathered) shifts() []shift {
	e := g.setup.Errors
	var out []shift
	add := func(name string, sd float64, move func(*reported)) {
		if sd > 0 {
			s := shift{source: name, figure: asReported()}
			move(&s.figure)
			out = append(out, s)
		}
	}
	add(source.AirspeedScale, e.AirspeedScale, func(f *reported) { f.airspeed += e.AirspeedScale })
	add(source.Mass, e.Mass, func(f *reported) { f.mass += e.Mass })
	add(source.Density, e.Density, func(f *reported) { f.density += e.Density })
	add(source.CG, e.CG, func(f *reported) { f.cg += e.CG })
	add(source.Alpha, e.Mounting, func(f *reported) { f.mounting += e.Mounting })
	add(source.InertiaX, e.InertiaX, func(f *reported) { f.inertiaX += e.InertiaX })
	add(source.InertiaY, e.InertiaY, func(f *reported) { f.inertiaY += e.InertiaY })
	add(source.InertiaZ, e.InertiaZ, func(f *reported) { f.inertiaZ += e.InertiaZ })
	if g.axis == Longitudinal {
		add(source.ElevatorScale, e.ElevatorScale, func(f *reported) { f.elevator += e.ElevatorScale })
	} else {
		add(source.AileronScale, e.AileronScale, func(f *reported) { f.aileron += e.AileronScale })
		add(source.RudderScale, e.RudderScale, func(f *reported) { f.rudder += e.RudderScale })
	}
	for _, t := range axisTerms(g.axis) {
		if s, known := g.setup.Servos[t.control]; t.control != "" && known && s.LagSD > 0 {
			later := make(map[flightlog.Quantity]Servo, len(g.setup.Servos))
			for k, v := range g.setup.Servos {
				later[k] = v
			}
			s.Lag += s.LagSD // edges, whose times are free, take a delay up; what hurts is a wrong lag
			later[t.control] = s
			out = append(out, shift{source: source.Lag(t.control), figure: asReported(), servos: later})
		}
	}
	return out
}

// common fills in what one standard deviation of each shared source does to every derivative: the fit is done again with the
// figure as it would have been reported.
func (g *gathered) common(derivatives []Derivative, r *regression, used []int, way road) {
	terms := len(axisTerms(g.axis))
	for i := range derivatives {
		derivatives[i].Common = map[string]float64{}
	}
	for _, s := range g.shifts() {
		moved := r.again(narrowed(way.rows(g.shifted(s)), used))
		for a := range moved {
			for k, j := range used {
				d := &derivatives[a*terms+j]
				if change := moved[a][k] - r.values[a][k]; math.Abs(change) > negligible*d.SD {
					d.Common[s.source] = change
				}
			}
		}
	}
}

// shifted are the blocks with one source of error moved.
func (g *gathered) shifted(s shift) []block {
	if s.servos == nil {
		return g.blocks(s.figure)
	}
	out := make([]block, len(g.segments))
	for i := range g.segments {
		again := g.segments[i]
		again.surfaces(s.servos)
		out[i] = again.block(g.axis, g.setup, s.figure)
	}
	return out
}

// again solves other rows with the weights of this fit by the normal equations, which is quick, and good for small differences.
func (r *regression) again(blocks []block) [][]float64 {
	p := len(r.columns[0])
	out := make([][]float64, len(r.values))
	columns := make([][][]float64, len(blocks))
	for s := range blocks {
		columns[s] = blocks[s].without(blocks[s].columns)
	}
	for a := range out {
		var solved mat.VecDense
		gram, right := mat.NewSymDense(p, nil), mat.NewVecDense(p, nil)
		for s := range blocks {
			w := r.weights[a][s]
			for i := range p {
				for j := i; j < p; j++ {
					gram.SetSym(i, j, gram.At(i, j)+w*inner(columns[s][i], columns[s][j]))
				}
				right.SetVec(i, right.AtVec(i)+w*inner(columns[s][i], blocks[s].responses[a]))
			}
		}
		out[a] = append([]float64(nil), r.values[a]...)
		var chol mat.Cholesky
		if chol.Factorize(gram) && chol.SolveVecTo(&solved, right) == nil {
			copy(out[a], solved.RawVector().Data)
		}
	}
	return out
}

func inner(a, b []float64) float64 {
	sum := 0.0
	for i, v := range a {
		sum += float64(v * b[i])
	}
	return sum
}

// negligible is the effect of a shared source, over the random standard deviation, that is not listed: round-off.
const negligible = 1e-6
