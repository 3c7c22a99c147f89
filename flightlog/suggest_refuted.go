package flightlog

import "fmt"

// giveUp takes a quantity away from a column that only a loose word spoke for, a single letter perhaps, once its numbers speak against it,
// and looks for the quantity among the columns without words.
func (d *draft) giveUp(q Quantity, i int) {
	g := d.guesses[i]
	if g.refuted == "" || g.strong || g.written {
		return
	}
	d.guesses[i] = Guess{Column: g.Column, Sure: unknown, Why: fmt.Sprintf("a word of the head may mean %s, but %s", q, g.refuted)}
	delete(d.taken, q)
	d.findUnnamed(q)
	if found, there := d.taken[q]; there {
		d.weigh(q, found)
	}
}
