package similitude

import "math"

// BallastRow is one quantity before and behind the ballast.
type BallastRow struct {
	Quantity string   `json:"quantity"` // mass, cg_x, cg_z, Ix, Iy, Iz, Ixz
	Unit     string   `json:"unit"`     // kg, m, kg·m²; at model size
	Target   float64  `json:"target"`
	Now      float64  `json:"as_weighed"`
	Exact    float64  `json:"with_exact_ballast"`
	After    float64  `json:"with_ballast"`      // with what the kitchen scale weighs
	Left     float64  `json:"left_over"`         // After less Target, in Unit
	Percent  *float64 `json:"left_over_percent"` // of the target (of Ixz, of the target Iz); null for a CG
}

// Proposal is what to put where.
type Proposal struct {
	Lumps []Lump       `json:"lumps"`
	Added float64      `json:"added_kg"`
	Step  float64      `json:"rounded_to_kg"` // on each side
	Rows  []BallastRow `json:"rows"`          // mass and CG x first

	// What one single lump would have to be to bring mass and CG x onto their targets: below 0 the model is too heavy.
	WantedMass float64  `json:"wanted_kg"`
	WantedX    *float64 `json:"wanted_x_m"` // null when no weight is missing

	Met    bool     `json:"mass_and_cg_met"` // to within what rounding leaves
	Full   []string `json:"full_bays"`
	Advice []string `json:"advice"` // what is not met, by how much, and what would help

	Body Body `json:"-"` // the model with its ballast
}

// Propose works out the ballast. The model is taken as it was weighed, with whatever ballast it carried then: nothing is
// taken out of it.
//
// It returns an error where Check does.
func Propose(b Ballasting) (Proposal, error) {
	if err := b.Check(); err != nil {
		return Proposal{}, err
	}
	at := spots(b.Bays)
	exact, err := b.solve(at)
	if err != nil {
		return Proposal{}, err
	}
	ideal := b.Now.with(at, exact)
	at, exact = b.gather(at, exact)
	rounded := b.round(at, exact)
	p := Proposal{Lumps: []Lump{}, Step: b.step(), Full: []string{}, Advice: []string{}, WantedMass: b.Target.Mass - b.Now.Mass, Body: b.Now.with(at, rounded)}
	if p.WantedMass > p.Step {
		x := (b.Target.Mass*b.Target.CG.X - b.Now.Mass*b.Now.CG.X) / p.WantedMass
		p.WantedX = &x
	}
	for i, s := range at {
		if rounded[i] > 0 {
			p.Lumps = append(p.Lumps, Lump{b.Bays[s.bay].Name, s.x, s.y, s.z, rounded[i], s.sides(), rounded[i] / float64(s.sides()), exact[i]})
			p.Added += rounded[i]
		}
	}
	p.Rows = b.compare(ideal, p.Body)
	p.Met = b.met(ideal)
	p.Full = b.full(at, exact)
	p.Advice = append(p.Advice, b.advise(p, ideal)...)
	return p, nil
}

// met tells whether exact masses give mass and CG x: to a thousandth of a percent and of a millimetre.
func (b Ballasting) met(ideal Body) bool {
	return math.Abs(ideal.Mass/b.Target.Mass-1) < 1e-5 && math.Abs(ideal.CG.X-b.Target.CG.X) < 1e-6
}

// full lists the bays that hold all they can.
func (b Ballasting) full(at []spot, exact []float64) []string {
	held := make([]float64, len(b.Bays))
	for i, s := range at {
		held[s.bay] += exact[i]
	}
	out := []string{}
	for i, bay := range b.Bays {
		if held[i] > bay.Most-1e-6 {
			out = append(out, bay.Name)
		}
	}
	return out
}

func (b Ballasting) compare(ideal, after Body) []BallastRow {
	t, n := b.Target, b.Now
	line := func(quantity, unit string, target, now, exact, after, of float64) BallastRow {
		r := BallastRow{Quantity: quantity, Unit: unit, Target: target, Now: now, Exact: exact, After: after, Left: after - target}
		if of != 0 {
			share := 100 * r.Left / of
			r.Percent = &share
		}
		return r
	}
	rows := []BallastRow{line("mass", "kg", t.Mass, n.Mass, ideal.Mass, after.Mass, t.Mass), line("cg_x", "m", t.CG.X, n.CG.X, ideal.CG.X, after.CG.X, 0)}
	for _, i := range []struct {
		asked bool
		row   BallastRow
	}{
		{b.Asked.Z, line("cg_z", "m", t.CG.Z, n.CG.Z, ideal.CG.Z, after.CG.Z, 0)},
		{b.Asked.Ix, line("Ix", "kg·m²", t.Ix, n.Ix, ideal.Ix, after.Ix, t.Ix)},
		{b.Asked.Iy, line("Iy", "kg·m²", t.Iy, n.Iy, ideal.Iy, after.Iy, t.Iy)},
		{b.Asked.Iz, line("Iz", "kg·m²", t.Iz, n.Iz, ideal.Iz, after.Iz, t.Iz)},
		{b.Asked.Ixz, line("Ixz", "kg·m²", t.Ixz, n.Ixz, ideal.Ixz, after.Ixz, t.Iz)},
	} {
		if i.asked {
			rows = append(rows, i.row)
		}
	}
	return rows
}
