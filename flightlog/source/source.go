// Package source names the errors that many numbers share: which ones move together, and by how much each?
//
// An estimate carries, for each name, the signed change of its value when that source moves by one standard deviation. A source is the
// error of what was reported: CG at plus one standard deviation means that every reported CG lies that much aft of the true one.
// The covariance of two estimates is the sum over shared names of the products.
package source

import "wingproof/flightlog"

// The shared sources of error.
const (
	AirspeedScale = "airspeed_scale" // relative error of indicated airspeed
	Mass          = "mass"           // relative
	Density       = "density"        // relative
	CG            = "cg"             // offset of every reported CG, m
	CGScale       = "cg_scale"       // stretch of the distances between reported CGs
	Alpha         = "alpha_mounting" // mounting of the inertial unit, rad
	ElevatorScale = "elevator_scale" // relative error of the surface angle
	AileronScale  = "aileron_scale"
	RudderScale   = "rudder_scale"
	GlideDrag     = "glide_drag"    // coefficient: of the drag that glides gave
	UnsteadyFlow  = "unsteady_flow" // lag of the flow behind the motion, which no fit of steady derivatives sees
	LinearSwing   = "linear_swing"  // of a model without bank and speed that change, against the swings as flown
	InertiaX      = "inertia_x"     // relative
	InertiaY      = "inertia_y"
	InertiaZ      = "inertia_z"
)

// Lag names the error of the time by which a surface follows its command, s.
func Lag(control flightlog.Quantity) string { return "surface_lag_" + string(control) }
