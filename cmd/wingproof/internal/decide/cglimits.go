package decide

import (
	"math"
	"slices"

	"wingproof/cmd/wingproof/internal/evidence"
)

// CGLimit is how far a CG may lie in one configuration before a limit no longer holds with 95 %.
//
// CG holds a station at full size [m aft of datum] for each of the masses asked for. The CG itself counts as known: what a loading's mass
// and CG may be off by comes on top.
type CGLimit struct {
	Configuration string
	Limit         string
	Quantity      string
	Aft           bool // the limit holds ahead of the station; else behind it
	CG            []float64
}

// CGLimits turns the limits that bound the CG into stations, for every configuration, at some masses [kg]: static margin, room of the elevator
// at the approach, rotation, share of the nose wheel. Others, such as motions, bound it by the way and are left out. Where a limit has both
// bounds it gives two.
//
// In each joint draw of the beliefs a limit is just met at one station; 95 % of these lie behind an aft bound, or ahead of a forward one.
func (j *Judging) CGLimits(a Assessment, masses []float64) ([]CGLimit, error) {
	t, err := j.under(a)
	if err != nil {
		return nil, err
	}
	space := t.belief.theory.space
	lists := make([][]CGLimit, len(space.configs))
	err = sideBySide(space.all(), func(c int) error { lists[c] = t.cgLimits(c, masses); return nil })
	return slices.Concat(lists...), err
}

// cgLimits are those of one configuration.
func (t *table) cgLimits(c int, masses []float64) []CGLimit {
	defer t.release(c)
	var out []CGLimit
	for _, r := range t.requirements {
		if !boundsCG(r.Quantity) {
			continue
		}
		draws := make([][]float64, len(r.beliefs))
		for k, q := range r.beliefs {
			draws[k] = t.full(q, c)
		}
		out = append(out, t.problem.Aircraft.cgLimits(r, t.belief.theory.space.configs[c], draws, masses)...)
	}
	return out
}

// boundsCG tells whether a limit on a quantity holds on one side of a station.
func boundsCG(quantity string) bool {
	switch quantity {
	case evidence.StaticMargin, evidence.ElevatorRoom, evidence.RotationSpeed, evidence.NoseGearShare:
		return true
	}
	return false
}

// cgLimits are those of one requirement; draws are those of its beliefs.
func (a Aircraft) cgLimits(r requirement, c configuration, draws [][]float64, masses []float64) []CGLimit {
	var out []CGLimit
	for _, bound := range []struct {
		at   *float64
		most bool
	}{{r.AtLeast, false}, {r.AtMost, true}} {
		if bound.at == nil {
			continue
		}
		limit := CGLimit{Configuration: c.name, Limit: r.Name, Quantity: r.Quantity, Aft: fallsAft(r.Quantity) != bound.most}
		for k, mass := range masses {
			if k > 0 && r.Quantity == evidence.StaticMargin {
				limit.CG = append(limit.CG, limit.CG[0]) // which no mass enters
				continue
			}
			limit.CG = append(limit.CG, surely(draws, a.justMet(r.Quantity, *bound.at, mass, c.stop), limit.Aft))
		}
		out = append(out, limit)
	}
	return out
}

// fallsAft tells whether a quantity grows less as the CG moves aft. Room of the elevator grows, and the speed of rotation falls.
func fallsAft(quantity string) bool { return quantity != evidence.ElevatorRoom }

// justMet gives the station at which a quantity has just a value, from the beliefs of one draw: the judged quantities of evaluate.go solved
// for the CG.
func (a Aircraft) justMet(quantity string, value, mass, stop float64) func(beliefs []float64) float64 {
	switch quantity {
	case evidence.StaticMargin:
		return func(x []float64) float64 { return x[0] - value/100*a.MeanChord }
	case evidence.ElevatorRoom: // up·(stop − δ0 − rate·(CG − NP)·CL) = value
		up := math.Copysign(1, stop)
		lift := 2 * mass * gravity / (seaLevelDensity * a.ApproachSpeed * a.ApproachSpeed * a.WingArea)
		return func(x []float64) float64 { return x[0] + (stop-up*value-x[2])/(x[1]*lift) }
	case evidence.RotationSpeed: // ½·ρ0·V²·S·c·Cm = m·g·(main − CG)
		pressure := seaLevelDensity / 2 * value * value
		return func(x []float64) float64 {
			return a.Gear.MainX - pressure*a.WingArea*a.MeanChord*x[0]/(mass*gravity)
		}
	}
	return func([]float64) float64 { return a.Gear.MainX - value/100*(a.Gear.MainX-a.Gear.NoseX) }
}

// surely is the station at which a limit holds in 95 % of the draws; without beliefs all draws are one.
func surely(draws [][]float64, station func([]float64) float64, aft bool) float64 {
	if len(draws) == 0 {
		return station(nil)
	}
	stations, x := make([]float64, len(draws[0])), make([]float64, len(draws))
	for i := range stations {
		for k := range draws {
			x[k] = draws[k][i]
		}
		stations[i] = station(x)
	}
	if aft {
		return reordering(stations).at(1 - sure)
	}
	return reordering(stations).at(sure)
}
