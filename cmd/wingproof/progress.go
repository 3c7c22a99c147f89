package main

import (
	"fmt"
	"io"
	"strings"
	"sync"
	"time"
	"unicode/utf8"

	"github.com/schollz/progressbar/v3"
)

// barWidth is how long the bar of progress is where the line has room, columns.
const barWidth = 24

// barBeside is what stands beside it: spaces, the share in per cent, strokes.
const barBeside = 8

// progress returns a function that a study calls as its work goes on. On a terminal it draws a line with a bar once
// the work has taken a second; elsewhere it prints a line for each stage when always is set.
func (s streams) progress(always bool) func(done, total int, what string) {
	if s.line == nil {
		return s.stages(always)
	}
	p := progressed{line: s.line, clock: time.Now, room: s.room}
	p.begin = p.clock()
	return p.step
}

// progressed is how far some work has come.
type progressed struct {
	mu    sync.Mutex
	line  *progressLine
	clock func() time.Time
	room  int // columns of the terminal; 0 for 80
	begin time.Time

	total int       // of the count that goes on
	first int       // what was done when it began, which says nothing of how fast it goes
	since time.Time // when that was
}

// step tells that so much of the work is done.
func (p *progressed) step(done, total int, what string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	now := p.clock()
	switch {
	case p.total == 0 && done <= 1: // what was done first took from the begin on
		p.total, p.first, p.since = total, 0, p.begin
	case total != p.total:
		p.total, p.first, p.since = total, done, now
	}
	switch {
	case done >= total:
		p.line.clear()
	case now.Sub(p.begin) >= time.Second:
		p.line.draw(p.words(done, total, what, now))
	}
}

// words are the line, short enough to stand in one row of the terminal.
func (p *progressed) words(done, total int, what string, now time.Time) string {
	behind := fmt.Sprintf(" %d of %d", done, total)
	if left := p.left(done, now); left > 0 {
		behind += ", about " + leftWords(left) + " left"
	}
	room := p.room
	if room <= 0 {
		room = narrowestScreen
	}
	room -= utf8.RuneCountInString(behind) + 1 // a full row would wrap on some terminals
	if most := max(room-barWidth-barBeside, room/2); utf8.RuneCountInString(what) > most {
		what = string([]rune(what)[:max(most-1, 0)]) + "…"
	}
	long := min(barWidth, room-utf8.RuneCountInString(what)-barBeside)
	if long < 4 {
		return cut(what+behind, max(room+utf8.RuneCountInString(behind), 1))
	}
	return what + " " + drawnBar(done, total, long) + behind
}

// cut is the beginning of a text, in characters.
func cut(s string, most int) string {
	if r := []rune(s); len(r) > most {
		return string(r[:most])
	}
	return s
}

// drawnBar is the share done, in per cent and as a bar so many columns long.
func drawnBar(done, total, long int) string {
	bar := progressbar.NewOptions(total, progressbar.OptionSetWriter(io.Discard), progressbar.OptionSetWidth(long), progressbar.OptionThrottle(0),
		progressbar.OptionSetPredictTime(false), progressbar.OptionSetElapsedTime(false),
		progressbar.OptionSetTheme(progressbar.Theme{Saucer: "=", SaucerPadding: " ", BarStart: "|", BarEnd: "|"}))
	if bar.Set(done) != nil {
		return ""
	}
	return strings.TrimSpace(bar.String())
}

// left is how long the rest takes at the pace of this count; 0 while nobody can know.
func (p *progressed) left(done int, now time.Time) time.Duration {
	gone, taken := done-p.first, now.Sub(p.since)
	if gone < 1 || taken < time.Second {
		return 0
	}
	return time.Duration(float64(taken) / float64(gone) * float64(p.total-done))
}

// leftWords says a time as roughly as it is known.
func leftWords(left time.Duration) string {
	seconds := int(left.Round(time.Second) / time.Second)
	switch {
	case seconds < 10:
		return fmt.Sprintf("%d s", max(seconds, 1))
	case seconds < 90:
		return fmt.Sprintf("%d s", (seconds+4)/5*5)
	default:
		return fmt.Sprintf("%d min", (seconds+30)/60)
	}
}

func (s streams) stages(always bool) func(done, total int, what string) {
	var mu sync.Mutex
	last := ""
	return func(_, _ int, what string) {
		mu.Lock()
		defer mu.Unlock()
		if !always || what == last {
			return
		}
		last = what
		fmt.Fprintln(s.Err, what)
	}
}
