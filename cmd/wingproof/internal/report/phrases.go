package report

import (
	"math"
	"sort"
	"strconv"
	"strings"
	"unicode"

	"wingproof/cmd/wingproof/internal/decide"
)

func upperFirst(s string) string {
	runes := []rune(s)
	if len(runes) == 0 {
		return ""
	}
	runes[0] = unicode.ToUpper(runes[0])
	return string(runes)
}

// levelWords writes levels as "foreplane large, winglet mid".
func levelWords(levels map[string]string) string {
	names := make([]string, 0, len(levels))
	for choice := range levels {
		names = append(names, choice)
	}
	sort.Strings(names)
	for i, choice := range names {
		names[i] = choice + " " + levels[choice]
	}
	return strings.Join(names, ", ")
}

func hoursWords(h float64) string {
	if h == 0 {
		return ""
	}
	return figures(h, 2) + " h"
}

// trimmed writes a stated number as it was most likely written.
func trimmed(x float64) string {
	return strings.Replace(strconv.FormatFloat(x, 'g', 4, 64), "-", "−", 1)
}

// limitWords writes one judged limit: "aft margin: at least 5 %, 97.2 % sure".
func limitWords(l decide.LimitVerdict) string {
	unit, k := shown(l.Unit)
	s := l.Limit + ": "
	switch {
	case l.AtLeast != nil:
		s += "at least " + trimmed(k**l.AtLeast)
	case l.AtMost != nil:
		s += "at most " + trimmed(k**l.AtMost)
	}
	return strings.TrimSpace(strings.TrimSuffix(s, ": ")+" "+unit) + ", holds with " + percentWords(l.Probability)
}

// limitRange writes median and 95 % range of the judged quantity.
func limitRange(l decide.LimitVerdict) string {
	s := judgedWords(l)
	if l.Where != "" {
		s += ", worst at " + l.Where
	}
	if l.FlightsNeed {
		s += "; needs flight evidence"
	}
	return s
}

// judgedWords are median and range, in words where there is no number.
func judgedWords(l decide.LimitVerdict) string {
	unit, k := shown(l.Unit)
	low, high, none := figures(k*l.Low, 3), figures(k*l.High, 3), decide.EndlessWords(l.Unit)
	switch r := l.Range(); {
	case r.AlwaysEndless():
		return none
	case r.Endless():
		return strings.TrimSpace(none + " (above " + low + " " + unit + ")")
	case math.IsInf(l.High, 1):
		return strings.TrimSpace(figures(k*l.Median, 3) + " (above " + low + ") " + unit)
	}
	return strings.TrimSpace(figures(k*l.Median, 3) + " (" + low + " to " + high + ") " + unit)
}

// worstLimit names the limit that is least likely to hold.
func worstLimit(limits []decide.LimitVerdict) string {
	worst := -1
	for i, l := range limits {
		if worst < 0 || l.Probability < limits[worst].Probability {
			worst = i
		}
	}
	if worst < 0 {
		return "no limit judged"
	}
	return limitWords(limits[worst])
}

// markOf draws the mark of a word on the wall; it follows the colour of the text.
func markOf(action string) string {
	shape := map[string]string{
		decide.StopAndAsk: `<path d="M5 1h6l4 4v6l-4 4H5l-4-4V5z" fill="currentColor"/><path d="M7.2 4h1.6v5H7.2zM7.2 10.4h1.6V12H7.2z" fill="var(--paper,#fff)"/>`,
		decide.Start:      `<path d="M3 1.5 14.5 8 3 14.5z" fill="currentColor"/>`,
		decide.CarryOn:    `<path d="M1.5 2 8 8l-6.5 6M8 2l6.5 6L8 14" fill="none" stroke="currentColor" stroke-width="2"/>`,
		decide.Wait:       `<circle cx="8" cy="8" r="6" fill="none" stroke="currentColor" stroke-width="2"/>`,
		decide.Done:       `<path d="m1.5 8.5 4.5 5L14.5 2.5" fill="none" stroke="currentColor" stroke-width="2.4"/>`,
	}[action]
	if shape == "" {
		shape = `<path d="M2 7h12v2H2z" fill="currentColor"/>`
	}
	return `<svg class="mark" viewBox="0 0 16 16" width="16" height="16" aria-hidden="true" focusable="false">` + shape + `</svg>`
}
