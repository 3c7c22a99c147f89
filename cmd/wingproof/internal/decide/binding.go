package decide

// The bound of a limit that a judged number belongs to.
const (
	BindsAtLeast = "at_least"
	BindsAtMost  = "at_most"
)

// of is the series that a bound is compared with, and where. A limit without a bound has the greatest.
func (s series) of(binding string) (values []float64, where string) {
	if binding == BindsAtLeast {
		return s.least, s.whereLeast
	}
	return s.most, s.whereMost
}

// binding is the bound that decides: of two the one that more draws break, and where as many break either, the one that leaves less room.
func (r requirement) binding(s series, tooLow, tooHigh int) string {
	switch {
	case r.AtLeast == nil && r.AtMost == nil:
		return ""
	case r.AtMost == nil:
		return BindsAtLeast
	case r.AtLeast == nil || tooHigh > tooLow:
		return BindsAtMost
	case tooLow > tooHigh:
		return BindsAtLeast
	}
	least, most := rangeOf(unending(s.least, r.unit)), rangeOf(unending(s.most, r.unit))
	if most.Room(*r.AtMost, BindsAtMost) < least.Room(*r.AtLeast, BindsAtLeast) {
		return BindsAtMost
	}
	return BindsAtLeast
}

// bound is the bound of that name; nil where there is none.
func (l Limit) bound(binding string) *float64 {
	switch binding {
	case BindsAtLeast:
		return l.AtLeast
	case BindsAtMost:
		return l.AtMost
	}
	return nil
}
