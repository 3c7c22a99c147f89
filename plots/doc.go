// Package plots draws the figures of wingproof from plain data: static margin, lift curves, the crossing
// of the trim slope, levels of a choice side by side and their differences, drag polars, the load along the
// span, the order in which surfaces stall, one quantity against a size, bending along the span, a
// three-view of the lifting surfaces, the strip chart of a recording, how judged numbers became known flight
// by flight, mass against CG, motions on the planes of a specification, and what each size costs and gains at
// every limit.
//
// The package knows numbers and names only; it never sees a log, an airframe or a shop part. Data come in
// SI units and radians (percent where a field says so); angles are drawn in degrees, and every axis says
// its unit.
//
// One visual language serves all figures, and it does not lean on colour:
//
//	measured in flight    filled circle, thin solid line, black
//	predicted             open diamond, dashed line, dark orange
//	anchored, full size   filled square, heavy solid line, dark blue
//	baseline beneath      thin, light, dashed line without glyph
//	changed level         heavy solid line, black
//	limit                 dark red line, hatched on the side that is not allowed; it may change along the frame
//	place of note         black ring; a dark red ring where the data look wrong
//	interval without end  an arrow; "not determined" stands in words
//	test point, kept      light blue with firm edges and a bar on top; dropped: hatched, dashed edges
//	loss in a recording   dark red bar; what is only told: open
//
// The hues are darkened relatives of the colour-blind safe set of Okabe and Ito (Color Universal Design,
// 2008), each with a contrast above 4.5 on white.
//
// Every figure is drawn twice, for a wide place and for a phone, as SVG without a prolog, without ids and
// without styles that leak, so that many can stand inline in one page. Text stays text, set in Liberation
// Sans (its metrics travel inside the program; Arial and Helvetica share them). Equal data give equal bytes.
//
// A figure carries the places that say a number (Points, NarrowPoints), each with its words, so that a page can answer a
// pointer or a finger; and it gives a PNG picture of the wide layout (Picture) in few colours, its inks and their mixtures
// with the paper, for a message from the field, for papers and for the folder of a report. A painter puts a point down with note where it draws the number.
//
// How much a number rests on stands beside it: "n = 44 points of 5 flights".
//
// What is left out: what a page does with the points, and any judgement. Empty or broken data are errors or a visible
// sentence, never an empty frame.
package plots
