package estimate

import (
	"wingproof/aero"
	"wingproof/aero/stability"
)

// Names of the natural motions' numbers. The root of the spiral stands beside its time to double, because that time is
// infinite in the middle of what is usual: limits are better judged on the root.
const (
	ShortPeriodFrequency = "short_period_frequency" // rad/s
	ShortPeriodDamping   = "short_period_damping"
	PhugoidFrequency     = "phugoid_frequency" // rad/s
	PhugoidDamping       = "phugoid_damping"
	DutchRollFrequency   = "dutch_roll_frequency" // rad/s
	DutchRollDamping     = "dutch_roll_damping"
	RollTimeConstant     = "roll_time_constant"    // s
	SpiralTimeToDouble   = "spiral_time_to_double" // s
	SpiralRoot           = "spiral_root"           // 1/s, positive grows
)

// Names of the sources of error that belong to the full-size aircraft alone.
const (
	FullSizeMass     = "full_size_mass"      // relative
	FullSizeInertiaX = "full_size_inertia_x" // relative
	FullSizeInertiaY = "full_size_inertia_y"
	FullSizeInertiaZ = "full_size_inertia_z"
	FullSizeCG       = "full_size_cg" // m
)

// ModeInput is what the natural motions are computed from: derivatives, as one or several fits give them, and the aircraft that
// is to move.
type ModeInput struct {
	Derivatives      []ModeDerivative
	Covariance       [][]float64 // of the random errors, in the order of Derivatives; nil takes them as independent, each with its SD
	Degrees          float64     // of freedom behind it; 0 takes it as known
	Reference        aero.Reference
	MomentX, MomentZ float64 // m aft of and above datum, of the size of Reference: the point that the derivatives refer to
	Lift             float64 // lift coefficient at which they were measured; 0 when not known
	Mass, Density    float64 // kg and kg/m³ of the model that they were measured on: what Cm_α̇ does to the others; 0 when not known
	Power            string
	Flights          []string
	Points           int // manoeuvres behind the derivatives

	Aircraft ModeAircraft
	Seed     uint64 // of the draws that check the propagation of errors
}

// ModeDerivative is one derivative, named as package identify names it, with its doubts.
type ModeDerivative struct {
	Quantity string
	Value    float64
	SD       float64            // of the random part; Covariance, where given, stands instead of it
	Common   map[string]float64 // signed effect of one standard deviation of each shared source
	From     string             // where it comes from when it was not measured, as a crew would say it: the vortex lattice
}

// ModeAircraft is what moves: the model as flown, or the full-size aircraft.
//
// Its lengths may have another scale than those of the input: the moment point goes over in fractions of the mean aerodynamic chord, coefficients
// as they are. What Reynolds number changes is left out.
type ModeAircraft struct {
	Scale       string  // model or full_size
	LengthRatio float64 // of this aircraft over the full-size one; 0 means 1
	Reference   aero.Reference
	Body        stability.Body
	CGX, CGZ    float64 // m of this size, aft of and above datum
	Speed       float64 // true, m/s
	Density     float64 // kg/m³
	Alpha       float64 // rad, of the datum x axis in that flight
	Bank        float64 // rad, in that flight: gravity acts across the model with its cosine, and swings are slower
	Drag        float64 // coefficient in that flight
	DragByAlpha float64 // 1/rad
	Errors      ModeErrors
}

// ModeErrors says what one standard deviation of each shared source does to the aircraft as it is reported: relative for mass, inertias,
// speed and density, in m of its size for the CG, in rad for the angle of attack, absolute for drag.
//
// A source that the derivatives carry too goes by the same name, so that what cancels does: a moment derivative was
// measured in proportion to the inertia, so at model scale an error of the inertia leaves the frequency alone.
type ModeErrors struct {
	Mass, InertiaX, InertiaY, InertiaZ map[string]float64
	Speed, Density                     map[string]float64
	CG, Alpha, Drag                    map[string]float64
}
