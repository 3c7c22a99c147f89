package plots

import (
	"fmt"
	"math"
	"strings"
)

// stallTitle heads a case with its finding.
func stallTitle(name string, margin Interval) string {
	if clean(name) == "" {
		return capital(stallWords(margin.scaled(degrees)))
	}
	return capital(name) + ": " + stallWords(margin.scaled(degrees))
}

// stallWords says a margin [degrees] in words; a margin whose interval holds both orders is not certain.
func stallWords(m Interval) string {
	switch {
	case !m.determined() && m.Low >= 0 && finite(m.Low):
		return "foreplane lets go first by more than " + number(m.Low, 1) + "°"
	case !m.determined() && m.High <= 0 && finite(m.High):
		return "WING FIRST by more than " + number(-m.High, 1) + "°"
	case !m.determined():
		return "which surface lets go first is not determined"
	}
	words := "foreplane lets go first"
	if m.Value < 0 {
		words = "WING FIRST"
	}
	by := " by " + number(math.Abs(m.Value), 1) + "°"
	if math.Abs(m.Value) < 0.05 {
		by = " by less than 0.1°"
	}
	if m.Low < 0 && m.High > 0 {
		return words + by + ", not certain"
	}
	return words + by
}

func (d StallOrderData) note() string {
	margin := "Margin " + marginWords(d.Margin.scaled(degrees))
	if d.Margin.determined() {
		margin += " degrees, 95 % interval"
	}
	return margin + ". Computed section by section: the real break is three-dimensional, and deep stall is not judged here."
}

// words says the finding, the events and the critical stations.
func (d StallOrderData) words() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s; margin %s. ", capital(stallWords(d.Margin.scaled(degrees))), marginWords(d.Margin.scaled(degrees))+" degrees")
	for i, s := range []StallSurface{d.Foreplane, d.Wing} {
		fmt.Fprintf(&b, "%s: %s at %s degrees", capital(s.Name), []string{"total lift stops rising", "first station at its maximum"}[i], marginWords(s.Event.scaled(degrees)))
		if c := s.Critical; c != nil {
			fmt.Fprintf(&b, ", the station at %s m reaches its maximum first, at %s degrees", number(c.Station, 2), number(c.Alpha*degrees, 1))
		}
		b.WriteString(". ")
	}
	return strings.TrimSpace(b.String())
}
