package identify

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// EquationError regresses the coefficients of an axis on flow angle, dimensionless rates and surface positions of all segments at
// once, each with a constant of its own: lift and pitching moment, or side force, rolling and yawing moment, about setup's moment
// point. It is a starting value for output error and a second road to the same numbers.
//
// All channels pass the same symmetric filter; angular accelerations are slopes of the filtered rates. Standard deviations hold the
// colour of the residuals and the scatter between segments.
//
// What it cannot do: angle of attack and sideslip are taken as they were reconstructed. Their errors, gusts above all, flatten the
// slopes by them (a gust of half the sd of the manoeuvre's own angle takes a fifth) and leak into the damping. Where a segment states its
// gusts, the standard deviations hold what they would take from an angle that does not show them, and a slope that loses too much is refused;
// where vanes show them, leave Gusts at zero. MarginByForce needs no angle of attack for the static margin. EquationErrorSpectrum
// forgives biases and drifts, but no gusts, and does not widen for them.
//
// A derivative that the inputs did not excite, whose inertia was not measured, or whose surface follows its command by an unknown
// time, is not determined and says why. The error names the segments when none can be used, or when the segments do not belong
// together.
//
// Source: Klein and Morelli, Aircraft System Identification, chapter 5 (from memory).
func EquationError(segments []Segment, axis Axis, setup Setup) (Fit, error) {
	g, err := gather(segments, axis, setup)
	if err != nil {
		return Fit{}, err
	}
	return g.fit(timeDomain())
}

// gathered are the segments of one regression after the common filter.
type gathered struct {
	axis     Axis
	setup    *Setup
	segments []smoothed
	power    string
	flights  []string
	warnings []string
}

// gather keeps the segments that can be used.
func gather(segments []Segment, axis Axis, setup Setup) (*gathered, error) {
	if err := checkAxis(axis); err != nil {
		return nil, err
	}
	if r := setup.Reference; !(r.Area > 0 && r.Span > 0 && r.MeanChord > 0) {
		return nil, fmt.Errorf("identify: reference area %g m², span %g m and mean chord %g m must be positive", r.Area, r.Span, r.MeanChord)
	}
	g := &gathered{axis: axis, setup: &setup}
	var refused []error
	for i := range segments {
		s := &segments[i]
		if err := checkSegment(s); err != nil {
			refused = append(refused, err)
			g.warnings = append(g.warnings, "left out: "+err.Error())
			continue
		}
		if err := g.take(s); err != nil {
			return nil, err
		}
	}
	if len(g.segments) == 0 {
		return nil, fmt.Errorf("identify: no input manoeuvre can be used; fly doublets on each control: %w", errors.Join(refused...))
	}
	return g, nil
}

func (g *gathered) take(s *Segment) error {
	if len(g.segments) > 0 {
		first := g.segments[0].segment
		if s.Power != first.Power {
			return fmt.Errorf("identify: segments with power %s and %s do not belong into one fit; power moves trim and moments", first.Power, s.Power)
		}
		if math.Abs(s.Step-first.Step) > 1e-6*first.Step {
			return fmt.Errorf("identify: segments sampled every %g s and %g s do not belong into one fit; put them on one grid", first.Step, s.Step)
		}
	}
	g.power = s.Power
	if !slices.Contains(g.flights, s.Flight) {
		g.flights = append(g.flights, s.Flight)
	}
	g.segments = append(g.segments, smoothSegment(s, g.setup.Servos))
	return nil
}

// blocks are the regressors and responses, with shared figures as reported or shifted.
func (g *gathered) blocks(e reported) []block {
	out := make([]block, len(g.segments))
	for i := range g.segments {
		out[i] = g.segments[i].block(g.axis, g.setup, e)
	}
	return out
}

// timeDomain regresses samples.
func timeDomain() road {
	return road{
		method: "equation error, time domain", traces: true,
		rows:   func(blocks []block) []block { return blocks },
		spread: func(r *regression) [][]float64 { return r.widened(r.coloured()) },
	}
}
