package program

import (
	"wingproof/flightlog/reduce"
	"wingproof/flightlog/unit"
)

func (l *loader) readMarks(t *table) {
	seconds := func(stem string) measure {
		return measure{stem: stem, dimension: unit.Time, usual: "s", high: 1e6}.required()
	}
	flight, start, end := t.text("flight", true), t.measured(seconds("start")), t.measured(seconds("end"))
	manoeuvre := t.text("manoeuvre", true)
	for _, r := range t.rows {
		var m Mark
		t.need(r, flight, "the flight that is marked")
		m.Flight = r.cell(flight).text
		if l.flightsKnown {
			m.Flight = t.named(r, flight, l.flightNames(), "flight")
		}
		var okStart, okEnd bool
		m.Start, okStart = t.needNumber(r, start)
		m.End, okEnd = t.needNumber(r, end)
		if okStart && okEnd && m.End <= m.Start {
			t.wrong(r, end, "the stretch ends before it starts", "write an end later than the start")
		}
		m.Manoeuvre = t.named(r, manoeuvre, reduce.MarkKinds(), "manoeuvre")
		l.p.Marks = append(l.p.Marks, m)
	}
}
