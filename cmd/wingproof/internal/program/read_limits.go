package program

import (
	"fmt"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/flightlog/unit"
)

// limitDimension is what the number of a limit measures: a share for percent quantities, an angle, or
// nothing.
func limitDimension(quantity string) unit.Dimension {
	switch quantity {
	case evidence.StaticMargin, evidence.NoseGearShare, evidence.FuelTravel:
		return unit.Share
	case evidence.TipBackAngle, evidence.OverturnAngle, evidence.StallOrderMargin, evidence.ElevatorRoom:
		return unit.Angle
	case evidence.StallingSpeed, evidence.RotationSpeed:
		return unit.Speed
	}
	d, _ := motionDimension(quantity)
	return d
}

// limitMeasure is the key at_least or at_most of a quantity, with the unit that fits.
func limitMeasure(stem, quantity string) measure {
	switch limitDimension(quantity) {
	case unit.Share:
		return percent(stem, -1000, 1000)
	case unit.Angle:
		return angle(stem, -180, 180)
	case unit.Speed:
		return speed(stem, 340).positive()
	}
	if d, ok := motionDimension(quantity); ok {
		return motionMeasure(stem, d)
	}
	return number(stem, -1e9, 1e9)
}

func (l *loader) readLimits(all []*scope) {
	for _, s := range all {
		var limit Limit
		var at spot
		limit.Name, at = s.text("name", true)
		if _, twice := known(limit.Name, l.limitNames()); twice {
			s.wrong(at, "the limit "+quoted(limit.Name)+" is there twice", "give each limit a name of its own")
		}
		l.limitAt[limit.Name] = s.v.at
		limit.Quantity = s.word("quantity", evidence.Judged(), "")
		if limit.Quantity != "" {
			limit.AtLeast = s.bound("at_least", limit.Quantity)
			limit.AtMost = s.bound("at_most", limit.Quantity)
			s.checkBounds(limit)
		}
		limit.Evidence = s.word("evidence", []string{"flight", "analysis"}, "")
		limit.Source, _ = s.text("source", true)
		limit.Loadings = l.readLimitLoadings(s)
		if limit.Quantity == "" {
			for _, k := range s.v.keys {
				s.taken[k.name] = true // what fits is not known without the quantity
			}
		}
		s.done()
		l.needsOf(s, limit)
		l.p.Limits = append(l.p.Limits, limit)
	}
}

// bound reads one side of a limit: percent quantities in percent, angles in rad, others as they are.
func (s *scope) bound(stem, quantity string) *float64 {
	si := s.pointer(limitMeasure(stem, quantity))
	if si != nil && limitDimension(quantity) == unit.Share {
		percent := *si * 100
		si = &percent
	}
	return si
}

func (s *scope) checkBounds(limit Limit) {
	least, most := limitMeasure("at_least", limit.Quantity).name(), limitMeasure("at_most", limit.Quantity).name()
	switch {
	case limit.AtLeast != nil && limit.AtMost != nil && *limit.AtLeast > *limit.AtMost:
		s.wrong(s.v.at, fmt.Sprintf("limit %s asks for more at least than at most", quoted(limit.Name)), "exchange the two numbers")
	case limit.AtLeast == nil && limit.AtMost == nil && s.clean() && !s.l.broken:
		s.wrong(s.v.at, fmt.Sprintf("limit %s has no bound", quoted(limit.Name)), "add "+least+" = ... or "+most+" = ...")
	}
}

func (l *loader) readLimitLoadings(s *scope) []string {
	names, at := s.words("loadings", false)
	var out []string
	for i, name := range names {
		loading, ok := known(name, l.loadingNames())
		if !ok {
			s.wrong(at[i], "there is no loading "+quoted(name), suggest(name, l.loadingNames(), "loading"))
			continue
		}
		out = append(out, loading)
	}
	return out
}

// needsOf reports a limit whose quantity cannot be computed from what the folder states.
func (l *loader) needsOf(s *scope, limit Limit) {
	if l.broken {
		return
	}
	flying := 0
	for _, loading := range l.p.Loadings {
		if loading.Flies {
			flying++
		}
	}
	lack := func(absent bool, what, right string) {
		if absent {
			s.wrong(s.v.at, fmt.Sprintf("limit %s on %s needs %s", quoted(limit.Name), limit.Quantity, what), right)
		}
	}
	ground := false
	switch limit.Quantity {
	case evidence.TipBackAngle, evidence.NoseGearShare, evidence.OverturnAngle:
		ground = true
		lack(l.p.Gear == nil, "to know where the wheels stand", "add [gear] with nose_x_m, main_x_m, track_m and ground_z_m")
		lack(len(l.p.Loadings) == 0, "a loading", "add [[loading]] with its items")
	case evidence.FuelTravel:
		lack(flying < 2, "two loadings that fly", "add [[loading]] with full and with empty tanks")
	case evidence.StaticMargin:
		lack(flying == 0, "a loading that flies", "add [[loading]] with its items")
	}
	for _, n := range append(l.slowNeeds(limit.Quantity, flying), l.motionNeeds(limit.Quantity, flying)...) {
		lack(n.absent, n.what, n.right)
	}
	if ground || limit.Quantity == evidence.StaticMargin || limit.Quantity == evidence.FuelTravel {
		lack(l.p.FullSize.EmptyMass.Status == "", "the empty weight and its place", "add empty_mass_kg, empty_cg_x_m and empty_cg_z_m to [full_size]")
	}
}

func (l *loader) limitNames() []string {
	return namesOf(l.p.Limits, func(x Limit) string { return x.Name })
}
