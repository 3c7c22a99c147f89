package program

import (
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/flightlog/unit"
)

// motionDimension is what the number of a limit on a motion measures; ok is false for other quantities. Damping ratios are plain numbers.
func motionDimension(quantity string) (d unit.Dimension, ok bool) {
	switch quantity {
	case evidence.ShortPeriodDamping, evidence.PhugoidDamping, evidence.DutchRollDamping:
		return unit.None, true
	case evidence.ControlAnticipation:
		return unit.Anticipation, true
	case evidence.DutchRollFrequency:
		return unit.AngularRate, true
	case evidence.RollTimeConstant, evidence.SpiralTimeToDouble:
		return unit.Time, true
	}
	return unit.None, false
}

// motionMeasure is the key at_least or at_most of such a number.
func motionMeasure(stem string, d unit.Dimension) measure {
	usual := map[unit.Dimension]string{unit.Anticipation: "rad_s2_per_g", unit.AngularRate: "rad_s", unit.Time: "s"}[d]
	if usual == "" {
		return number(stem, -100, 100)
	}
	return measure{stem: stem, dimension: d, usual: usual, high: 1000, open: true}
}

// motionNeeds are those of limits on the motions of the full-size aircraft; none for other limits.
func (l *loader) motionNeeds(quantity string, flying int) []need {
	if _, ok := motionDimension(quantity); !ok {
		return nil
	}
	f := l.p.FullSize
	return []need{
		{flying == 0, "a loading that flies", "add [[loading]] with its items"},
		{f.EmptyMass.Status == "", "the empty weight and its place", "add empty_mass_kg, empty_cg_x_m and empty_cg_z_m to [full_size]"},
		{f.Ix.Status == "" || f.Iy.Status == "" || f.Iz.Status == "", "the moments of inertia at full size, since motions follow from them",
			"add ix_kg_m2, iy_kg_m2 and iz_kg_m2 to [full_size], each with its standard deviation, estimated from the drawing weights or measured by swinging"},
	}
}
