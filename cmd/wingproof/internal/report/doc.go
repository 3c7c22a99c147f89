// Package report writes what people read: one self-contained page for the wall and the archive, and the
// tables that commands print.
//
// The page answers the shop lead first (part, do this, why, what would clear it), then shows the evidence
// to whoever wants it. It needs no network and no script, prints on A4 and Letter with the board as its
// first page, and folds its tables into blocks on a phone. What to do is told by position, by words and by
// a mark, never by colour alone.
//
// Everything comes in as plain content, SI units and radians; angles are written in degrees, a centre of
// gravity at both sizes. Equal content gives equal bytes. The package judges nothing: what it says about a
// part is in the verdict that it is given.
package report
