package stability

import "math"

// FlightPhase is a category of flight phases of MIL-F-8785C.
type FlightPhase string

// The categories (MIL-F-8785C section 1.4, from memory).
const (
	PhaseA FlightPhase = "A" // not terminal, rapid manoeuvring or precise tracking
	PhaseB FlightPhase = "B" // not terminal, gradual manoeuvres: climb, cruise, loiter, descent
	PhaseC FlightPhase = "C" // terminal: take-off, approach, landing
)

// Names of the motions that levels are stated for.
const (
	ShortPeriodMotion = "short period"
	PhugoidMotion     = "phugoid"
	DutchRollMotion   = "Dutch roll"
	RollMotion        = "roll"
	SpiralMotion      = "spiral"
)

// Names of the numbers that bounds are put on.
const (
	shortPeriodDamping   = "short_period_damping"
	shortPeriodFrequency = "short_period_frequency" // rad/s
	controlAnticipation  = "control_anticipation"   // rad/s² per g
	loadFactorPerAlpha   = "load_factor_per_alpha"  // g per rad
	phugoidDamping       = "phugoid_damping"
	phugoidTimeToDouble  = "phugoid_time_to_double" // s
	dutchRollDamping     = "dutch_roll_damping"
	dutchRollDecay       = "dutch_roll_decay"     // ζω, 1/s
	dutchRollFrequency   = "dutch_roll_frequency" // rad/s
	rollTimeConstant     = "roll_time_constant"   // s
	spiralTimeToDouble   = "spiral_time_to_double"
)

// HandlingBound is one number of the specification: what a motion must keep to for a level in a category of flight phases.
type HandlingBound struct {
	Motion   string
	Quantity string // name and unit as in HandlingNumbers; dutch_roll_decay is ζω in 1/s
	Phase    FlightPhase
	Level    int // 1, 2 or 3
	Bound    float64
	Most     bool // the quantity may not exceed Bound; else it must reach it
	Source   string
}

// holds tells whether a number keeps to the bound.
func (b HandlingBound) holds(value float64) bool {
	if b.Most {
		return value <= b.Bound
	}
	return value >= b.Bound
}

// cited is a number with where it was seen.
type cited struct {
	number float64
	source string
}

// boundRow is one line of the table: a quantity in some categories, Level 1 to 3.
type boundRow struct {
	motion, quantity string
	phases           string
	most             bool
	levels           [3]cited // without a source: none stated
}

// Where the numbers were seen. The specification itself was not.
const (
	script   = "MIL-F-8785C table IV and figures 1 to 3, as transcribed in a public university flight-control assignment script"
	readme   = "MIL-F-8785C 3.2.1.2, as transcribed in a public control-course page"
	textbook = "military specification, as copied in a public textbook chapter page on lateral directional flying qualities, tables 10.1 to 10.3"
	memory   = "MIL-F-8785C, from memory"
)

// HandlingBounds lists the bounds of MIL-F-8785C, Military Specification, Flying Qualities of Piloted Airplanes (5 November 1980), for Class I,
// small, light airplanes, in a category of flight phases. The numbers were seen in secondary copies only, or stand here from memory, as
// Source says; where a copy contradicts memory, Source gives both, and the stricter one is taken.
//
// Left out: what the specification allows an aircraft whose controls are augmented, coupled roll and spiral, and turbulence.
func HandlingBounds(phase FlightPhase) []HandlingBound {
	var out []HandlingBound
	for _, row := range handlingTable() {
		for _, p := range row.phases {
			if FlightPhase(p) != phase {
				continue
			}
			for i, c := range row.levels {
				if c.source != "" {
					out = append(out, HandlingBound{row.motion, row.quantity, phase, i + 1, c.number, row.most, c.source})
				}
			}
		}
	}
	return out
}

func handlingTable() []boundRow { return append(alongTable(), acrossTable()...) }

func alongTable() []boundRow {
	none := cited{math.NaN(), ""}
	const mode = ShortPeriodMotion
	return []boundRow{
		{mode, shortPeriodDamping, "AC", false, [3]cited{{0.35, script}, {0.25, script}, {0.15, script}}},
		{mode, shortPeriodDamping, "AC", true, [3]cited{{1.30, script}, {2.00, script}, none}},
		{mode, shortPeriodDamping, "B", false, [3]cited{{0.30, script}, {0.20, script}, {0.15, script}}},
		{mode, shortPeriodDamping, "B", true, [3]cited{{2.00, script}, {2.00, script}, none}},
		{mode, controlAnticipation, "A", false, [3]cited{{0.28, script}, {0.16, script}, none}},
		{mode, controlAnticipation, "B", false, [3]cited{{0.085, script}, {0.038, script}, none}},
		{mode, controlAnticipation, "C", false, [3]cited{{0.16, script},
			{0.096, memory + " (figure 3); the script that the others were seen in has 0.05"}, none}},
		{mode, controlAnticipation, "ABC", true, [3]cited{{3.6, script}, {10, script}, none}},
		{mode, shortPeriodFrequency, "A", false, [3]cited{{1.0, memory + " (figure 1)"}, {0.6, memory + " (figure 1)"}, none}},
		{mode, shortPeriodFrequency, "C", false, [3]cited{{0.87, memory + " (figure 3)"}, {0.6, memory + " (figure 3)"}, none}},
		{mode, loadFactorPerAlpha, "C", false, [3]cited{{2.7, memory + " (figure 3)"}, {1.8, memory + " (figure 3)"}, none}},
		{PhugoidMotion, phugoidDamping, "ABC", false, [3]cited{{0.04, readme}, {0, memory + " (3.2.1.2)"}, none}},
		{PhugoidMotion, phugoidTimeToDouble, "ABC", false, [3]cited{none, none, {55, memory + " (3.2.1.2)"}}},
	}
}

func acrossTable() []boundRow {
	none := cited{math.NaN(), ""}
	const worst = "; MIL-F-8785C prints 0, from memory"
	const older = " (table VIII); the textbook page seen has the older edition's pattern, "
	return []boundRow{
		{DutchRollMotion, dutchRollDamping, "A", false, [3]cited{{0.19, textbook}, {0.02, textbook}, {0.02, textbook + worst}}},
		{DutchRollMotion, dutchRollDamping, "BC", false, [3]cited{{0.08, textbook}, {0.02, textbook}, {0.02, textbook + worst}}},
		{DutchRollMotion, dutchRollDecay, "A", false, [3]cited{{0.35, textbook}, {0.05, textbook}, none}},
		{DutchRollMotion, dutchRollDecay, "BC", false, [3]cited{{0.15, textbook}, {0.05, textbook}, none}},
		{DutchRollMotion, dutchRollFrequency, "AC", false, [3]cited{{1.0, textbook}, {0.4, textbook}, {0.4, textbook}}},
		{DutchRollMotion, dutchRollFrequency, "B", false, [3]cited{{0.4, textbook}, {0.4, textbook}, {0.4, textbook}}},
		{RollMotion, rollTimeConstant, "AC", true, [3]cited{{1.0, textbook}, {1.4, textbook}, {10, memory + " (seen for category B only)"}}},
		{RollMotion, rollTimeConstant, "B", true, [3]cited{{1.4, textbook}, {3.0, textbook}, {10, textbook}}},
		{SpiralMotion, spiralTimeToDouble, "A", false, [3]cited{{12, memory + older + "12, 12, 4"}, {8, memory + older + "12, 12, 4"}, {4, memory + older + "12, 12, 4"}}},
		{SpiralMotion, spiralTimeToDouble, "B", false, [3]cited{{20, memory + older + "20, 12, 4"}, {8, memory + older + "20, 12, 4"}, {4, memory + older + "20, 12, 4"}}},
		{SpiralMotion, spiralTimeToDouble, "C", false, [3]cited{{12, memory + older + "20, 12, 4"}, {8, memory + older + "20, 12, 4"}, {4, memory + older + "20, 12, 4"}}},
	}
}
