package decide

import (
	"fmt"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
)

// noteLeftOut says beside a part that is free which flights do not count towards its limits, since taking out a flight that
// spoke against a limit may be what freed it: two by name with the reason, further ones by name.
func (o *outcome) noteLeftOut(d demands, f *findings) {
	if !o.anyFromFlights(d.limits) {
		return
	}
	var flights []LeftOut
	for _, left := range o.problem.LeftOut {
		if c, err := o.space.locate(left.Levels); err != nil || o.live[c] {
			flights = append(flights, left)
		}
	}
	const inFull = 2
	var more []string
	for i, left := range flights {
		if i < inFull {
			f.note("flight %s (%s) does not count: %s", left.Flight, evidence.Name(left.Levels), left.Why)
			continue
		}
		more = append(more, left.Flight)
	}
	if len(more) > 0 {
		f.note("%s", fmt.Sprintf("nor do flights %s; --why tells why", strings.Join(more, ", ")))
	}
}

// anyFromFlights tells whether one of the requirements rests on what this program reads from flights.
func (o *outcome) anyFromFlights(requirements []int) bool {
	for _, r := range requirements {
		for _, q := range o.judgement.requirements[r].beliefs {
			if readFromFlights(o.belief.theory.quantities[q]) {
				return true
			}
		}
	}
	return false
}
