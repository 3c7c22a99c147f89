package report

// Sizes of the wall sheet in millimetres on paper.
//
// A letter is told apart when it stands five minutes of arc high, which at three metres is 3000·tan(5/60°) = 4.4 mm (common practice, no
// source). Capitals of Liberation Sans are 0.688 of the size of its letters high, those of Arial 0.716 (from memory), so that
//
//	size 8.0: capitals of 5.5 mm and more, read at three metres with a quarter to spare
//	size 6.4: capitals of 4.4 mm: the least that is printed, below it the board takes another page
//
// The letters of about 22 rows with short reasons reach the first on A4; more rows or longer reasons make them smaller, down to
// the second. What is read close by, why and until when, is a third of that.
const (
	leastLetters = 6.4
	goodLetters  = 8.0
	mostLetters  = 12
	letterStep   = 0.05

	smallShare  = 0.3 // of the letters: why, what would clear it, needed by
	leastSmall  = 2.3 // 6.5 points
	noteShare   = 1.2 // of the small text: alarms, open questions, what would clear it
	bigLeading  = 0.98
	leading     = 1.16
	rowPadding  = 0.8 // above and below the text of a row, with its rule
	nameShare   = 0.6 // of the sheet is the most that names get
	groupGap    = 0.7 // more above the first row of a word
	columnGap   = 2.6
	blockGap    = 1.4 // between blocks of notes
	leastBeside = 22  // room that text beside a word needs
	spare       = 1.015
)

// sheetBox is the room that paper leaves within margins of 7 mm, in mm; boxes are those that a wall sheet is laid out for.
type sheetBox struct {
	Name          string
	Width, Height float64
}

// sheetBoxes: what the papers of a line have in common, and each of A4 and Letter by itself.
func sheetBoxes() []sheetBox {
	return []sheetBox{
		{"portrait", 196, 265}, // A4 and Letter
		{"tall", 196, 283},     // A4
		{"wide", 201, 265},     // Letter
		{"broad", 265, 196},    // A4 and Letter, landscape
		{"great", 265, 406},    // A3 and Tabloid
		{"greatbroad", 406, 265},
	}
}

// measure is what the text of a wall sheet takes at a size of letters in a box.
type measure struct {
	bold, plain *lettering
	size        float64 // of the letters, mm
	box         sheetBox
	partWidth   float64
}

func (m measure) small() float64 { return max(leastSmall, smallShare*m.size) }
func (m measure) note() float64  { return noteShare * m.small() }

// fit tells at which size of letters a wall sheet fills a box: the largest at which it is no higher; the least, with false, when it
// is higher at that one too.
func (w *wallSheet) fit(box sheetBox) (measure, bool) {
	m := measure{bold: w.bold, plain: w.plain, box: box}
	for step := int((w.most(m)-leastLetters)/letterStep + 1e-9); step >= 0; step-- {
		m.size = leastLetters + float64(step)*letterStep
		m.partWidth = w.partWidth(m)
		if w.height(m) <= box.Height {
			return m, true
		}
	}
	return m, false
}

// most is the size to begin with: not so large that the widest name breaks, where it need not at the size that is read at three metres.
func (w *wallSheet) most(m measure) float64 {
	widest := 0.0
	for _, r := range w.Rows {
		widest = max(widest, m.bold.width(r.Part, 1))
	}
	return min(mostLetters, max(goodLetters, nameShare*m.box.Width/(spare*widest+1e-9)))
}

// partWidth is the room of the names: that of the widest one, at most three fifths of the sheet.
func (w *wallSheet) partWidth(m measure) float64 {
	widest := 0.0
	for _, r := range w.Rows {
		widest = max(widest, m.bold.width(r.Part, m.size))
	}
	return min(spare*widest, nameShare*m.box.Width)
}

// height of the whole sheet.
func (w *wallSheet) height(m measure) float64 {
	h := w.above(m) + w.below(m)
	for i := range w.Rows {
		h += w.rowHeight(m, i)
	}
	return spare * h
}

// above is the height of head and notes before the rows, below that of the notes behind them.
func (w *wallSheet) above(m measure) float64 {
	h := m.size*1.15*bigLeading + blockGap + m.textHeight(w.Head, m.small(), false) + w.paperNotes(m)
	for _, block := range w.Above {
		h += m.blockHeight(block)
	}
	return h + blockGap
}

// paperNotes is the height of what the head says of the paper in this box: how many pages the board takes, and that it had better not
// lie across.
func (w *wallSheet) paperNotes(m measure) float64 {
	h := 0.0
	if words := w.PagesWords(); words != "" && m.box.Name != "great" && m.box.Name != "greatbroad" {
		h += m.textHeight(words, m.note(), true)
	}
	if words := w.UprightWords(); words != "" && m.box.Name == "broad" {
		h += m.textHeight(words, m.small(), true)
	}
	return h
}

func (w *wallSheet) below(m measure) float64 {
	h := 0.0
	for _, block := range w.Below {
		h += m.blockHeight(block)
	}
	return h + blockGap
}

// blockHeight is the height of a block of notes: its head stands in the first line.
func (m measure) blockHeight(b wallBlock) float64 {
	h := blockGap
	if b.Alarm {
		h += 2 * blockGap
	}
	for i, line := range b.Lines {
		if i == 0 && b.Head != "" {
			line = b.Head + ": " + line
		}
		h += m.textHeight(line, m.sizeOf(b), b.Alarm)
	}
	return h
}

func (m measure) sizeOf(b wallBlock) float64 {
	if b.Small {
		return m.small()
	}
	return m.note()
}

func (m measure) textHeight(text string, size float64, bold bool) float64 {
	letters := m.plain
	if bold {
		letters = m.bold
	}
	return float64(letters.lines(text, size, m.box.Width/spare-4)) * size * leading
}

// rowHeight is the height of row i, with its small text where it takes less room.
func (w *wallSheet) rowHeight(m measure, i int) float64 {
	beside, below := w.rowHeights(m, i)
	h := min(beside, below) + rowPadding
	if w.Rows[i].First {
		h += groupGap
	}
	return h
}

// under tells whether the small text of row i stands under its words and not beside them.
func (w *wallSheet) under(m measure, i int) bool {
	beside, below := w.rowHeights(m, i)
	return below < beside
}

// rowHeights are the heights of row i with its small text beside the words and under them.
func (w *wallSheet) rowHeights(m measure, i int) (beside, below float64) {
	const none = 1e6
	r := w.Rows[i]
	word := m.wordWidth(r)
	big := float64(max(m.bold.lines(r.Part, m.size, m.partWidth), m.bold.lines(r.Do(), m.size, m.box.Width-m.partWidth-columnGap))) * m.size * bigLeading
	line := m.small() * leading
	below = big + float64(m.plain.lines(r.Small(), m.small(), m.box.Width/spare))*line
	free := m.box.Width - m.partWidth - word - 2*columnGap
	if free < leastBeside {
		return none, below
	}
	return max(big, float64(m.plain.lines(r.Small(), m.small(), free/spare))*line), below
}

// wordWidth is the width of mark, word and operation.
func (m measure) wordWidth(r wallRow) float64 {
	w := m.size + m.bold.width(r.Word, m.size)
	if r.Next != "" {
		w += m.bold.width(":", m.size) + (m.plain.space*m.size + m.plain.width(r.Next, m.size))
	}
	return spare * w
}
