package prediction

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero/stall"
)

// deg is one degree, rad.
const deg = math.Pi / 180

// try is a question answered with the elevator held at one deflection.
type try struct {
	work       *stallWork
	question   question
	deflection float64
	layout     layout
	path       path
	most       [][]float64 // largest section lift, as path.section
	outside    [][]bool    // a polar was left
	from, to   float64     // angles of attack searched
	search     *stall.Search
	order      stall.Order // its outline
}

// try answers a question with a deflection.
func (w *stallWork) try(q question, deflection float64) (try, error) {
	cg := r3.Vec{X: q.load.x, Y: w.setup.CG.Y, Z: w.setup.CG.Z}
	t := try{work: w, question: q, deflection: deflection}
	t.layout = w.layout
	t.layout.strips = armed(w.layout, cg)
	t.path = newPath(w.analysis, w.form, w.setup.elevator(), deflection, cg)
	var err error
	if t.most, t.outside, err = w.maxima(t.layout, t.path, deflection, q); err != nil {
		return t, err
	}
	t.from, t.to = t.span()
	if t.search, err = t.begin(0, 0); err != nil {
		return t, err
	}
	t.order = t.search.Outline()
	return t, nil
}

// armed are the strips with their arms about a CG.
func armed(l layout, cg r3.Vec) []stall.Strip {
	out := make([]stall.Strip, len(l.strips))
	for i, s := range l.strips {
		s.Arm = cg.X - l.x[i]
		out[i] = s
	}
	return out
}

// begin is stall.Begin with the maxima of foreplane and wing changed by a share of themselves.
func (t *try) begin(foreplane, wing float64) (*stall.Search, error) {
	return stall.Begin(stall.Case{
		Name: t.question.name(), Strips: t.layout.strips, Response: t.work.response, AlphaMin: t.from, AlphaMax: t.to, Step: stallStep,
		Attached: func(alpha float64) []float64 { return t.path.between(t.path.section, alpha) },
		MaxLift: func(alpha float64) []float64 {
			most := t.path.between(t.most, alpha)
			for i, s := range t.layout.strips {
				switch s.Part {
				case stall.Foreplane:
					most[i] *= 1 + foreplane
				case stall.Wing:
					most[i] *= 1 + wing
				}
			}
			return most
		},
	})
}

// span is the range of angles worth searching: from a little before the first strip of all lets go, with room for a maximum that is
// lower, to well after the first strips of foreplane and wing would do so.
func (t *try) span() (from, to float64) {
	const before, after = 2 * deg, 6 * deg
	from, to = stallTo, stallFrom
	for _, part := range []stall.Part{stall.Foreplane, stall.Wing, stall.Other} {
		first := stallTo
		for k := len(t.path.alpha) - 1; k >= 0; k-- {
			for i, s := range t.layout.strips {
				if s.Part == part && t.path.section[k][i] > t.most[k][i] {
					first = t.path.alpha[k]
				}
			}
		}
		from = math.Min(from, first)
		if part != stall.Other {
			to = math.Max(to, first)
		}
	}
	return math.Max(stallFrom, from-before), math.Min(stallTo, to+after)
}

// balance is the nose-up moment left at an angle of attack, sections that have let go included, over the dynamic pressure, m³.
func (t *try) balance(o stall.Order, alpha float64) float64 {
	return t.path.value(t.path.moment, alpha) + 2*pitchChange(o, alpha) // both halves
}

// pitchChange reads what letting go adds to the moment by straight lines between the points of the curve.
func pitchChange(o stall.Order, alpha float64) float64 {
	return alongCurve(o, alpha, func(p stall.Point) float64 { return p.PitchChange })
}

// alongCurve reads a quantity of the curve at an angle; beyond its ends, that of the end.
func alongCurve(o stall.Order, alpha float64, of func(stall.Point) float64) float64 {
	last := len(o.Curve) - 1
	if alpha <= o.Curve[0].Alpha {
		return of(o.Curve[0])
	}
	for k := 1; k <= last; k++ {
		a, b := o.Curve[k-1], o.Curve[k]
		if alpha <= b.Alpha {
			return of(a) + (of(b)-of(a))*(alpha-a.Alpha)/(b.Alpha-a.Alpha)
		}
	}
	return of(o.Curve[last])
}
