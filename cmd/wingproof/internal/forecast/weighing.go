package forecast

import (
	"math"

	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
)

// What the scales can do where nobody weighed the model yet, and its radii of gyration over the span where nobody swung it. Common practice, no
// source.
const (
	usualMassSD  = 0.005 // relative
	usualCGSD    = 0.002 // m on the model
	radiusX      = 0.13
	radiusY      = 0.16
	radiusZ      = 0.20
	leastInertia = 1e-4 // kg·m²
)

// scales is how the model is weighed before a rehearsed flight: as before the last flight that counts, at another CG.
type scales struct {
	weighing program.Weighing // as it would be written down; CG and name are those of the last one
	body     stability.Body   // the same, with what was not measured filled in
	cgZ      float64          // full-size m above datum
	assumed  []string
}

// scalesOf takes the weighing of the last flight that counts, else the newest one, else the full-size mass to scale.
func scalesOf(st *study.Study) scales {
	p := st.Program
	var s scales
	last := lastUsed(st)
	for _, w := range p.Weighings {
		if last != nil && w.Name == last.Weighing || last == nil && w.Date >= s.weighing.Date {
			s.weighing = w
		}
	}
	w := &s.weighing
	if last != nil {
		w.Mass, w.MassSD, w.CGXSD = last.Mass, last.MassSD, last.CGSD
	}
	if !(w.Mass > 0) {
		s.assumed = append(s.assumed, "nobody weighed the model yet: its mass is that of full size to scale in equally dense air, known to 0.5 %, its CG to 2 mm")
		w.Mass = p.FullSize.Mass.Value * math.Pow(p.Model.LengthRatio, 3)
		w.MassSD, w.CGXSD = usualMassSD*w.Mass, usualCGSD/p.Model.LengthRatio
	}
	s.cgZ = p.FullSize.EmptyZ.Value
	if w.CGZKnown {
		s.cgZ = w.CGZ
	}
	s.fill(st.Configurations[0].Airframe.Reference.Span * p.Model.LengthRatio)
	return s
}

// fill gives the body inertias where none were measured; the weighing stays without them, so that the reduction knows as little as it would.
func (s *scales) fill(span float64) {
	w := s.weighing
	s.body = stability.Body{Mass: w.Mass, Ix: w.Ix, Iy: w.Iy, Iz: w.Iz, Ixz: w.Ixz}
	missing := false
	for _, one := range []struct {
		of     *float64
		radius float64
	}{{&s.body.Ix, radiusX}, {&s.body.Iy, radiusY}, {&s.body.Iz, radiusZ}} {
		if *one.of <= 0 {
			missing = true
			*one.of = math.Max(leastInertia, w.Mass*one.radius*span*one.radius*span)
		}
	}
	if missing {
		s.body.Ixz = 0
		s.assumed = append(s.assumed, "nobody swung the model: derivatives of its motion stay unknown; the simulation takes usual radii of gyration")
	}
}

// lastUsed is the flight that counts and stands last in the order of the study; nil without one.
func lastUsed(st *study.Study) *study.Flight {
	for i := len(st.Flights) - 1; i >= 0; i-- {
		if st.Flights[i].Used {
			return &st.Flights[i]
		}
	}
	return nil
}

// at is the weighing at a CG [full-size m] under another name.
func (s scales) at(name, date string, cg float64) program.Weighing {
	w := s.weighing
	w.Name, w.Date, w.CGX = name, date, cg
	return w
}
