package plots

import (
	"fmt"
	"math"
	"strings"
)

// heading says the baseline's number and how much room it leaves.
func (l ContrastLimit) heading(baseline string) string {
	decimals, unit := l.decimals(), unitAfter(l.Unit)
	if l.Words != "" {
		s := fmt.Sprintf("%s: %s, so there is no room to take shares of; limit: %s%s", or(baseline, "baseline"), l.Words, l.Bound.bound(), unit)
		if l.Holds != "" {
			s += "; " + l.Holds
		}
		return s
	}
	s := fmt.Sprintf("%s: %s%s", or(baseline, "baseline"), number(l.Baseline, decimals), unit)
	if room := l.room(); room >= 0 {
		s += fmt.Sprintf(", room %s to the limit, %s", number(room, decimals), l.Bound.bound())
	} else {
		s += fmt.Sprintf(", %s beyond the limit, %s", number(-room, decimals), l.Bound.bound())
	}
	if l.Holds != "" {
		s += "; " + l.Holds
	}
	return s
}

// say is the number of a level as it is printed beside; words stand in the place of the bar.
func (l ContrastLimit) say(level ContrastLevel) string {
	if level.inWords(l) {
		return level.Holds
	}
	s := level.Difference.signedWords(l.decimals())
	if level.Holds != "" {
		s += "; " + level.Holds
	}
	return s
}

// words says which level costs most, and then every difference.
func (d ContrastsData) words() string {
	var b strings.Builder
	worst, cost, at := "", 0.0, ""
	for _, l := range d.Limits {
		for _, level := range l.Levels {
			if level.inWords(l) {
				continue
			}
			if share := -l.gains(level.Difference).Value / math.Max(l.room(), 1e-12); l.room() > 0 && share > cost {
				worst, cost, at = level.Level, share, l.Name
			}
		}
	}
	if worst != "" {
		fmt.Fprintf(&b, "%s costs most at %s: %s %% of the room that %s has. ", capital(worst), at, number(100*cost, 0), or(d.Baseline, "the baseline"))
	}
	b.WriteString(sentenceOf(d.Note))
	for _, l := range d.Limits {
		fmt.Fprintf(&b, "%s, %s. ", capital(l.Name), l.heading(d.Baseline))
		for _, level := range l.Levels {
			b.WriteString(level.Level + ": " + l.told(level))
			if level.Holds != "" {
				b.WriteString("; limit kept " + level.Holds)
			}
			b.WriteString(". ")
		}
	}
	return strings.TrimSpace(b.String())
}

// told is a level in full: its difference and what that does to the room, or its words.
func (l ContrastLimit) told(level ContrastLevel) string {
	switch {
	case level.inWords(l):
		return or(level.Words, "not determined")
	case !level.Difference.determined():
		return "not determined"
	}
	return fmt.Sprintf("%s%s, %s", level.Difference.signedWords(l.decimals()), unitAfter(l.Unit), l.side(level.Difference))
}

// side tells what a whole interval does to the room.
func (l ContrastLimit) side(i Interval) string {
	switch g := l.gains(i); {
	case !i.determined():
		return "no comparison"
	case g.Low > 0:
		return "gains room"
	case g.High < 0:
		return "costs room"
	}
	return "no difference shown"
}
