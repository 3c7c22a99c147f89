package lattice

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// HingeMoment is the air's moment about the hinge line of one control on one surface: on the right half, or on the whole of a
// surface on the plane of symmetry. The left half is that of the state with sideslip, roll and yaw rate and
// antisymmetric controls reversed.
//
// It is positive where the air drives the control in its positive sense: trailing edge down for an elevator or a flap,
// trailing edge left for a rudder, and for an aileron trailing edge up on the right half.
type HingeMoment struct {
	Control     string
	Surface     string
	Coefficient float64 // moment over ½ρV²·Area·Chord
	Moment      float64 // over ½ρV², m³
	Area        float64 // aft of the hinge line, m²
	Chord       float64 // mean aerodynamic chord aft of the hinge line and square to it, m
}

// HingeDerivatives are those of a hinge-moment coefficient. In the field's symbols ByAlpha is b1 and ByControl of
// the control itself b2.
type HingeDerivatives struct {
	HingeMoment                    // in the state itself
	ByAlpha     float64            // per rad
	ByBeta      float64            // per rad
	ByRollRate  float64            // per pb/2V
	ByPitchRate float64            // per qc/2V
	ByYawRate   float64            // per rb/2V
	ByControl   map[string]float64 // per rad of each control
}

// hinged is a control on a surface with the strips that carry it.
type hinged struct {
	control, surface string
	strips           []hingedStrip
	area, chord      float64
}

// hingedStrip is one strip of a control.
type hingedStrip struct {
	index  int
	flap   *flap
	sense  float64 // +1 when a positive control turns the normal aft
	square float64 // cosine of the sweep of the hinge line
}

// HingeMoments are the moments of every control about its hinge line, surface by surface in the order of the
// airframe; rotation is about momentPoint (datum axes, m). Controls that turn a whole surface (hinge at 0) are taken about
// their leading edge.
//
// Eight panels stand along a chord, two to four of them on a flap: their plain sum is wrong by up to a sixth (by half at four
// panels), the cosine series through them by up to 7 %. The loading is instead split into that of a plain flap in thin-aerofoil
// theory, integrated in closed form, and a smooth rest, of which the panels give the series.
//
// These are moments of ideal flow about a plain flap. A gap, a boundary layer thick towards the trailing edge and its
// angle commonly take a third off both slopes and more off ByAlpha (common practice, no source); noses ahead of the hinge line,
// horns and tabs are not known here. Hinge.Effectiveness scales the deflection's part like the lift that it gives.
func (s *Solution) HingeMoments(state State, momentPoint r3.Vec) []HingeMoment {
	w := s.weights(state, momentPoint)
	all := s.hingedControls()
	out := make([]HingeMoment, len(all))
	for i := range all {
		out[i] = all[i].moment(s.hingeForm(&all[i], w, w))
	}
	return out
}

// HingeDerivatives are the exact derivatives of HingeMoments about a state, in the same order.
func (s *Solution) HingeDerivatives(state State, momentPoint r3.Vec) []HingeDerivatives {
	w := s.weights(state, momentPoint)
	all := s.hingedControls()
	out := make([]HingeDerivatives, len(all))
	steps := s.changesOf(state, momentPoint)
	for i := range all {
		h := &all[i]
		d := &out[i]
		d.HingeMoment = h.moment(s.hingeForm(h, w, w))
		by := func(step []float64) float64 {
			return h.moment(s.hingeForm(h, w, step) + s.hingeForm(h, step, w)).Coefficient
		}
		d.ByAlpha, d.ByBeta = by(steps.alpha), by(steps.beta)
		d.ByRollRate, d.ByPitchRate, d.ByYawRate = by(steps.roll), by(steps.pitch), by(steps.yaw)
		d.ByControl = make(map[string]float64, len(steps.controls))
		for c, step := range steps.controls {
			d.ByControl[s.controls.controls[c].name] = by(step)
		}
	}
	return out
}

// TrimmedHinge is the hinge moment of the balancing control in steady level flight.
type TrimmedHinge struct {
	Lift        float64 // lift coefficient
	Alpha       float64 // rad
	Deflection  float64 // rad
	Coefficient float64 // of the surface's hinge moment
	PerWeight   float64 // moment of both halves over the weight, m: what the stick feels at this lift coefficient, whatever the height
}

// TrimmedHinges are the hinge moments of a control on a surface, balanced as b says at each of the lift coefficients: the trend
// of the stick force before any spring or tab. An error says what cannot be trimmed or that there is no such control.
func (s *Solution) TrimmedHinges(b Balance, surface string, lifts []float64) ([]TrimmedHinge, error) {
	out := make([]TrimmedHinge, 0, len(lifts))
	for _, cl := range lifts {
		b.Lift = cl
		state, err := s.Balanced(b)
		if err != nil {
			return nil, fmt.Errorf("hinge moments in trim: %w", err)
		}
		found := false
		for _, h := range s.HingeMoments(state, b.MomentPoint) {
			if h.Control != b.Control || h.Surface != surface {
				continue
			}
			found = true
			out = append(out, TrimmedHinge{
				Lift: cl, Alpha: state.Alpha, Deflection: state.Controls[b.Control], Coefficient: h.Coefficient,
				PerWeight: s.halves(surface) * h.Moment / (s.airframe.Reference.Area * cl),
			})
		}
		if !found {
			return nil, fmt.Errorf("hinge moments in trim: surface %q has no control %q", surface, b.Control)
		}
	}
	return out, nil
}

// halves is 2 for a mirrored surface, 1 for one on the plane of symmetry.
func (s *Solution) halves(surface string) float64 {
	for _, a := range s.airframe.Surfaces {
		if a.Name == surface && !a.Mirrored {
			return 1
		}
	}
	return 2
}

// moment turns the form of a control, m³, into its result.
func (h *hinged) moment(value float64) HingeMoment {
	return HingeMoment{h.control, h.surface, value / (h.area * h.chord), value, h.area, h.chord}
}

// hingedControls finds the strips of every control, surface by surface.
func (s *Solution) hingedControls() []hinged {
	var out []hinged
	for i, surface := range s.airframe.Surfaces {
		seen := make(map[string]bool)
		for _, h := range surface.Hinges {
			if seen[h.Control] {
				continue
			}
			seen[h.Control] = true
			if found := s.hingedControl(i, h.Control); len(found.strips) > 0 {
				out = append(out, found)
			}
		}
	}
	return out
}

func (s *Solution) hingedControl(surface int, control string) hinged {
	a := &s.airframe.Surfaces[surface]
	out := hinged{control: control, surface: a.Name}
	index := s.controls.index(control)
	flaps := make(map[float64]*flap)
	sum := 0.0
	for k := range s.grid.strips {
		st := &s.grid.strips[k]
		if st.surface != surface {
			continue
		}
		for _, h := range st.hinges {
			if h.control != index {
				continue
			}
			if flaps[h.hinge] == nil {
				flaps[h.hinge] = newFlap(s.grid.chord, h.hinge)
			}
			square := 1 / math.Hypot(1, st.slopeAt(h.hinge))
			out.strips = append(out.strips, hingedStrip{k, flaps[h.hinge], senseOf(a.Role, control, &bay{normal: st.normal}), square})
			share := 1 - h.hinge
			first, last := share*st.chordA, share*st.chordB
			out.area += st.width * (first + last) / 2
			sum += square * st.width * (first*first + first*last + last*last) / 3
		}
	}
	out.chord = sum / out.area
	return out
}

// slopeAt is the tangent of the sweep of the line at a chord fraction, along the strip's own width.
func (s *strip) slopeAt(fraction float64) float64 {
	return (s.b.X - s.a.X + fraction*(s.chordB-s.chordA)) / s.width
}
