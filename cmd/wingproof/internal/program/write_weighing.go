package program

import (
	"fmt"
	"math"
	"os"
	"strings"
)

// weighingHeads are those of a new table.
func weighingHeads() []string {
	return []string{"weighing", "date", "mass_kg", "mass_sd_kg", "cg_x_mm", "cg_x_sd_mm", "cg_z_mm", "cg_z_sd_mm",
		"ix_kg_m2", "ix_sd_kg_m2", "iy_kg_m2", "iy_sd_kg_m2", "iz_kg_m2", "iz_sd_kg_m2", "ixz_kg_m2", "ixz_sd_kg_m2", "notes"}
}

// AddWeighing puts one row behind those of the weighings' table and returns the file's name.
//
// The weighing is as Program holds it, its CG at full size; what is 0 was not measured and stays empty, and so does the height unless CGZKnown.
// The rows that are there keep every byte; the new one follows in the dialect of the table, in the units of its heads. It refuses with
// *Refused a weighing without name, date, mass or CG, one whose name stands there already, and one that cannot be of this model; with *InUse
// when the table is open elsewhere or changed meanwhile; with Mistakes when the folder cannot be read, or the table lacks a column.
func AddWeighing(dir string, w Weighing, notes string) (file string, err error) {
	w.Name = strings.Join(strings.Fields(w.Name), " ")
	p, err := Load(dir)
	if err != nil {
		return "", err
	}
	if err := p.acceptable(w); err != nil {
		return "", err
	}
	found, err := read(os.DirFS(dir), dir)
	if err != nil {
		return "", err
	}
	file = found.weighings
	var t *table
	g := ledger{file: file, heads: weighingHeads(), read: func(l *loader, read *table) {
		t, l.p.Weighings = read, nil
		l.readWeighings(t)
		t.done()
	}}
	cells := func(l *loader) (map[string]string, error) {
		if t == nil { // absent: the heads of a new one
			t = l.readTable(file, []byte(strings.Join(weighingHeads(), ",")+"\n"))
		}
		if old, twice := known(w.Name, l.weighingNames()); twice {
			return nil, refusef("%s holds a weighing %s already; give this one another name", file, quoted(old))
		}
		return l.weighingCells(file, t, w, notes)
	}
	return file, g.add(dir, cells, func() error { return nil })
}

// acceptable refuses a weighing that says too little or cannot be of this model.
func (p *Program) acceptable(w Weighing) error {
	if w.Name == "" {
		return refusef("a weighing needs a name, such as aft ballast")
	}
	if err := keepsInASpreadsheet("the name", w.Name); err != nil {
		return err
	}
	if w.Date == "" {
		return refusef("a weighing needs its date; fill in the column date, or add --date 2026-03-14")
	}
	if !(w.Mass > 0) || !finite(w.CGX) {
		return refusef("a row of the weighings needs mass and CG, and this sheet does not give both")
	}
	for _, i := range []struct {
		name  string
		value float64
	}{{"Ix", w.Ix}, {"Iy", w.Iy}, {"Iz", w.Iz}} {
		if i.value < 0 {
			return refusef("%s comes out negative; look at the lengths and timings of its swings", i.name)
		}
	}
	if doubts := p.DoubtWeighing(w); len(doubts) > 0 {
		return refusef("%s", strings.Join(doubts, "; "))
	}
	return nil
}

// DoubtWeighing says why a weighing cannot be of the model of this program: what reading the table would refuse.
func (p *Program) DoubtWeighing(w Weighing) []string {
	l := &loader{p: p}
	var out []string
	if front, back, ok := l.extent(); ok && finite(w.CGX) && (w.CGX < front || w.CGX > back) {
		out = append(out, fmt.Sprintf("the CG comes out at %.0f mm of the model, whose surfaces reach from %.0f to %.0f mm; are the stations aft of the model's datum, in the unit of their heads?",
			1000*w.CGX*p.Model.LengthRatio, 1000*front*p.Model.LengthRatio, 1000*back*p.Model.LengthRatio))
	}
	scaled := p.FullSize.Mass.Value * math.Pow(p.Model.LengthRatio, 3)
	if w.Mass > 0 && scaled > 0 && (w.Mass > strangeMass*scaled || w.Mass < scaled/strangeMass) {
		out = append(out, fmt.Sprintf("the mass comes out at %.4g kg, and a model to scale weighs %.3g kg; look at the units of the readings and tares", w.Mass, scaled))
	}
	return out
}

// weighingCells writes a weighing for the heads of the table.
func (l *loader) weighingCells(file string, t *table, w Weighing, notes string) (map[string]string, error) {
	for i := range t.heads {
		t.heads[i].taken = false
	}
	before := len(l.mistakes)
	c := weighingColumnsOf(t)
	l.mistakes = l.mistakes[:before] // what is wrong with the heads has been told
	row := cardWriter{table: t, cells: map[string]string{}}
	row.text(c.name, "weighing", w.Name, true)
	row.text(c.date, "date", w.Date, true)
	row.text(c.notes, "notes", notes, false)
	ratio := l.p.Model.LengthRatio
	for _, one := range []struct {
		value, spread column
		si, sd        float64
		there         bool
	}{
		{c.mass, c.massSD, w.Mass, w.MassSD, true},
		{c.x, c.xSD, w.CGX * ratio, w.CGXSD * ratio, true},
		{c.z, c.zSD, w.CGZ * ratio, w.CGZSD * ratio, w.CGZKnown},
		{c.ix, c.ixSD, w.Ix, w.IxSD, w.Ix != 0}, {c.iy, c.iySD, w.Iy, w.IySD, w.Iy != 0}, {c.iz, c.izSD, w.Iz, w.IzSD, w.Iz != 0},
		{c.ixz, c.ixzSD, w.Ixz, w.IxzSD, w.IxzSD > 0},
	} {
		if one.there {
			row.number(one.value, one.value.name(), one.si, decimalsFor(one.value, one.sd), true)
			row.number(one.spread, one.spread.name(), one.sd, decimalsFor(one.spread, one.sd), true)
		}
	}
	if len(row.lacking) > 0 {
		l.mistakes = nil
		l.wrong(file, t.headSpot, "", "there is no column for what was measured: "+listed(row.lacking), "write these heads behind the others, leave their cells empty in the other rows, and repeat (nothing was written)")
		return nil, l.mistakes
	}
	return row.cells, nil
}

// decimalsFor shows an error to two figures in the unit of its column.
func decimalsFor(c column, sd float64) int {
	written := sd
	if c.index >= 0 {
		written = c.unit.From(sd)
	}
	if !(written > 0) {
		return 4
	}
	return max(0, min(8, 1-int(math.Floor(math.Log10(written)))))
}
