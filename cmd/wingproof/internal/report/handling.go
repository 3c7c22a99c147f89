package report

import (
	"math"
	"slices"
	"strings"

	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/evidence"
)

// What heads the row of levels below the motions of the full-size aircraft, which are those of the cruise: on the page, and in narrow tables.
const (
	handlingRow       = "MIL-F-8785C Class I, category B"
	narrowHandlingRow = "MIL-F-8785C Class I, cat. B"
)

// handlingWords gives the worst level among the full-size motions that flights tell of one configuration, by their values as they stand, with the
// motions that have it and those that are not known; empty when none is.
func handlingWords(estimates []evidence.Estimate, configuration string) string {
	levels := handlingNumbers(estimates, configuration).Levels(stability.PhaseB)
	if len(levels) == 0 {
		return ""
	}
	worst := 1
	for _, l := range levels {
		worst = max(worst, l.Level)
	}
	words := stability.LevelWords(worst)
	if worst > 1 {
		words += ": " + strings.Join(motionsAt(levels, worst), ", ")
	}
	if lacking := motionsWithout(levels); len(lacking) > 0 {
		words += " (" + strings.Join(lacking, ", ") + " not known)"
	}
	return words
}

func motionsAt(levels []stability.MotionLevel, level int) []string {
	var out []string
	for _, l := range levels {
		if l.Level == level {
			out = append(out, l.Motion)
		}
	}
	return out
}

func motionsWithout(levels []stability.MotionLevel) []string {
	var out []string
	for _, motion := range []string{stability.ShortPeriodMotion, stability.PhugoidMotion, stability.DutchRollMotion, stability.RollMotion, stability.SpiralMotion} {
		if !slices.ContainsFunc(levels, func(l stability.MotionLevel) bool { return l.Motion == motion }) {
			out = append(out, motion)
		}
	}
	return out
}

// handlingNumbers reads the numbers off the estimates; what is not determined is NaN, and so is all of a motion of which one number is missing.
// Load factor per angle of attack is CL_α/CL, which it is in level flight.
func handlingNumbers(estimates []evidence.Estimate, configuration string) stability.HandlingNumbers {
	of := func(quantity string) float64 {
		v, _ := toldOf(estimates, configuration, quantity, evidence.FullSize)
		return v
	}
	frequency, lift := toldOf(estimates, configuration, "short_period_frequency", evidence.FullSize)
	slope, _ := toldOf(estimates, configuration, evidence.LiftCurveSlope, evidence.ModelScale)
	n := stability.HandlingNumbers{
		ShortPeriodFrequency: frequency, ShortPeriodDamping: of(evidence.ShortPeriodDamping), LoadFactorPerAlpha: slope / lift,
		PhugoidDamping: of(evidence.PhugoidDamping), DutchRollFrequency: of(evidence.DutchRollFrequency), DutchRollDamping: of(evidence.DutchRollDamping),
		RollTimeConstant: of(evidence.RollTimeConstant), SpiralRate: of("spiral_root"),
	}
	n.ControlAnticipation = frequency * frequency / n.LoadFactorPerAlpha
	n.PhugoidTimeToDouble = timeToDouble(-n.PhugoidDamping * of("phugoid_frequency"))
	n.SpiralTimeToDouble = timeToDouble(n.SpiralRate)
	together(&n.ShortPeriodFrequency, &n.ShortPeriodDamping, &n.LoadFactorPerAlpha, &n.ControlAnticipation)
	together(&n.PhugoidDamping, &n.PhugoidTimeToDouble)
	together(&n.DutchRollFrequency, &n.DutchRollDamping)
	return n
}

// together makes all numbers NaN where one of them is.
func together(numbers ...*float64) {
	if !slices.ContainsFunc(numbers, func(v *float64) bool { return math.IsNaN(*v) }) {
		return
	}
	for _, v := range numbers {
		*v = math.NaN()
	}
}

// timeToDouble is ln 2 over a growth in 1/s: endless where nothing grows, NaN where it is not known.
func timeToDouble(growth float64) float64 {
	if growth <= 0 {
		return math.Inf(1)
	}
	return math.Ln2 / growth
}

// toldOf is the measured value of a quantity and the lift coefficient that it belongs to; NaN where nothing tells.
func toldOf(estimates []evidence.Estimate, configuration, quantity, scale string) (value, lift float64) {
	e := firstOf(estimates, configuration, quantity, evidence.Measured, scale)
	value, lift = math.NaN(), math.NaN()
	if e == nil || e.Value == nil || e.State == evidence.NotDetermined {
		return value, lift
	}
	if e.At.LiftCoefficient != nil {
		lift = *e.At.LiftCoefficient
	}
	return *e.Value, lift
}
