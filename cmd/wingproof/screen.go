package main

import (
	"io"
	"os"
	"runtime"
	"strconv"
	"strings"
	"sync"

	"github.com/jedib0t/go-pretty/v6/text"
	"golang.org/x/term"

	"wingproof/cmd/wingproof/internal/report"
)

// Text is laid out for terminals between these widths, columns: narrower ones squeeze a table to letters, and on wider ones a line is
// too long to be read.
const (
	narrowestScreen = 80
	widestScreen    = 120
)

// terminalStreams are the streams of this process.
func terminalStreams() streams {
	out, err := isTerminal(os.Stdout), isTerminal(os.Stderr)
	look := screenLook{out: out, err: err, columns: os.Getenv("COLUMNS"), colour: wantsColour(os.LookupEnv) && showsColour()}
	if out {
		look.size, _, _ = term.GetSize(int(os.Stdout.Fd()))
	}
	if err {
		look.room, _, _ = term.GetSize(int(os.Stderr.Fd()))
	}
	return look.streams(os.Stdin, os.Stdout, os.Stderr)
}

func isTerminal(f *os.File) bool { return term.IsTerminal(int(f.Fd())) }

// screenLook is what is known of where text goes.
type screenLook struct {
	out, err bool   // which of the two streams is a terminal
	size     int    // columns of that of results; 0 unknown
	room     int    // columns of that of everything else; 0 unknown
	columns  string // what the user says of it
	colour   bool   // the user wants colour, and the system can show it
}

// streams are the streams with the width and the colour that belong to each. On a terminal both share the line of progress, which gives
// way to whatever else is written.
func (l screenLook) streams(in io.Reader, out, err io.Writer) streams {
	width, line := l.width(), &progressLine{to: err}
	s := streams{In: in}
	if l.err {
		err = givingWay{err, line}
		s.line, s.room = line, l.room
		if l.out {
			out = givingWay{out, line}
		}
	}
	s.Out = report.Terminal{Writer: out, Width: width, Colour: l.colour && l.out}
	s.Err = report.Terminal{Writer: err, Width: width, Colour: l.colour && l.err}
	return s
}

// width is COLUMNS where that is sane, else the width of the terminal, else the usual; at least and at most what text is laid out for.
func (l screenLook) width() int {
	n, err := strconv.Atoi(strings.TrimSpace(l.columns))
	if err != nil || n < 20 || n > 1000 {
		n = l.size
	}
	if n <= 0 {
		return 0
	}
	return min(max(n, narrowestScreen), widestScreen)
}

// wantsColour tells whether the user has not forbidden colour: NO_COLOR with any value (https://no-color.org), or a terminal that calls
// itself dumb.
func wantsColour(lookup func(string) (string, bool)) bool {
	forbidden, _ := lookup("NO_COLOR")
	name, _ := lookup("TERM")
	return forbidden == "" && name != "dumb"
}

// showsColour tells whether the system understands the sequences for it; an older Windows console does not.
func showsColour() bool {
	return runtime.GOOS != "windows" || text.Bold.Sprint("x") != "x"
}

// progressLine is the line of progress at the foot of a terminal.
type progressLine struct {
	mu    sync.Mutex
	to    io.Writer
	drawn bool
	ended bool // nothing is drawn any more
}

// clear takes the line away, so that something else may be written in its place.
func (l *progressLine) clear() {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.wipe()
}

func (l *progressLine) wipe() {
	if l.drawn {
		_, _ = io.WriteString(l.to, "\r\x1b[2K")
		l.drawn = false
	}
}

// draw puts words in the line.
func (l *progressLine) draw(words string) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.ended {
		return
	}
	l.wipe()
	_, _ = io.WriteString(l.to, words)
	l.drawn = true
}

// end takes the line away for good.
func (l *progressLine) end() {
	l.clear()
	l.mu.Lock()
	defer l.mu.Unlock()
	l.ended = true
}

// givingWay writes to a terminal in the place of the line of progress.
type givingWay struct {
	io.Writer
	line *progressLine
}

func (w givingWay) Write(p []byte) (int, error) {
	w.line.clear()
	return w.Writer.Write(p)
}
