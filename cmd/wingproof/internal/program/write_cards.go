package program

import (
	"fmt"
	"maps"
	"math"
	"strconv"
	"strings"

	"wingproof/flightlog/unit"
)

// OtherCard is a card that cannot be written because the table holds another one of the same name.
type OtherCard struct {
	Name string
	Row  int
}

// Error says where it stands and what to do.
func (e *OtherCard) Error() string {
	return fmt.Sprintf("%s: row %d holds another card %s; take its flight's rows out, or plan for another flight with --first-flight (nothing was written)", CardsFile, e.Row, quoted(e.Name))
}

// AddCards puts cards behind those of cards.csv and returns how many it wrote: cards that stand there alike are left as they are.
//
// The rows that are there keep every byte; the new ones follow in the dialect of the table, in the units of its heads. The table is made when
// it is absent. AddCards writes all cards or none. It refuses with *OtherCard when a name is taken by another card; with *InUse when the table
// is open elsewhere; with Mistakes when the table cannot be read, or lacks a column that a card needs.
func AddCards(dir string, cards []Card) (written int, err error) {
	var t *table
	var c cardColumns
	g := ledger{file: CardsFile, read: func(l *loader, read *table) {
		t, l.p.Cards = read, nil
		l.readCards(t)
		t.done()
		for i := range t.heads {
			t.heads[i].taken = false
		}
		before := len(l.mistakes)
		c = l.cardColumns(t) // which columns there are; what is wrong with them has been told
		l.mistakes = l.mistakes[:before]
	}}
	p, err := Load(dir)
	if err != nil {
		return 0, err
	}
	g.heads = cardHeads(p)
	rows := func(l *loader) ([]map[string]string, error) {
		if t == nil {
			l.p.Cards = nil
		}
		fresh, err := l.freshCards(cards)
		if err != nil {
			return nil, err
		}
		var out []map[string]string
		for _, card := range fresh {
			cells, err := l.cardCells(t, c, card)
			if err != nil {
				return nil, err
			}
			out = append(out, cells)
		}
		written = len(out)
		return out, nil
	}
	if err := g.addRows(dir, rows, func() error { return nil }); err != nil {
		return 0, err
	}
	return written, nil
}

// cardHeads are those of a new table.
func cardHeads(p *Program) []string {
	heads := []string{"card", "flight", "manoeuvre", "control", "speed_m_s", "speed_tolerance_percent", "bank_deg", "repeats"}
	for _, choice := range p.Choices {
		heads = append(heads, folded(choice.Name))
	}
	return append(heads, "notes")
}

// freshCards are the cards that the table does not hold yet.
func (l *loader) freshCards(cards []Card) ([]Card, error) {
	there := map[string]Card{}
	for _, card := range l.p.Cards {
		there[folded(card.Name)] = card
	}
	var out []Card
	for _, card := range cards {
		old, ok := there[folded(card.Name)]
		switch {
		case !ok:
			out = append(out, card)
		case !old.alike(card):
			return nil, &OtherCard{card.Name, old.Row}
		}
	}
	return out, nil
}

// alike tells whether two cards ask for the same, as far as the table's decimals go.
func (c Card) alike(o Card) bool {
	const speed, share, angle = 0.1, 1e-3, 0.6 * math.Pi / 180
	bank := c.Bank == nil && o.Bank == nil || c.Bank != nil && o.Bank != nil && math.Abs(*c.Bank-*o.Bank) < angle
	return c.Manoeuvre == o.Manoeuvre && c.Control == o.Control && folded(c.Flight) == folded(o.Flight) && c.Repeats == o.Repeats && bank &&
		math.Abs(c.Speed-o.Speed) < speed && math.Abs(c.SpeedTolerance-o.SpeedTolerance) < share && maps.Equal(c.Levels, o.Levels)
}

// cardCells writes a card for the heads of the table; nil t is a new one.
func (l *loader) cardCells(t *table, c cardColumns, card Card) (map[string]string, error) {
	w := cardWriter{table: t, cells: map[string]string{}}
	w.text(c.name, "card", card.Name, true)
	w.text(c.flight, "flight", card.Flight, card.Flight != "")
	w.text(c.manoeuvre, "manoeuvre", card.Manoeuvre, true)
	w.text(c.control, "control", card.Control, card.Control != "")
	w.text(c.notes, "notes", card.Notes, false)
	w.number(c.speed, "speed_m_s", card.Speed, 1, card.Speed > 0)
	w.number(c.tolerance, "speed_tolerance_percent", card.SpeedTolerance, 1, math.Abs(card.SpeedTolerance-defaultSpeedTolerance) > 1e-9)
	if card.Bank != nil {
		w.number(c.bank, "bank_deg", *card.Bank, 3, true)
	}
	w.text(c.repeats, "repeats", strconv.Itoa(card.Repeats), card.Repeats != defaultRepeats)
	for i, choice := range l.p.Choices {
		var at column
		if t != nil {
			at = c.choices[i]
		}
		w.text(at, folded(choice.Name), card.Levels[choice.Name], card.Levels[choice.Name] != "")
	}
	if len(w.lacking) > 0 {
		l.mistakes = nil
		l.wrong(CardsFile, t.headSpot, "", "there is no column for what the cards hold: "+listed(w.lacking), "add columns headed so, and repeat (nothing was written)")
		return nil, l.mistakes
	}
	return w.cells, nil
}

// cardWriter fills the cells of one row.
type cardWriter struct {
	table   *table // nil: a new one
	cells   map[string]string
	lacking []string // heads that the table would need
}

// head is the one under which a value goes; ok is false when the table has none.
func (w *cardWriter) head(c column, usual string, needed bool) (head string, ok bool) {
	switch {
	case w.table == nil:
		return usual, true
	case c.index >= 0:
		return w.table.heads[c.index].name, true
	case needed:
		w.lacking = append(w.lacking, usual)
	}
	return "", false
}

func (w *cardWriter) text(c column, usual, text string, needed bool) {
	if head, ok := w.head(c, usual, needed); ok {
		w.cells[head] = text
	}
}

// number writes an SI value in the unit of its head, with a decimal comma where the table has them.
func (w *cardWriter) number(c column, usual string, si float64, decimals int, needed bool) {
	head, ok := w.head(c, usual, needed)
	if !ok {
		return
	}
	u := c.unit
	if w.table == nil {
		u = unitOfHead(usual)
	}
	text := strconv.FormatFloat(u.From(si), 'f', decimals, 64)
	text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	if w.table != nil && w.table.commas && w.table.dialect.separator != ',' {
		text = strings.Replace(text, ".", ",", 1)
	}
	w.cells[head] = text
}

// unitOfHead is the unit behind a head of a new table.
func unitOfHead(head string) unit.Unit {
	for _, d := range []unit.Dimension{unit.Speed, unit.Share, unit.Angle} {
		if _, u, ok := unit.Suffix(head, d); ok {
			return u
		}
	}
	return unit.Unit{Dimension: unit.None, Factor: 1}
}
