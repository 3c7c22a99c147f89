package program

import (
	"math"

	"wingproof/flightlog/unit"
)

// Errors of a weighing when the table states none: common practice, no source.
const (
	defaultMassSD = 0.005 // relative
	defaultCGSD   = 0.002 // m at model size
	defaultSpread = 0.03  // of a moment of inertia, relative: a swing test with the air that moves along taken off
)

func inertia(stem string, least float64) measure {
	return measure{stem: stem, dimension: unit.Inertia, usual: "kg_m2", low: least, high: 1e5}
}

// weighingColumns are the columns of weighings.csv.
type weighingColumns struct {
	name, date, notes            column
	mass, massSD, x, xSD, z, zSD column
	ix, iy, iz, ixz              column
	ixSD, iySD, izSD, ixzSD      column
}

func weighingColumnsOf(t *table) weighingColumns {
	return weighingColumns{
		name: t.text("weighing", true), date: t.text("date", false),
		mass: t.measured(mass("mass").positive().required()), massSD: t.measured(mass("mass_sd")),
		x: t.measured(length("cg_x").in("mm").required()), xSD: t.measured(length("cg_x_sd").in("mm").atLeast(0)),
		z: t.measured(length("cg_z").in("mm")), zSD: t.measured(length("cg_z_sd").in("mm").atLeast(0)),
		ix: t.measured(inertia("ix", 0)), iy: t.measured(inertia("iy", 0)), iz: t.measured(inertia("iz", 0)), ixz: t.measured(inertia("ixz", -1e5)),
		ixSD: t.measured(inertia("ix_sd", 0)), iySD: t.measured(inertia("iy_sd", 0)), izSD: t.measured(inertia("iz_sd", 0)), ixzSD: t.measured(inertia("ixz_sd", 0)),
		notes: t.text("notes", false),
	}
}

// readWeighings reads the model on the scales. CGs become full-size metres here.
func (l *loader) readWeighings(t *table) {
	c := weighingColumnsOf(t)
	assumed := 0
	for _, r := range t.rows {
		w := Weighing{Name: t.need(r, c.name, "a name for this weighing, such as w1"), Date: t.date(r, c.date)}
		if _, twice := known(w.Name, l.weighingNames()); twice && w.Name != "" {
			t.wrong(r, c.name, "the weighing "+quoted(w.Name)+" is there twice", "give each weighing a name of its own")
		}
		var stated [2]bool
		w.Mass, _ = t.needNumber(r, c.mass)
		w.MassSD, stated[0] = t.number(r, c.massSD.or(defaultMassSD*w.Mass))
		w.CGX, _ = t.needNumber(r, c.x)
		w.CGXSD, stated[1] = t.number(r, c.xSD.or(defaultCGSD))
		w.CGZ, w.CGZKnown = t.number(r, c.z)
		w.CGZSD, _ = t.number(r, c.zSD.or(defaultCGSD))
		w.Ix, _ = t.number(r, c.ix)
		w.Iy, _ = t.number(r, c.iy)
		w.Iz, _ = t.number(r, c.iz)
		w.Ixz, _ = t.number(r, c.ixz)
		w.IxSD, _ = t.number(r, c.ixSD.or(defaultSpread*w.Ix))
		w.IySD, _ = t.number(r, c.iySD.or(defaultSpread*w.Iy))
		w.IzSD, _ = t.number(r, c.izSD.or(defaultSpread*w.Iz))
		w.IxzSD, _ = t.number(r, c.ixzSD)
		if !stated[0] || !stated[1] {
			assumed++
		}
		l.toFullSize(&w.CGX, &w.CGXSD, &w.CGZ, &w.CGZSD)
		l.checkModelCG(t, r, c.x, w.CGX)
		l.checkModelMass(t, r, c.mass, w.Mass)
		l.p.Weighings = append(l.p.Weighings, w)
	}
	if assumed > 0 {
		l.warn("%s: %d of %d weighings do not state mass_sd or cg_x_sd; 0.5 %% of the mass and 2 mm at the model are taken (common practice, no source)", t.file, assumed, len(l.p.Weighings))
	}
}

// or gives a column another number for empty cells.
func (c column) or(si float64) column { c.fallback = si; return c }

// toFullSize turns model lengths into full-size ones.
func (l *loader) toFullSize(lengths ...*float64) {
	ratio := l.p.Model.LengthRatio
	if !(ratio > 0) || math.IsInf(1/ratio, 0) {
		return
	}
	for _, x := range lengths {
		*x /= ratio
	}
}

func (l *loader) weighingNames() []string {
	return namesOf(l.p.Weighings, func(x Weighing) string { return x.Name })
}
