package identify

import (
	"fmt"
	"math"

	"wingproof/aero"
	"wingproof/flightlog/statistic"
)

// Estimate finds the derivatives of an axis by maximum likelihood from segments of one configuration and one state of power together.
//
// The derivatives are common to all segments and refer to setup's moment point; each segment has its own initial state, zero terms,
// biases of rates and specific forces, and edges of its command. Segments may differ in mass, inertia, CG, speed and density.
//
// Two forms of the likelihood are worked out: output error, in which all that is left over counts as noise of the sensors, and
// filter error, in which gusts of the air move the aircraft too. The quieter road is quoted, and Method says which: output error while
// its residuals are white, filter error when its innovations are whiter. Standard deviations hold what colour is left.
//
// A derivative that the inputs did not excite, whose inertia was not measured, or whose surface follows its command by an unknown time, is
// not determined and says why. The error names the segments when none can be used, when the segments do not belong together, or when
// the motion cannot be followed.
//
// Source: Maine and Iliff, NASA RP-1168, 1986; Klein and Morelli, Aircraft System Identification,
// chapter 6 (both from memory); the package comment has the equations.
func Estimate(segments []Segment, axis Axis, setup Setup) (Fit, error) {
	g, err := gather(segments, axis, setup)
	if err != nil {
		return Fit{}, err
	}
	used := make([]*Segment, len(g.segments))
	for i := range g.segments {
		s := g.segments[i].segment
		if len(s.Roll) != len(s.PitchRate) || len(s.Pitch) != len(s.PitchRate) || !statistic.Finite(s.Roll...) || !statistic.Finite(s.Pitch...) {
			return Fit{}, fmt.Errorf("identify: flight %s, %s from %.1f s: roll and pitch angle must be as long as pitch rate and without gaps", s.Flight, s.Kind, s.Start)
		}
		used[i] = s.withInertia(g.setup.Reference)
	}
	it := newIteration(newProblem(used, axis, g.setup))
	if err := it.begin(); err != nil {
		return Fit{}, fmt.Errorf("identify: %s: %w", axis, err)
	}
	return g.estimate(it)
}

// Radii of gyration over half span, chord and half span for where no inertia was measured: forces do not depend on them much, and no
// moment is given out then. Common practice, no source.
const gyrationRoll, gyrationPitch, gyrationYaw = 0.25, 0.7, 0.35

// withInertia is the segment itself, or a copy with usual inertias where none were measured.
func (s *Segment) withInertia(ref aero.Reference) *Segment {
	b := s.Body
	usual := func(inertia *float64, radius float64) {
		if !(*inertia > 0) {
			*inertia = b.Mass * radius * radius
		}
	}
	usual(&b.Ix, gyrationRoll*ref.Span/2)
	usual(&b.Iy, gyrationPitch*ref.MeanChord)
	usual(&b.Iz, gyrationYaw*ref.Span/2)
	if b == s.Body {
		return s
	}
	out := *s
	out.Body = b
	return &out
}

// estimate draws up the result.
func (g *gathered) estimate(it *iteration) (Fit, error) {
	p := it.p
	q, err := it.quote()
	if err != nil {
		return Fit{}, fmt.Errorf("identify: %s: %w", g.axis, err)
	}
	samples := g.blocks(asReported())
	out := g.header(q.method, samples)
	out.Iterations = it.count
	out.Condition = q.condition
	n := len(p.layout.names)
	for j, name := range p.layout.names {
		d := Derivative{Quantity: name, Value: p.common[j], SD: math.Sqrt(q.covariance[j][j]), WhiteSD: math.Sqrt(q.white[j][j]), Common: map[string]float64{}}
		out.Derivatives = append(out.Derivatives, d)
	}
	x := describe(samples, samples, movedColumns(samples, axisTerms(g.axis)), g.axis)
	x.Lacks = unmovedOnly(x.Lacks, out.Derivatives)
	g.judge(out.Derivatives, &x)
	out.Covariance = zeros(n, n)
	for i := range n {
		for j := range n {
			if out.Derivatives[i].Determined && out.Derivatives[j].Determined {
				out.Covariance[i][j] = q.covariance[i][j]
			}
		}
	}
	out.Correlations = correlatedPairs(out.Derivatives, out.Covariance)
	it.shared(g, q, out.Derivatives)
	out.Histories = it.histories(q)
	out.Warnings = append(append([]string(nil), g.warnings...), x.Warnings...)
	return out, nil
}

// unmovedOnly keeps what was not moved at all: how well the rest can be told apart the information matrix says itself.
func unmovedOnly(lacks []Lack, derivatives []Derivative) []Lack {
	var out []Lack
	for _, l := range lacks {
		for _, d := range derivatives {
			if d.SD == 0 && len(l.Derivatives) > 0 && l.Derivatives[0] == d.Quantity {
				out = append(out, l)
				break
			}
		}
	}
	return out
}
