package program

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"wingproof/aero/weighing"
)

// sheetColumns are the columns of a weighing sheet by their stems.
type sheetColumns map[string]column

func sheetColumnsOf(t *table) sheetColumns {
	place := func(stem string) measure {
		return length(stem).in("mm").atLeast(-farthestOnModel).atMost(farthestOnModel)
	}
	positive := func(stem string) measure { return length(stem).in("mm").atMost(farthestOnModel).positive() }
	spread := func(stem string) measure { return length(stem).in("mm").atLeast(0).atMost(1) }
	grams := func(stem string) measure { return mass(stem).in("g").atMost(heaviestReading) }
	c := sheetColumns{}
	for _, word := range []string{"what", "run", "axis", "load", "point"} {
		c[word] = t.text(word, word == "what")
	}
	seconds := func(stem string) measure { return timing(stem) }
	for _, m := range []measure{
		place("x"), place("y"), place("z"), spread("position_sd"), angle("angle", -90, 90), angle("angle_sd", 0, 10),
		grams("reading").positive(), grams("tare"), grams("reading_sd").atMost(5),
		positive("spacing"), positive("length"), positive("pivot"), spread("distance_sd"),
		number("periods", 1, mostPeriods), seconds("time").positive(), seconds("time_sd").atMost(30), angle("amplitude", 0, 60),
		grams("hanger").positive(), positive("hanger_cg"),
	} {
		c[m.stem] = t.measured(m)
	}
	c["date"], c["notes"] = t.text("date", false), t.text("notes", false)
	return c
}

// sheetReader collects the runs of a sheet.
type sheetReader struct {
	l       *loader
	t       *table
	c       sheetColumns
	sheet   *WeighingSheet
	points  map[string]int // folded name to place in Session.Points
	placeOf map[string]row // where a point was placed first
	runs    []*sheetRun
	dated   row
	assumed map[string]string
}

// sheetRun is the rows that belong together.
type sheetRun struct {
	what, name string
	rows       []row
}

// ReadWeighingSheet reads what was written down at the bench, in any dialect of tables; name is what its mistakes are told with. A sheet that
// is filled in partly is fine: runs that lack something are left out and named in Missing. Mistakes come back at once, as Mistakes.
func ReadWeighingSheet(p *Program, name string, raw []byte) (WeighingSheet, error) {
	l := newLoader(nil, p.Dir)
	l.p = &Program{DateOrder: p.DateOrder}
	sheet := WeighingSheet{Session: weighing.Session{Gravity: gravityHere()}}
	t := l.readTable(name, raw)
	if t == nil {
		return sheet, l.mistakes.sorted()
	}
	r := &sheetReader{l: l, t: t, c: sheetColumnsOf(t), sheet: &sheet, points: map[string]int{}, placeOf: map[string]row{}, assumed: map[string]string{}}
	t.done()
	for _, one := range t.rows {
		r.sort(one)
	}
	for _, run := range r.runs {
		if run.what == "scale" || run.what == "tilt" {
			r.attitude(run)
		} else {
			r.swing(run)
		}
	}
	if len(l.mistakes) > 0 {
		return sheet, l.mistakes.sorted()
	}
	for _, stem := range sortedKeys(r.assumed) {
		sheet.Assumed = append(sheet.Assumed, r.assumed[stem])
	}
	return sheet, nil
}

// sort puts a row to its run, and refuses cells that have no meaning in such a row.
func (r *sheetReader) sort(one row) {
	r.date(one)
	if r.t.need(one, r.c["what"], oneOf(kindsOfRows())) == "" {
		return
	}
	what := r.t.named(one, r.c["what"], kindsOfRows(), "row")
	if what == "" {
		return
	}
	may := rowsOf()[slices.Index(kindsOfRows(), what)].columns
	for _, stem := range sortedKeys(r.c) {
		if text := one.cell(r.c[stem]).text; text != "" && !slices.Contains(may, stem) {
			r.t.wrong(one, r.c[stem], fmt.Sprintf("%s has no place in a row of %s", r.c[stem].name(), what), "empty the cell, or correct what")
		}
	}
	name := one.cell(r.c["run"]).text
	if name == "" && what == "scale" {
		name = "level"
	}
	if name == "" {
		r.t.wrong(one, r.c["run"], "run is empty", "write a name for the run that the row belongs to, such as nose up or yaw; rows of one run have the same")
		return
	}
	for _, run := range r.runs {
		if folded(run.name) == folded(name) {
			if run.what != what {
				r.t.wrong(one, r.c["run"], fmt.Sprintf("the run %s is one of %s, in row %d", quoted(name), run.what, run.rows[0].number), "give this run another name")
				return
			}
			run.rows = append(run.rows, one)
			return
		}
	}
	r.runs = append(r.runs, &sheetRun{what, strings.Join(strings.Fields(name), " "), []row{one}})
}

// date reads the day of the weighing, which any row may state.
func (r *sheetReader) date(one row) {
	iso := r.t.date(one, r.c["date"])
	switch {
	case iso == "":
	case r.sheet.Date == "":
		r.sheet.Date, r.dated = iso, one
	case r.sheet.Date != iso:
		r.t.wrong(one, r.c["date"], fmt.Sprintf("the date is %s here and %s in row %d", iso, r.sheet.Date, r.dated.number), "one sheet is of one day: correct one of the two, or make two sheets")
	}
}

// one reads a number that a whole run shares: any of its rows may state it, and all that do must agree.
func (r *sheetReader) one(run *sheetRun, stem string) (si float64, stated bool) {
	var first row
	for _, at := range run.rows {
		v, ok := r.t.number(at, r.c[stem])
		switch {
		case !ok:
		case !stated:
			si, stated, first = v, true, at
		case math.Abs(v-si) > 1e-9:
			r.t.wrong(at, r.c[stem], fmt.Sprintf("%s differs from that in row %d, and one run has one", r.c[stem].name(), first.number), "correct one of the two, or give the row a run of its own")
		}
	}
	return si, stated
}

// spread is one for an error; where no row of the run states it, the usual one is taken and told.
func (r *sheetReader) spread(run *sheetRun, stem string, usual float64, words string) float64 {
	sd, stated := r.one(run, stem)
	if stated {
		return sd
	}
	r.assumed[stem] = words
	return usual
}

// lacks notes a run that is left out.
func (r *sheetReader) lacks(run *sheetRun, what string) {
	r.sheet.Missing = append(r.sheet.Missing, fmt.Sprintf("run %s (%s): %s", quoted(run.name), run.what, what))
}
