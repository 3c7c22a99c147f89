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
// Eight panels stand along a chord, two or three of them on a flap: their plain sum would be wrong by tens of per cent. The
// loading is instead split into that of a plain flap in thin-aerofoil theory, integrated in closed form, and
// a smooth rest, of which the panels give the cosine series.
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
				PerWeight: 2 * h.Moment / (s.airframe.Reference.Area * cl),
			})
		}
		if !found {
			return nil, fmt.Errorf("hinge moments in trim: surface %q has no control %q", surface, b.Control)
		}
	}
	return out, nil
}

// changes are the derivatives of a state's weights.
type changes struct {
	alpha, beta, roll, pitch, yaw []float64
	controls                      [][]float64
}

func (s *Solution) changesOf(state State, momentPoint r3.Vec) changes {
	r := s.airframe.Reference
	sinA, cosA := math.Sincos(state.Alpha)
	sinB, cosB := math.Sincos(state.Beta)
	stream := func(v r3.Vec) []float64 {
		step := make([]float64, len(s.circulation))
		s.setStream(step, state, v)
		return step
	}
	turn := func(omega r3.Vec) []float64 {
		step := make([]float64, len(s.circulation))
		addTurn(step, omega, momentPoint)
		return step
	}
	out := changes{
		alpha: stream(r3.Vec{X: -sinA * cosB, Z: cosA * cosB}),
		beta:  stream(r3.Vec{X: -cosA * sinB, Y: -cosB, Z: -sinA * sinB}),
		roll:  turn(r3.Vec{X: -2 / r.Span}), pitch: turn(r3.Vec{Y: 2 / r.MeanChord}), yaw: turn(r3.Vec{Z: -2 / r.Span}),
	}
	for c := range s.controls.controls {
		step := make([]float64, len(s.circulation))
		setControl(step, c, 1, r3.Vec{X: cosA * cosB, Y: -sinB, Z: sinA * cosB})
		out.controls = append(out.controls, step)
	}
	return out
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

// hingeForm is the hinge moment over ½ρV², m³, of the circulation with one set of weights in the velocity of another: a
// quadratic form in the state, as loads are.
func (s *Solution) hingeForm(h *hinged, circulation, velocity []float64) float64 {
	sum := 0.0
	for i := range h.strips {
		p := &h.strips[i]
		sum -= p.sense * p.square * s.flapForm(p, circulation, velocity)
	}
	return sum
}

// flapForm is the moment, m³, of the normal force on a strip's flap about its hinge line, arms along the chord.
func (s *Solution) flapForm(p *hingedStrip, circulation, velocity []float64) float64 {
	n := len(s.grid.chord.vortex)
	st := &s.grid.strips[p.index]
	pieces := s.pieces[3*n*p.index : 3*n*(p.index+1)] // n bound ones, then those of the inboard and of the outboard edge
	perCirculation, force := make([]float64, n), make([]float64, n)
	for k := range n {
		perCirculation[k] = s.normalForce(&pieces[k], st.normal, velocity)
		force[k] = perCirculation[k] * s.strengthIn(&pieces[k], circulation)
	}
	moment := 0.0
	for _, own := range st.hinges { // take the singular loading of every hinge on the strip apart
		deflection := circulation[firstControl+2*own.control]
		if own.hinge <= 0 || deflection == 0 {
			continue
		}
		source := p.flap
		if own.hinge != source.hinge {
			source = newFlap(s.grid.chord, own.hinge)
		}
		size := own.gain * deflection * st.chord * s.grid.field.slant(st.slopeAt(own.hinge)) *
			interpolate(s.grid.chord.vortex, perCirculation, own.hinge)
		for k := range force {
			force[k] -= size * source.discrete[k]
		}
		moment += size * p.flap.momentOf(source)
	}
	moment = st.chord * (moment + p.flap.momentOfSeries(force))
	for k := n; k < 3*n; k++ {
		e := &pieces[k]
		chord := st.chordA
		if k >= 2*n {
			chord = st.chordB
		}
		from, to, _ := s.grid.edgeSpan(e.row)
		along := s.normalForce(e, st.normal, velocity) * s.strengthIn(e, circulation)
		moment += along * chord * armBehind(p.flap.hinge, from, to)
	}
	return moment
}

// normalForce is the force along a normal over ½ρV² per unit circulation of a piece.
func (s *Solution) normalForce(e *element, normal r3.Vec, velocity []float64) float64 {
	var v r3.Vec
	for i, k := range velocity {
		if k != 0 {
			v = r3.Add(v, r3.Scale(k, s.velocity.at(i, e.sample)))
		}
	}
	return 2 * r3.Dot(r3.Cross(v, e.along), normal)
}

// strengthIn is the circulation of a piece in a state given by weights.
func (s *Solution) strengthIn(e *element, weights []float64) float64 {
	sum := 0.0
	for i, k := range weights {
		if k != 0 {
			sum += k * s.strength(e, i)
		}
	}
	return sum
}

// armBehind is the mean over a piece, spread evenly between two chord fractions, of its arm behind the hinge.
func armBehind(hinge, from, to float64) float64 {
	start := math.Max(from, hinge)
	if to <= start {
		return 0
	}
	return (to - start) / (to - from) * ((to+start)/2 - hinge)
}
