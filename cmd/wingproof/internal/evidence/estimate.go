// Package evidence holds the one record in which every measured, predicted or anchored number travels
// from the study to the judging, to the pages and to the machine-readable output.
package evidence

import (
	"math"
	"sort"
	"strings"
)

// Scale tells whether a number belongs to the model or to the full-size aircraft.
const (
	ModelScale = "model"
	FullSize   = "full_size"
)

// Origin tells where a number comes from.
const (
	Measured  = "measured"
	Predicted = "predicted"
	Anchored  = "anchored"
)

// State tells how far a number may be used.
const (
	Determined    = "determined"
	Weak          = "weak"
	NotDetermined = "not_determined"
)

// Kinds of a 95 % set: an interval, all but an interval, or every number.
const (
	Interval = "interval"
	Outside  = "outside"
	All      = "all"
)

// At is the state that a number belongs to. Nil fields do not apply.
type At struct {
	CG              *float64 `json:"cg_m"`       // full-size metres aft of datum
	CGPercent       *float64 `json:"cg_percent"` // of the mean aerodynamic chord
	LiftCoefficient *float64 `json:"lift_coefficient"`
	LoadFactor      *float64 `json:"load_factor"`
	Speed           *float64 `json:"speed_m_s"`
	Reynolds        *float64 `json:"reynolds"`
}

// Estimate is one number with everything that a reader needs to trust it.
//
// Low and High bound 95 %; nil means unbounded or not determined. SD² = SDOwn² + Σ Common², and the
// covariance of two estimates is the sum over shared source names of the products of their Common
// entries. Unused fields are null in JSON, never absent.
type Estimate struct {
	Configuration string             `json:"configuration"`
	Levels        map[string]string  `json:"levels"`
	Quantity      string             `json:"quantity"`
	Unit          string             `json:"unit"`
	Scale         string             `json:"scale"`
	Axes          *string            `json:"axes"`
	Power         *string            `json:"power"`
	At            At                 `json:"at"`
	Origin        string             `json:"origin"`
	State         string             `json:"state"`
	Value         *float64           `json:"value"`
	SD            *float64           `json:"sd"`
	SDOwn         *float64           `json:"sd_own"`
	Common        map[string]float64 `json:"common"`
	Low           *float64           `json:"low"`
	High          *float64           `json:"high"`
	Set           *string            `json:"set"`
	Method        *string            `json:"method"`
	Flights       []string           `json:"flights"`
	Points        *int               `json:"points"`
	Warnings      []string           `json:"warnings"`
}

// Covariance of two estimates: the part that shared error sources give them in common.
func Covariance(a, b Estimate) float64 {
	names := make([]string, 0, len(a.Common))
	for name := range a.Common {
		names = append(names, name)
	}
	sort.Strings(names)
	sum := 0.0
	for _, name := range names {
		sum += a.Common[name] * b.Common[name]
	}
	return sum
}

// Total returns √(own² + Σ common²), summed in the order of the source names.
func Total(own float64, common map[string]float64) float64 {
	e := Estimate{Common: common}
	return math.Sqrt(own*own + Covariance(e, e))
}

// Pointer returns the address of a copy of v, for the fields that may be null.
func Pointer[T any](v T) *T { return &v }

// Name writes levels as "foreplane=large, winglet=mid", in the order of the choices' names.
func Name(levels map[string]string) string {
	choices := make([]string, 0, len(levels))
	for choice := range levels {
		choices = append(choices, choice)
	}
	sort.Strings(choices)
	parts := make([]string, len(choices))
	for i, choice := range choices {
		parts[i] = choice + "=" + levels[choice]
	}
	if len(parts) == 0 {
		return "the only configuration"
	}
	return strings.Join(parts, ", ")
}

// The quantities that a limit may be put on, with the unit in which it is judged.
const (
	StaticMargin         = "static_margin"         // percent of the mean aerodynamic chord, every flying loading
	DirectionalStiffness = "directional_stiffness" // Cn_β, 1/rad
	LiftCurveSlope       = "lift_curve_slope"      // 1/rad
	ZeroLiftDrag         = "zero_lift_drag"        // coefficient
	TipBackAngle         = "tip_back_angle"        // rad, every loading that stands on its wheels
	NoseGearShare        = "nose_gear_share"       // percent of the weight, every loading
	OverturnAngle        = "overturn_angle"        // rad, every loading
	FuelTravel           = "fuel_cg_travel"        // percent of the mean aerodynamic chord, between loadings that fly
	NeutralPoint         = "neutral_point"         // m aft of datum; belief, not a limit
	ElevatorTrimRate     = "elevator_trim_rate"    // rad per unit CL per metre of CG travel; belief, not a limit
	BendingRatio         = "bending_ratio"         // greatest bending over allowable along a built part
	RootBendingMoment    = "root_bending_moment"   // N·m
	TrimmedLiftSlope     = "trimmed_lift_curve_slope"
	NeutralPointPercent  = "neutral_point_percent"

	MaxLift          = "max_lift_coefficient" // trimmed, whole aircraft, at the foremost loading that flies; belief, not a limit
	StallingSpeed    = "stalling_speed"       // m/s equivalent, power off, at the worst loading that flies
	StallOrderMargin = "stall_order_margin"   // rad, positive when the foreplane lets go first; the worst loading and elevator
	ZeroLiftElevator = "zero_lift_elevator"   // rad, elevator that trims at no lift; belief, not a limit
	ElevatorRoom     = "elevator_room"        // rad of nose-up elevator left when trimmed at the approach speed, at the worst loading that flies
	RotationMoment   = "rotation_moment"      // coefficient about the main wheels, elevator at its nose-up stop, in ground effect; belief, not a limit
	RotationSpeed    = "rotation_speed"       // m/s equivalent at which the nose wheel lifts, at the worst loading that flies

	SideForceSlope = "side_force_slope" // CY_β, 1/rad; this and the following derivatives are beliefs, about the CG of directional stiffness; pitch damping about that of the predictions
	DihedralEffect = "dihedral_effect"  // Cl_β, 1/rad
	RollDamping    = "roll_damping"     // Cl_p
	YawDamping     = "yaw_damping"      // Cn_r
	YawDueToRoll   = "yaw_due_to_roll"  // Cn_p
	RollDueToYaw   = "roll_due_to_yaw"  // Cl_r
	PitchDamping   = "pitch_damping"    // Cm_q + Cm_α̇

	ShortPeriodDamping  = "short_period_damping"
	ControlAnticipation = "control_anticipation" // ω²/(n/α) of the short period, rad/s² per g
	PhugoidDamping      = "phugoid_damping"
	DutchRollFrequency  = "dutch_roll_frequency" // rad/s
	DutchRollDamping    = "dutch_roll_damping"
	RollTimeConstant    = "roll_time_constant"    // s
	SpiralTimeToDouble  = "spiral_time_to_double" // s; endless when the spiral does not diverge
	SpiralRate          = "spiral_rate"           // 1/s, positive when the spiral diverges; what the time to double follows from
)

// Judged lists the quantities that a limit of the program folder may be put on. Zero-lift drag is not among them: it
// is measured on the model, but not predicted for every combination.
func Judged() []string {
	return []string{StaticMargin, DirectionalStiffness, LiftCurveSlope, TipBackAngle, NoseGearShare, OverturnAngle, FuelTravel,
		StallOrderMargin, StallingSpeed, ElevatorRoom, RotationSpeed,
		ShortPeriodDamping, ControlAnticipation, PhugoidDamping, DutchRollFrequency, DutchRollDamping, RollTimeConstant, SpiralTimeToDouble}
}
