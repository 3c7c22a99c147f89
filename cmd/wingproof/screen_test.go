package main

import (
	"bytes"
	"errors"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
)

// Text is as wide as the terminal between 80 and 120 columns; COLUMNS goes first where it is sane; elsewhere nothing is stated, which is
// 100.
func TestWidthOfText(t *testing.T) {
	for _, c := range []struct {
		size    int
		columns string
		want    int
	}{
		{0, "", 0}, {100, "", 100}, {97, "", 97}, {80, "", 80}, {79, "", 80}, {20, "", 80}, {120, "", 120}, {121, "", 120}, {300, "", 120},
		{0, "90", 90}, {100, "90", 90}, {100, " 110 ", 110}, {100, "60", 80}, {100, "500", 120},
		{100, "wide", 100}, {100, "0", 100}, {100, "-5", 100}, {100, "19", 100}, {100, "1001", 100}, {0, "9e9", 0}, {100, "80.5", 100},
	} {
		require.Equal(t, c.want, screenLook{size: c.size, columns: c.columns}.width(), "%+v", c)
	}
}

// NO_COLOR with any value and a dumb terminal forbid colour; an empty NO_COLOR does not.
func TestWhoWantsColour(t *testing.T) {
	for _, c := range []struct {
		set  map[string]string
		want bool
	}{
		{nil, true},
		{map[string]string{"TERM": "xterm-256color"}, true},
		{map[string]string{"NO_COLOR": ""}, true},
		{map[string]string{"NO_COLOR": "1"}, false},
		{map[string]string{"NO_COLOR": "0"}, false},
		{map[string]string{"NO_COLOR": "false", "TERM": "xterm"}, false},
		{map[string]string{"TERM": "dumb"}, false},
	} {
		got := wantsColour(func(name string) (string, bool) {
			value, set := c.set[name]
			return value, set
		})
		require.Equal(t, c.want, got, "%v", c.set)
	}
}

// Each stream has colour only where it is a terminal itself: a board that goes to a file has none while alarms on the screen do.
func TestColourGoesToTerminalsOnly(t *testing.T) {
	for _, c := range []screenLook{{colour: true}, {out: true, colour: true}, {err: true, colour: true}, {out: true, err: true, colour: true}, {out: true, err: true}} {
		var out, told bytes.Buffer
		s := c.streams(strings.NewReader(""), &out, &told)
		require.Equal(t, c.out && c.colour, report.Bold(s.Out, "x") != "x", "%+v", c)
		require.Equal(t, c.err && c.colour, report.Alarm(s.Err, "x") != "x", "%+v", c)
		require.NoError(t, printJSON(s.Out, map[string]string{"a": "ALARM: b"}))
		require.NotContains(t, out.String(), "\x1b")
	}
}

// Places of mistakes stand out, and the words are the same without colour.
func TestPlacesOfMistakesStandOut(t *testing.T) {
	err := program.Mistakes{{File: "flights.csv", Line: 4, Column: 31, What: "cg_mm is not a number", Right: "write millimetres"}}
	var plain, coloured bytes.Buffer
	require.Equal(t, err.Error(), placesMarked(&plain, err))
	marked := placesMarked(report.Terminal{Writer: &coloured, Colour: true}, err)
	require.True(t, strings.HasPrefix(marked, "\x1b[1;31mflights.csv:4:31:\x1b[0m cg_mm"), "%q", marked)
	require.Equal(t, err.Error(), strings.NewReplacer("\x1b[1;31m", "", "\x1b[0m", "").Replace(marked))
	require.Equal(t, "3:00 pm", placesMarked(report.Terminal{Colour: true}, errors.New("3:00 pm")))
}

// drawing is a line of progress on a screen of its own, at a clock that the test turns.
func drawing(room int) (*progressed, *bytes.Buffer, func(seconds float64)) {
	var screen bytes.Buffer
	now := time.Unix(0, 0)
	p := &progressed{line: &progressLine{to: &screen}, clock: func() time.Time { return now }, room: room, begin: now}
	return p, &screen, func(seconds float64) { now = now.Add(time.Duration(seconds * float64(time.Second))) }
}

// Work below a second draws nothing. After that the time left goes by the pace of this count: what was there at its begin, from an
// earlier run, says nothing of it.
func TestProgressSaysHowLongItTakes(t *testing.T) {
	p, screen, wait := drawing(100)
	p.step(8, 18, "reducing flights")
	wait(0.9)
	p.step(9, 18, "reducing flights")
	require.Empty(t, screen.String())
	wait(3.1)
	p.step(10, 18, "reducing flights") // two in four seconds, eight to come
	require.Contains(t, screen.String(), "reducing flights")
	require.True(t, strings.HasSuffix(screen.String(), " 10 of 18, about 20 s left"), "%q", screen.String())
	p.step(18, 18, "reducing flights")
	require.True(t, strings.HasSuffix(screen.String(), "\r\x1b[2K"), "the line is gone when the work is done")

	p.step(0, 5, "fitting") // another count begins anew
	require.True(t, strings.HasSuffix(screen.String(), " 0 of 5"), "%q", screen.String())
	q, first, pass := drawing(100)
	pass(2)
	q.step(1, 5, "fitting")
	require.True(t, strings.HasSuffix(first.String(), " 1 of 5, about 8 s left"), "%q", first.String())
	for left, want := range map[time.Duration]string{100 * time.Millisecond: "1 s", 7 * time.Second: "7 s", 41 * time.Second: "45 s", 100 * time.Second: "2 min", time.Hour: "60 min"} {
		require.Equal(t, want, leftWords(left))
	}
}

// The line stands in one row of any terminal, so that it can be taken away again.
func TestProgressFitsTheTerminal(t *testing.T) {
	for _, room := range []int{0, 20, 30, 40, 60, 80, 120, 200} {
		for _, what := range []string{"", "fit", strings.Repeat("flight ü ", 30)} {
			p, _, wait := drawing(room)
			p.step(0, 1000, what)
			wait(5)
			most := room
			if room == 0 {
				most = narrowestScreen
			}
			words := p.words(500, 1000, what, p.clock())
			require.Less(t, utf8.RuneCountInString(words), most, "%d: %q", room, words)
			require.NotContains(t, words, "\n")
		}
	}
}

// Whatever else is written to the screen takes the place of the line, on either stream; after the end nothing is drawn.
func TestProgressGivesWay(t *testing.T) {
	var screen bytes.Buffer
	s := screenLook{out: true, err: true}.streams(strings.NewReader(""), &screen, &screen)
	for _, w := range []interface{ Write([]byte) (int, error) }{s.Out, s.Err} {
		screen.Reset()
		s.line.draw("working")
		_, err := w.Write([]byte("result\n"))
		require.NoError(t, err)
		_, err = w.Write([]byte("more\n"))
		require.NoError(t, err)
		require.Equal(t, "working\r\x1b[2Kresult\nmore\n", screen.String())
	}
	screen.Reset()
	s.line.draw("working")
	s.line.end()
	s.line.draw("late")
	require.Equal(t, "working\r\x1b[2K", screen.String())
}

// The same text at each width: no line beyond it, and with its colours taken off it is the board without.
func TestCommandsAtEachWidth(t *testing.T) {
	dir := demoFolder(t)
	for _, width := range []int{80, 100, 120} {
		for _, args := range [][]string{{"margin"}, {"parts"}, {"check"}, {"parts", "--why", "strake tank skin"}, {"scale"}} {
			plain, _ := onScreen(t, screenLook{out: true, size: width}, append(args, "--program", dir)...)
			for line := range strings.SplitSeq(plain, "\n") {
				if !strings.Contains(line, dir) { // a path stays whole
					require.LessOrEqual(t, wide(line), width, "%v: %s", args, line)
				}
			}
			coloured, _ := onScreen(t, screenLook{out: true, size: width, colour: true}, append(args, "--program", dir)...)
			require.Equal(t, plain, strings.NewReplacer("\x1b[1m", "", "\x1b[1;31m", "", "\x1b[0m", "").Replace(coloured))
		}
	}
}

// onScreen runs a command line on a terminal that looks so.
func onScreen(t *testing.T, look screenLook, args ...string) (out, told string) {
	t.Helper()
	var stdout, stderr bytes.Buffer
	require.Zero(t, run(t.Context(), look.streams(strings.NewReader(""), &stdout, &stderr), args), stderr.String())
	return stdout.String(), stderr.String()
}

// wide is how many columns a line takes; marks above a letter take none.
func wide(line string) int {
	n := 0
	for _, r := range line {
		if r < 0x300 || r > 0x36f {
			n++
		}
	}
	return n
}
