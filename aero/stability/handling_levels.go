package stability

import (
	"fmt"
	"math"
)

// WorseThanLevel3 is the level of a motion that keeps to no bound.
const WorseThanLevel3 = 4

// MotionLevel is the level of one motion.
type MotionLevel struct {
	Motion  string
	Level   int           // 1 is best; WorseThanLevel3
	Value   float64       // of the quantity that decides
	Decides HandlingBound // the bound that keeps it from a better level; of Level 1 the one that leaves least room
}

// LevelWords says a level as it is printed.
func LevelWords(level int) string {
	if level >= WorseThanLevel3 {
		return "worse than Level 3"
	}
	return fmt.Sprintf("Level %d", level)
}

// HandlingLevels gives the level of each motion by MIL-F-8785C, Class I, in a category of flight phases: short period, phugoid, Dutch
// roll, roll, spiral. The modes must be those at full size; loadFactorPerAlpha is n/α [g per rad], above zero. See HandlingBounds for
// the numbers and where they come from.
//
// The levels are those of a guide: they say nothing of stalls, of controls, or of whether an aircraft may be flown.
func HandlingLevels(m Modes, loadFactorPerAlpha float64, phase FlightPhase) []MotionLevel {
	return m.HandlingNumbers(loadFactorPerAlpha).Levels(phase)
}

// Levels is HandlingLevels from the numbers. One that is not known is NaN, and its bounds are then not looked at; a motion of which
// nothing is known is left out.
func (n HandlingNumbers) Levels(phase FlightPhase) []MotionLevel {
	var out []MotionLevel
	bounds := HandlingBounds(phase)
	for _, motion := range []string{ShortPeriodMotion, PhugoidMotion, DutchRollMotion, RollMotion, SpiralMotion} {
		if level, ok := n.level(motion, bounds); ok {
			out = append(out, level)
		}
	}
	return out
}

// level is that of one motion; false when nothing is known of it.
func (n HandlingNumbers) level(motion string, bounds []HandlingBound) (MotionLevel, bool) {
	out := MotionLevel{Motion: motion, Level: 1}
	known, room := false, math.Inf(1)
	for _, b := range bounds {
		value := n.value(b.Quantity)
		if b.Motion != motion || math.IsNaN(value) {
			continue
		}
		known = true
		switch {
		case !b.holds(value) && b.Level >= out.Level:
			out.Level, out.Value, out.Decides = b.Level+1, value, b
		case b.Level == 1 && out.Level == 1 && (roomIn(b, value) < room || out.Decides.Source == ""):
			room, out.Value, out.Decides = roomIn(b, value), value, b
		}
	}
	return out, known
}

// roomIn is how many times a number of Level 1 keeps to its bound.
func roomIn(b HandlingBound, value float64) float64 {
	if b.Most {
		return b.Bound / value
	}
	return value / b.Bound
}

// value of a quantity that bounds are put on; NaN for a name that is none.
func (n HandlingNumbers) value(quantity string) float64 {
	switch quantity {
	case shortPeriodDamping:
		return n.ShortPeriodDamping
	case shortPeriodFrequency:
		return n.ShortPeriodFrequency
	case controlAnticipation:
		return n.ControlAnticipation
	case loadFactorPerAlpha:
		return n.LoadFactorPerAlpha
	case phugoidDamping:
		return n.PhugoidDamping
	case phugoidTimeToDouble:
		return n.PhugoidTimeToDouble
	case dutchRollDamping:
		return n.DutchRollDamping
	case dutchRollDecay:
		return n.DutchRollDamping * n.DutchRollFrequency
	case dutchRollFrequency:
		return n.DutchRollFrequency
	case rollTimeConstant:
		return n.RollTimeConstant
	case spiralTimeToDouble:
		return n.SpiralTimeToDouble
	}
	return math.NaN()
}
