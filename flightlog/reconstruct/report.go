package reconstruct

import (
	"fmt"

	"wingproof/flightlog"
)

// report turns what the filter met into findings and fills the whiteness table.
func (f *forward) report(p *Path) []flightlog.Finding {
	out := f.gapFindings()
	for i := range f.restarts {
		out = append(out, f.restartFinding(&f.restarts[i]))
	}
	for k := range kinds {
		t := &f.tallies[k]
		switch {
		case t.count == 0 && t.left == 0:
			continue
		case t.count == 0:
			out = append(out, f.uselessFinding(k))
		default:
			out = append(out, f.rejections(k)...)
		}
		w := t.whiteness(k, f.noise.measured[k])
		p.Whiteness = append(p.Whiteness, w)
		if t.count > 0 && w.matters() {
			start, end := f.span()
			out = append(out, flightlog.Finding{Severity: flightlog.Note, Channel: k.quantity(), Start: start, End: end,
				What: w.Sentence, Consequence: "the standard deviations of angle of attack and sideslip may be too small"})
		}
	}
	return out
}

// span is the time that the filter covers.
func (f *forward) span() (start, end float64) {
	return f.tl.events[0].time, f.tl.events[len(f.tl.events)-1].time
}

// restartFinding says that the filter began anew, or that a logged angle jumped.
func (f *forward) restartFinding(r *restart) flightlog.Finding {
	out := flightlog.Finding{Severity: flightlog.Loss, Channel: channelOfKind(r.kind), Start: r.since, End: f.tl.events[r.event].time,
		What:        "the reconstruction lost itself",
		Consequence: "it began anew from the logged attitude and speeds; angle of attack and sideslip there are not to be trusted, and nothing is carried across"}
	switch {
	case r.step:
		out.Severity = flightlog.Note
		out.What = fmt.Sprintf("the logged %s jumps away from what the gyros say and stays there", r.kind.words())
		out.Consequence = "its error is estimated anew from there on; check the compass and the attitude unit"
	case r.kind < kinds:
		out.What += fmt.Sprintf(": the %s stayed far from what the other channels expect", r.kind.words())
	}
	return out
}

// rejections tells the longer stretches over which a channel was left out.
func (f *forward) rejections(k kind) []flightlog.Finding {
	var out []flightlog.Finding
	for _, s := range f.tallies[k].rejected {
		if s.End-s.Start >= patience && !f.toldBy(k, s) {
			out = append(out, flightlog.Finding{Severity: flightlog.Note, Channel: k.quantity(), Start: s.Start, End: s.End,
				What:        fmt.Sprintf("the %s is more than five standard deviations from what the other channels expect", k.words()),
				Consequence: "it is left out there, and the standard deviations grow"})
		}
	}
	return out
}

// toldBy tells whether a restart because of the same kind has said so already.
func (f *forward) toldBy(k kind, s Stretch) bool {
	for _, r := range f.restarts {
		if r.kind == k && s.Start >= r.since && s.End <= f.tl.events[r.event].time {
			return true
		}
	}
	return false
}

// uselessFinding is that of a channel of which nothing could be used.
func (f *forward) uselessFinding(k kind) flightlog.Finding {
	start, end := f.span()
	return flightlog.Finding{Severity: flightlog.Note, Channel: k.quantity(), Start: start, End: end,
		What:        fmt.Sprintf("no sample of the %s fits: all are more than five standard deviations from what the other channels expect", k.words()),
		Consequence: "it is left out altogether; check its sign, unit and offset in the logger map"}
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
	first := f.restarts[0]
	for _, r := range f.restarts {
		if !r.step {
			first = r
			break
		}
	}
	words := "the estimate"
	if last.kind < kinds {
		words = "the " + last.kind.words()
	}
	return flightlog.Finding{Severity: flightlog.Loss, Channel: channelOfKind(last.kind), Start: first.since, End: f.tl.events[last.event].time,
		What:        fmt.Sprintf("the reconstruction lost itself %d times, last because %s stayed far from what the other channels expect", f.resets, words),
		Consequence: "the path cannot be reconstructed: angle of attack is taken as pitch angle less path angle; check signs, units and axes of rates, accelerations and attitude"}
}

// noNumber is the finding of a path that came out as no number.
func (f *forward) noNumber() flightlog.Finding {
	start, end := f.span()
	return flightlog.Finding{Severity: flightlog.Loss, Start: start, End: end, What: "the reconstruction gives no numbers",
		Consequence: "angle of attack is taken as pitch angle less path angle; check the units of every channel"}
}
