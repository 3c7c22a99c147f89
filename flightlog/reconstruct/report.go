package reconstruct

import (
	"fmt"

	"wingproof/flightlog"
)

// report turns what the filter met into findings and fills the whiteness table.
func (f *forward) report(p *Path) []flightlog.Finding {
	var out []flightlog.Finding
	end := f.tl.events[len(f.tl.events)-1].time
	for _, r := range f.restarts {
		what := "the reconstruction lost itself"
		if r.kind < kinds {
			what = fmt.Sprintf("the reconstruction lost itself: the %s stayed far from what the other channels expect", r.kind.words())
		}
		out = append(out, flightlog.Finding{Severity: flightlog.Loss, Channel: channelOfKind(r.kind), Start: r.since, End: f.tl.events[r.event].time, What: what,
			Consequence: "it began anew from the logged attitude and speeds; angle of attack and sideslip there are not to be trusted, and nothing is carried across"})
	}
	for k := range kinds {
		t := &f.tallies[k]
		if t.count == 0 {
			continue
		}
		for _, s := range t.rejected {
			if s.End-s.Start >= patience {
				out = append(out, flightlog.Finding{Severity: flightlog.Note, Channel: k.quantity(), Start: s.Start, End: s.End,
					What:        fmt.Sprintf("the %s is more than five standard deviations from what the other channels expect", k.words()),
					Consequence: "it is left out there, and the standard deviations grow"})
			}
		}
		w := t.whiteness(k, f.noise.measured[k])
		p.Whiteness = append(p.Whiteness, w)
		if w.matters() {
			out = append(out, flightlog.Finding{Severity: flightlog.Note, Channel: k.quantity(), Start: f.tl.events[0].time, End: end,
				What: w.Sentence, Consequence: "the standard deviations of angle of attack and sideslip may be too small"})
		}
	}
	return out
}

func channelOfKind(k kind) flightlog.Quantity {
	if k == kinds {
		return ""
	}
	return k.quantity()
}

// giveUp is the finding of a filter that began anew too often.
func (f *forward) giveUp() flightlog.Finding {
	last := f.restarts[len(f.restarts)-1]
	words := "the estimate"
	if last.kind < kinds {
		words = "the " + last.kind.words()
	}
	return flightlog.Finding{Severity: flightlog.Note, Channel: channelOfKind(last.kind), Start: f.restarts[0].since, End: f.tl.events[last.event].time,
		What:        fmt.Sprintf("the reconstruction lost itself %d times, last because %s stayed far from what the other channels expect", len(f.restarts), words),
		Consequence: "the path cannot be reconstructed: angle of attack is taken as pitch angle less path angle; check signs, units and axes of rates, accelerations and attitude"}
}
