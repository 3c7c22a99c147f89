package program

import (
	"math"

	"wingproof/aero"
	"wingproof/aero/aerofoil"
)

// doubtMasses warns of surfaces that weigh more than the empty aircraft, and of tanks beyond the tips.
func (l *loader) doubtMasses() {
	sum := 0.0
	for _, m := range l.p.Masses {
		sum += m.Mass
	}
	if empty := l.p.FullSize.EmptyMass.Value; empty > 0 && sum > empty {
		l.warn("program.toml: the lifting surfaces weigh %.4g kg together, more than the empty aircraft (%.4g kg); mass is that of both halves", sum, empty)
	}
	tip := l.tip()
	for _, loading := range l.p.Loadings {
		for _, item := range loading.Items {
			if tip > 0 && item.SpanTo > 1.02*tip {
				l.warn("program.toml: loading %s: %s reaches to %.2f m from the plane of symmetry, and the surfaces to %.2f m; span_from and span_to count from the middle", quoted(loading.Name), item.What, item.SpanTo, tip)
			}
		}
	}
}

// tip is how far the lifting surfaces of the baseline reach from the plane of symmetry, m.
func (l *loader) tip() float64 {
	tip := 0.0
	for _, s := range l.p.Surfaces {
		for _, station := range s.Stations {
			tip = math.Max(tip, math.Max(station.LeadingEdge.Y, station.TrailingEdge.Y))
		}
	}
	return tip
}

// doubtFuselage warns of a body that does not belong to the surfaces: a wrong unit in the heads.
func (l *loader) doubtFuselage() {
	front, back, ok := l.extent()
	n := len(l.p.Fuselage)
	if n == 0 || !ok {
		return
	}
	nose, tail := l.p.Fuselage[0].X, l.p.Fuselage[n-1].X
	if length := tail - nose; length > 3*(back-front) || length < (back-front)/3 || nose > back || tail < front {
		l.warn("program.toml: the fuselage reaches from %.2f to %.2f m, and the surfaces from %.2f to %.2f m; look at the unit in the heads", nose, tail, front, back)
		return
	}
	widest := 0.0
	for _, f := range l.p.Fuselage {
		widest = math.Max(widest, math.Max(f.Width, f.Height))
	}
	if widest > (tail-nose)/2 {
		l.warn("program.toml: the fuselage is %.3g m long and %.3g m wide or high; look at the unit in the heads", tail-nose, widest)
	}
}

// doubtPolars warns of a contaminated section that lifts more than the clean one, and of a polar that no station uses.
func (l *loader) doubtPolars() {
	used := map[string]bool{}
	note := func(stations []aero.Station) {
		for _, station := range stations {
			used[station.Aerofoil] = true
		}
	}
	for _, s := range l.p.Surfaces {
		note(s.Stations)
	}
	for _, c := range l.p.Choices {
		for _, level := range c.Levels {
			for _, e := range level.Edits {
				note(e.Stations)
			}
		}
	}
	for _, a := range l.p.Aerofoils {
		if a.PolarFile != "" && !used[a.Name] {
			l.warn("program.toml: aerofoil %s has a polar and no station names it", quoted(a.Name))
		}
		for _, dirty := range a.Polar {
			for _, clean := range a.Polar {
				if dirty.State == aerofoil.Contaminated && clean.State == aerofoil.Clean && dirty.Reynolds == clean.Reynolds && dirty.Flap == clean.Flap && dirty.MaxLift > clean.MaxLift {
					l.warn("%s: row %d: contaminated the section lifts more (%.3g) than clean in row %d (%.3g); look whether the two are exchanged", a.PolarFile, dirty.Row, dirty.MaxLift, clean.Row, clean.MaxLift)
				}
			}
		}
	}
}
