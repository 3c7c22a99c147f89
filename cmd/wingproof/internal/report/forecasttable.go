package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
)

// Forecast is what rehearsed flights are expected to tell.
type Forecast struct {
	Times   int // rehearsals
	Flights int
	Ratio   float64 // model over full size
	Groups  []ForecastGroup
	Chances []ForecastChance // in the order of the limits
	Assumed []string
	CGHalf  float64 // 95 % half-width of the weighed CG, full-size m
}

// ForecastGroup is one configuration.
type ForecastGroup struct {
	Configuration string
	Flights       int
	CGs           []float64 // full-size m, of each flight
	Minutes       float64   // of the longest recording
	LeftOut       []string
	Measured      []ForecastRow // by flights alone
	Believed      []ForecastRow // by theory and flights together
	Missing       []ForecastMissing
}

// ForecastMissing is a number that the flights will not determine, and why.
type ForecastMissing struct{ Quantity, Why string }

// ForecastRow is the half-width of one 95 % interval; nil is not determined.
type ForecastRow struct {
	Quantity, Unit              string
	Now, After, Least, Greatest *float64
	Factor                      *float64
	Known                       int      // rehearsals that determined it
	Weak                        bool     // it is shown and not judged by
	Shared                      *float64 // what more flights do not shrink, where that rules
	Because                     []string // the errors that make it
}

// ForecastChance is how sure one limit of one configuration is to hold.
type ForecastChance struct {
	Limit, Configuration        string
	Now, After, Least, Greatest float64
}

// ForecastTable writes a forecast as text no wider than width columns (100 when width is 0).
func ForecastTable(w io.Writer, f Forecast, width int) error {
	lines := []string{fmt.Sprintf("FORECAST of %s, simulated %s and put through the same chain as real ones. Nothing here was measured; half-widths of 95 %% intervals are given, since where an interval will lie nobody knows.",
		counted(f.Flights, "flight"), map[bool]string{true: "once", false: fmt.Sprintf("%d times (medians, and in brackets the spread)", f.Times)}[f.Times == 1])}
	for _, g := range f.Groups {
		lines = append(lines, g.head(f.Ratio))
		lines = append(lines, g.LeftOut...)
	}
	for _, a := range f.Assumed {
		lines = append(lines, "Taken because the folder does not say: "+a+".")
	}
	for _, line := range lines {
		if err := paragraph(w, plain(line), width); err != nil {
			return err
		}
	}
	for _, g := range f.Groups {
		if err := f.group(w, g, width); err != nil {
			return err
		}
	}
	return f.conclusions(w, width)
}

// head says what is flown of a configuration.
func (g ForecastGroup) head(ratio float64) string {
	var at []string
	for _, cg := range g.CGs {
		if words := cgWords(cg, ratio); !slices.Contains(at, words) {
			at = append(at, words)
		}
	}
	return fmt.Sprintf("%s: %s with the CG at %s, recordings of up to %s min.", sizesWords(g.Configuration), counted(g.Flights, "flight"), strings.Join(at, " and "), number(g.Minutes, 0))
}

func (f Forecast) group(w io.Writer, g ForecastGroup, width int) error {
	for _, part := range []struct {
		title string
		rows  []ForecastRow
	}{{"by flights alone", g.Measured}, {"with theory", g.Believed}} {
		if len(part.rows) == 0 {
			continue
		}
		if _, err := fmt.Fprintf(w, "\n%s\n\n", strings.ToUpper(plain(sizesWords(g.Configuration)))); err != nil {
			return err
		}
		t := textTable{heads: []string{part.title, "now", "after (forecast)", "factor"}, most: []int{0, 24, 42, 8}}
		for _, r := range part.rows {
			factor := ""
			if r.Factor != nil {
				factor = number(*r.Factor, 1)
			}
			t.add(flownWords(r.Quantity), f.half(r.Now, r), f.after(r), factor)
		}
		if err := t.write(w, width); err != nil {
			return err
		}
	}
	return nil
}

// after is the half-width afterwards, with the spread of several rehearsals.
func (f Forecast) after(r ForecastRow) string {
	words := f.half(r.After, r)
	if r.Weak && r.After != nil {
		words += ", weak"
	}
	switch {
	case f.Times == 1:
		return words
	case r.Known < f.Times:
		return fmt.Sprintf("%s; determined in %d of %d", words, r.Known, f.Times)
	case r.Least != nil && r.Greatest != nil:
		_, k, decimals := f.unit(r.Unit, *r.After)
		return fmt.Sprintf("%s [%s to %s]", words, number(k**r.Least, decimals), number(k**r.Greatest, decimals))
	}
	return words
}

// half writes a half-width to two figures, a station in millimetres at both sizes.
func (f Forecast) half(h *float64, r ForecastRow) string {
	if h == nil {
		return "not determined"
	}
	unit, k, decimals := f.unit(r.Unit, *h)
	words := strings.TrimSpace("± " + number(k**h, decimals) + " " + unit)
	if r.Unit == "m" && f.Ratio > 0 {
		words += " (model " + number(1000*f.Ratio**h, 1) + ")"
	}
	return words
}

// unit is that in which a half-width is shown, with its factor and decimals.
func (f Forecast) unit(unit string, h float64) (words string, factor float64, decimals int) {
	if unit == "m" {
		return "mm", 1000, max(0, 1-int(math.Floor(math.Log10(math.Max(1000*h, 1e-9)))))
	}
	words, factor = shown(unit)
	if h <= 0 {
		return words, factor, 3
	}
	return words, factor, max(0, min(8, 1-int(math.Floor(math.Log10(factor*h)))))
}
