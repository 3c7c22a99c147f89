package plots

import (
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// keyEntry explains one mark in words.
type keyEntry struct {
	words  string
	sample func(c draw.Canvas, x, y vg.Length) // draws in a strip keySample wide, centred on height y
}

const (
	keySample vg.Length = 30
	keyGap    vg.Length = 16
	edge      vg.Length = 8 // margin around a figure
)

func intervalKey(words string, m mark) keyEntry {
	return keyEntry{words: words, sample: func(c draw.Canvas, x, y vg.Length) {
		drawInterval(c, m, stretch{from: x + 2, to: x + keySample - 2, at: x + keySample/2, low: true, high: true, hasValue: true}, y)
	}}
}

func pointKey(words string, m mark) keyEntry {
	return keyEntry{words: words, sample: func(c draw.Canvas, x, y vg.Length) {
		for _, dx := range []vg.Length{0.25, 0.5, 0.75} {
			m.glyph.DrawGlyph(&c, draw.GlyphStyle{Color: m.ink, Radius: 2.2}, vg.Point{X: x + dx*keySample, Y: y})
		}
	}}
}

func lineKey(words string, m mark, band bool) keyEntry {
	return keyEntry{words: words, sample: func(c draw.Canvas, x, y vg.Length) {
		if band {
			c.FillPolygon(m.band, []vg.Point{{X: x, Y: y - 4}, {X: x + keySample, Y: y - 4}, {X: x + keySample, Y: y + 4}, {X: x, Y: y + 4}})
		}
		c.StrokeLine2(m.line, x, y, x+keySample, y)
	}}
}

// curveAndPoints is a line with its glyph, and its band where it has one.
func curveAndPoints(words string, m mark, band bool) keyEntry {
	k := lineKey(words, m, band)
	return keyEntry{words: words, sample: func(c draw.Canvas, x, y vg.Length) {
		k.sample(c, x, y)
		m.glyph.DrawGlyph(&c, draw.GlyphStyle{Color: m.ink, Radius: 2.4}, vg.Point{X: x + keySample/2, Y: y})
	}}
}

func limitKey(words string) keyEntry {
	return keyEntry{words: words, sample: func(c draw.Canvas, x, y vg.Length) {
		hatchedLine(c, vg.Point{X: x, Y: y}, vg.Point{X: x + keySample, Y: y}, vg.Point{Y: -1})
	}}
}

// standardKey explains the marks of judged numbers, those that occur.
func standardKey(rows []Row, limits bool) []keyEntry {
	var measured, predicted, anchored, endless bool
	for _, r := range rows {
		measured = measured || r.Measured != nil
		predicted = predicted || r.Predicted != nil
		anchored = anchored || r.Anchored != nil
		for _, i := range r.intervals() {
			endless = endless || !i.Bounded()
		}
	}
	var key []keyEntry
	add := func(occurs bool, words string, m mark) {
		if occurs && len(key) == 0 {
			words += ", 95 % interval"
		}
		if occurs {
			key = append(key, intervalKey(words, m))
		}
	}
	add(measured, "measured in flight", measuredMark())
	add(predicted, "predicted", predictedMark())
	add(anchored, "anchored by flights", anchoredMark())
	if limits {
		key = append(key, limitKey("limit, hatched side not allowed"))
	}
	if endless {
		key = append(key, keyEntry{words: "no end on this side", sample: func(c draw.Canvas, x, y vg.Length) {
			drawInterval(c, measuredMark(), stretch{from: x + 2, to: x + keySample - 2, low: true}, y)
		}})
	}
	return key
}

// header is the title of a figure, a sentence below it and the key to its marks.
type header struct {
	title string
	note  string
	key   []keyEntry
}

// place breaks the header at a width; it returns the height and what paints it below the top edge y.
func (h header) place(width vg.Length) (vg.Length, func(c draw.Canvas, y vg.Length)) {
	big, small := newPen(titleSize, true, ink), newPen(bodySize, false, faintInk)
	room := width - 2*edge
	title, note := wrap(big, h.title, room), wrap(small, h.note, room)
	rows := h.keyRows(room)
	height := edge + vg.Length(len(title))*big.line() + vg.Length(len(note))*small.line() + vg.Length(len(rows))*keyLine + 6
	return height, func(c draw.Canvas, y vg.Length) {
		y = putLines(c, big, edge, y-edge, title)
		y = putLines(c, small, edge, y, note)
		words := newPen(smallSize, false, ink)
		for _, row := range rows {
			x := edge
			for _, k := range row {
				k.sample(c, x, y-keyLine/2-1)
				put(c, words, x+keySample+5, y-keyLine/2-4.5, left, k.words)
				x += k.width(words)
			}
			y -= keyLine
		}
	}
}

const keyLine vg.Length = 17

func (k keyEntry) width(p pen) vg.Length { return keySample + 5 + p.width(k.words) + keyGap }

// keyRows fills lines with entries; each entry's words are shortened to the room.
func (h header) keyRows(room vg.Length) [][]keyEntry {
	words := newPen(smallSize, false, ink)
	var rows [][]keyEntry
	x := room + 1
	for _, k := range h.key {
		k.words = shorten(words, k.words, room-keySample-5)
		if x+k.width(words)-keyGap > room {
			rows = append(rows, nil)
			x = 0
		}
		rows[len(rows)-1] = append(rows[len(rows)-1], k)
		x += k.width(words)
	}
	return rows
}
