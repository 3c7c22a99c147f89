package identify

import "math"

// problem is one fit under way.
type problem struct {
	layout   *layout
	setup    *Setup
	segments []*Segment
	shift    shifted
	tracks   []*track
	common   []float64 // the layout's common parameters, then the times of servos that are not known
	late     []int     // surfaces whose servo is not known
	noise    []float64 // variance of each output
}

// newProblem prepares checked segments, one layout for all.
func newProblem(segments []*Segment, axis Axis, setup *Setup) *problem {
	p := &problem{layout: longitudinalLayout(), setup: setup, segments: segments, shift: shifted{reported: asReported()}}
	if axis == Lateral {
		p.layout = lateralLayout()
	}
	for i, control := range surfacesOf(axis) {
		if _, known := setup.Servos[control]; !known {
			p.late = append(p.late, i)
		}
	}
	for _, s := range segments {
		p.tracks = append(p.tracks, newTrack(s, p.layout, setup, p.shift))
	}
	p.start()
	p.common = append(p.common, make([]float64, len(p.late))...)
	p.noise = make([]float64, len(p.layout.outputs))
	return p
}

// columns of the common parameters.
func (p *problem) commons() int { return len(p.layout.common) + len(p.late) }

// knownOf is what is known beforehand of a common parameter.
func (p *problem) knownOf(j int) prior {
	shared := len(p.layout.common)
	switch {
	case j >= shared:
		return prior{0, unknownLag}
	case j < len(p.layout.known):
		return p.layout.known[j]
	}
	return prior{}
}

// place hands parameters to the tracks: models their coefficients, surfaces their times.
func (p *problem) place() {
	for _, t := range p.tracks {
		for i, number := range p.late {
			late := p.common[len(p.layout.common)+i]
			t.controls[number].servo.Delay = math.Max(0, unknownServo().Delay+late)
		}
		t.plant.set(p.common, t.own)
		t.placeSurfaces(t.own[p.layout.edge():])
	}
}

// point is a set of parameters.
type point struct {
	common []float64
	own    [][]float64
}

func (p *problem) point() point {
	out := point{common: append([]float64(nil), p.common...)}
	for _, t := range p.tracks {
		out.own = append(out.own, append([]float64(nil), t.own...))
	}
	return out
}

// move sets the parameters to a point plus a step.
func (p *problem) move(from, step point) {
	for j, v := range from.common {
		p.common[j] = v + step.common[j]
	}
	for i, t := range p.tracks {
		for j, v := range from.own[i] {
			t.own[j] = v + step.own[i][j]
		}
	}
	p.place()
}

// set goes to a point.
func (p *problem) set(to point) {
	copy(p.common, to.common)
	for i, t := range p.tracks {
		copy(t.own, to.own[i])
	}
	p.place()
}

// priorCost is what the prior knowledge makes of the present parameters.
func (p *problem) priorCost() float64 {
	sum := 0.0
	for j, v := range p.common {
		if known := p.knownOf(j); known.sd > 0 {
			away := (v - known.mean) / known.sd
			sum += away * away
		}
	}
	for _, t := range p.tracks {
		for j, v := range t.own {
			if t.sd[j] > 0 {
				away := (v - t.mean[j]) / t.sd[j]
				sum += away * away
			}
		}
	}
	return sum
}
