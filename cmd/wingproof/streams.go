package main

import (
	"encoding/json"
	"fmt"
	"io"
	"os"
	"sync"
	"time"

	"github.com/schollz/progressbar/v3"
	"golang.org/x/term"
)

// streams are what a command reads and writes: results go to Out, everything else to Err.
type streams struct {
	In       io.Reader
	Out      io.Writer
	Err      io.Writer
	Terminal bool // Err is a terminal, so progress may be drawn on it
}

func isTerminal(f *os.File) bool { return term.IsTerminal(int(f.Fd())) }

// printJSON writes one JSON document with a stable layout.
func printJSON(w io.Writer, v any) error {
	encoder := json.NewEncoder(w)
	encoder.SetIndent("", "  ")
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(v); err != nil {
		return fmt.Errorf("write the JSON document: %w", err)
	}
	return nil
}

// progress returns a function that a study calls as its work goes on. On a terminal it draws a bar once
// the work has taken a second; elsewhere it prints a line for each stage when always is set.
func (s streams) progress(always bool) func(done, total int, what string) {
	if !s.Terminal {
		return s.stages(always)
	}
	var mu sync.Mutex
	var bar *progressbar.ProgressBar
	begin := time.Now()
	return func(done, total int, what string) {
		mu.Lock()
		defer mu.Unlock()
		if bar == nil && time.Since(begin) < time.Second {
			return
		}
		if bar == nil || bar.GetMax() != total {
			bar = progressbar.NewOptions(total, progressbar.OptionSetWriter(s.Err), progressbar.OptionClearOnFinish(),
				progressbar.OptionSetWidth(24), progressbar.OptionSetPredictTime(true))
		}
		bar.Describe(what)
		_ = bar.Set(done)
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
