package study

import (
	"strings"

	"wingproof/aero/similitude"
	"wingproof/cmd/wingproof/internal/program"
)

// ballast proposes what goes where, or notes why it cannot.
func (s *Scaling) ballast(p *program.Program, w *program.Weighing) error {
	switch {
	case w == nil:
		s.note("the model is not weighed, so no ballast can be proposed: wingproof weigh --help")
		return nil
	case len(s.Sheet.CG) == 0:
		s.note("no target for the CG, so no ballast is proposed: state empty_mass_kg, empty_cg_x_m, empty_cg_z_m and a [[loading]] that flies in program.toml")
		return nil
	case len(p.Model.Bays) == 0:
		s.note("no ballast is proposed, because program.toml names no place for it; for each place add a table [[model.bay]] with name, x_mm (or x_from_mm and x_to_mm), y_mm where there is one on either side, z_mm and most_kg, all at model size")
		return nil
	}
	task := similitude.Ballasting{Now: bodyOf(w, p.Model.LengthRatio), Target: s.target(), Asked: s.asked(w)}
	if !task.Asked.Z {
		task.Now.CG.Z = task.Target.CG.Z
		s.note("the weighing has no height of the CG (cg_z): the target's is taken, and the ballast is not chosen by height")
	}
	s.noteInertias(task.Asked)
	for _, b := range p.Model.Bays {
		task.Bays = append(task.Bays, similitude.Bay{Name: b.Name, From: b.From, To: b.To, Y: b.Y, Z: b.Z, Most: b.Most})
	}
	proposal, err := similitude.Propose(task)
	if err != nil {
		return err
	}
	s.Ballast = &proposal
	return nil
}

func bodyOf(w *program.Weighing, ratio float64) similitude.Body {
	return similitude.Body{Mass: w.Mass, CG: similitude.Place{X: w.CGX * ratio, Z: w.CGZ * ratio}, Ix: w.Ix, Iy: w.Iy, Iz: w.Iz, Ixz: w.Ixz}
}

// target is the model as it should be.
func (s *Scaling) target() similitude.Body {
	b := similitude.Body{CG: similitude.Place{X: s.Sheet.CG[0].Target, Z: s.Sheet.CG[1].Target}}
	for _, r := range s.Sheet.Rows {
		switch r.Quantity {
		case "mass":
			b.Mass = r.Target
		case "Ix":
			b.Ix = r.Target
		case "Iy":
			b.Iy = r.Target
		case "Iz":
			b.Iz = r.Target
		case "Ixz":
			b.Ixz = r.Target
		}
	}
	return b
}

// asked are the quantities that have a target and were measured.
func (s *Scaling) asked(w *program.Weighing) similitude.Asked {
	a := similitude.Asked{Z: w.CGZKnown}
	for _, r := range s.Sheet.Rows {
		measured := r.Measured != nil
		switch r.Quantity {
		case "Ix":
			a.Ix = measured
		case "Iy":
			a.Iy = measured
		case "Iz":
			a.Iz = measured
		case "Ixz":
			a.Ixz = measured && w.Iz > 0
		}
	}
	return a
}

// noteInertias says which inertias have no part in the choice.
func (s *Scaling) noteInertias(a similitude.Asked) {
	var left []string
	for _, i := range []struct {
		name  string
		asked bool
	}{{"Ix", a.Ix}, {"Iy", a.Iy}, {"Iz", a.Iz}} {
		if !i.asked {
			left = append(left, i.name)
		}
	}
	if len(left) > 0 {
		s.note("%s: not stated at full size or not swung on the model, so the ballast is not chosen by it", strings.Join(left, ", "))
	}
}
