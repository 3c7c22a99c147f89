package decide

import "fmt"

// findSignoffs blocks parts that a person has yet to sign for.
func (o *outcome) findSignoffs(part Part, d demands, f *findings) {
	for _, s := range d.signoffs {
		name := plainName(s.name)
		waits := name
		if sameName(s.name, flutter) {
			waits += " (not judged here)"
		}
		row, found, lapsed := o.standing.signoff(s.name, part, d.shapedBy)
		steps := []step{{rankSign, name, fmt.Sprintf("a sign-off row for %s in the record of decisions (settle %s --signoff), by whoever is competent to give it; one row serves every part that waits for it, with --part only that one", s.name, s.name)}}
		switch {
		case !found:
			f.block(blocker{reason: "waits for a sign-off: " + waits, steps: steps})
		case lapsed != nil:
			f.block(blocker{reason: fmt.Sprintf("waits for a new sign-off: %s (decision %d) came before %s changed (decision %d)", name, row.Number, lapsed.Choice, lapsed.Number), steps: steps})
			f.detail("sign-off of %s: %s; since then %s was changed: %s", name, cite(row), lapsed.Choice, cite(*lapsed))
		default:
			f.note("%s signed off (%s)", name, cite(row))
			continue
		}
		if s.added {
			f.detail("sign-off of %s: winglets, foreplanes, control surfaces and parts that a choice shapes all need this one, since flutter is not judged here; to do without, name another sign-off, or none, under must_pass", name)
		}
	}
}
