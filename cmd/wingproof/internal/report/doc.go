// Package report writes what people read: the pages of the report folder, each whole by itself, and the
// tables that commands print.
//
// The first page (Laid) answers the shop lead first (part, do this, why, what would clear it), then shows the evidence
// to whoever wants it. BoardPage is the board alone on one sheet of paper, read at three metres; MethodsPage holds
// equations and sources. Pages need no network and no script, print on A4 and Letter, and fold their tables into blocks
// on a phone. One small script, known to the page by its digest, picks rows and says the values of figures. What to do
// is told by position, by words and by a mark, never by colour alone.
//
// Everything comes in as plain content, SI units and radians; angles are written in degrees, a centre of
// gravity at both sizes. Equal content gives equal bytes. The package judges nothing: what it says about a
// part is in the verdict that it is given.
package report
