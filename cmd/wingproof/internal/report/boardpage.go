package report

import (
	"bytes"
	"fmt"
	"html/template"
	"slices"
	"strings"
)

// boardPage is the wall sheet as its template wants it.
type boardPage struct {
	Content
	*wallSheet
	Style template.CSS
	Sizes template.CSS // custom properties: the size of letters and the room of the names, by box
}

// Plain tells that nothing on the sheet needs a script to be read.
func (boardPage) Plain() bool { return true }

// BoardPage renders the wall sheet: one sheet of A4 or Letter, or of A3, that is read at three metres. Its letters are as large as its
// rows leave them room, and never too small: a board that is too long says that it takes more sheets and breaks between rows.
func BoardPage(c Content) ([]byte, error) {
	css, err := assets.ReadFile("assets/wall.css")
	if err != nil {
		return nil, err
	}
	w := newWallSheet(c)
	p := boardPage{Content: c, wallSheet: w, Style: template.CSS(css), Sizes: w.lay()}
	var b bytes.Buffer
	err = execute(&b, "wall.gohtml", p)
	return b.Bytes(), err
}

// lay fits the sheet into every box, says where its small text stands, and where another sheet begins.
func (w *wallSheet) lay() template.CSS {
	var sizes []string
	w.Leaves = 1
	boxes := sheetBoxes()
	_, w.OneA3 = w.fit(boxes[slices.IndexFunc(boxes, func(b sheetBox) bool { return b.Name == "great" })]) // which the head tells of
	for i, box := range boxes {
		m, fits := w.fit(box)
		switch {
		case i == 0 && !fits:
			w.turn(m)
		case box.Name == "broad":
			w.Upright = !fits
		}
		if w.Leaves > 1 && (box.Name == "tall" || box.Name == "wide") { // which turn their pages at the same rows
			m.size = leastLetters
			m.partWidth = w.partWidth(m)
		}
		for k := range w.Rows {
			w.Rows[k].Under = append(w.Rows[k].Under, w.under(m, k))
		}
		sizes = append(sizes, fmt.Sprintf("--%s:%.2fmm;--%s-small:%.2fmm;--%s-part:%.1fmm", box.Name, m.size, box.Name, m.small(), box.Name, m.partWidth))
	}
	return template.CSS(strings.Join(sizes, ";"))
}

// turn begins another page where the next row would not fit any more, at the least size of letters.
func (w *wallSheet) turn(m measure) {
	w.Leaves = 2 // at least: the head says so, which takes a line
	height := spare * w.above(m)
	again := spare * (m.size*bigLeading + 2*blockGap) // what is repeated on the next page
	w.Leaves = 1
	for i := range w.Rows {
		h := spare * w.rowHeight(m, i)
		if height+h > m.box.Height && i > 0 {
			w.Leaves++
			w.Rows[i].Turn = w.Leaves
			height = again
		}
		height += h
	}
	if height+spare*w.below(m) > m.box.Height {
		w.Leaves++ // the notes behind the rows stand by themselves
	}
}

// UprightWords is for paper that lies across; empty where the board fits on it.
func (w *wallSheet) UprightWords() string {
	if !w.Upright {
		return ""
	}
	return "On A4 or Letter printed across, this board takes more than one page; print it upright."
}

// PagesWords says what to do with a board that is longer than a sheet; empty for one that is not.
func (w *wallSheet) PagesWords() string {
	if w.Leaves < 2 {
		return ""
	}
	words := fmt.Sprintf("On A4 or Letter this board takes %d pages: hang all of them side by side.", w.Leaves)
	if w.OneA3 {
		words += " On A3 it is one page."
	}
	return words
}

// Classes of a row: where its small text stands in each box, and the first row of a word.
func (r wallRow) Classes() string {
	var out []string
	if r.First {
		out = append(out, "first")
	}
	for i, box := range sheetBoxes() {
		if i < len(r.Under) && r.Under[i] {
			out = append(out, "under-"+box.Name)
		}
	}
	return strings.Join(out, " ")
}

// NotesApart tells whether the notes behind the rows need a page of their own.
func (w *wallSheet) NotesApart() bool {
	return w.Leaves > 1 && !slices.ContainsFunc(w.Rows, func(r wallRow) bool { return r.Turn == w.Leaves })
}
