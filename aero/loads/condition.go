package loads

import "gonum.org/v1/gonum/spatial/r3"

// Loading is a mass and where it lies: one corner of the weights and CGs that are allowed.
type Loading struct {
	Name     string
	Mass     float64 // kg
	CG       r3.Vec  // datum axes, m
	FuelFull bool    // the tanks on the surface are full; else they are empty
}

// Condition is one flight that loads the structure.
//
// The caller trims the aircraft at LiftCoefficient about the CG, then sets aileron, rudder and sideslip with the
// elevator held, and takes the strips of that state. An asymmetric condition has its aileron, rudder and sideslip on
// the positive side only: its left half is what the right half bears when all of it is mirrored.
type Condition struct {
	Name       string  // in words, the loading included
	Loading    string  // name of the loading alone
	Mass       float64 // kg
	CG         r3.Vec  // datum axes, m
	FuelFull   bool    // the tanks on the surface are full; else they are empty
	LoadFactor float64
	Speed      float64 // equivalent airspeed, m/s

	Aileron    float64 // fraction of full travel, positive rolls right
	SteadyRoll bool    // the roll rate is the one at which damping takes up the aileron's moment (SteadyRollRate); else zero
	Rudder     float64 // fraction of full travel, trailing edge left positive
	Sideslip   float64 // rad, wind from the right positive: what a rudder to the left brings
}

// Asymmetric tells whether the two halves are loaded differently.
func (c Condition) Asymmetric() bool { return c.Aileron != 0 || c.Rudder != 0 || c.Sideslip != 0 }

// DynamicPressure is that of the condition's speed, Pa.
func (c Condition) DynamicPressure() float64 { return DynamicPressure(c.Speed) }

// LiftCoefficient is what the whole aircraft flies at on a reference area, m²: n·m·g/(q·S). It is infinite or no
// number when speed or area is zero.
func (c Condition) LiftCoefficient(area float64) float64 {
	return c.LoadFactor * c.Mass * gravity / (c.DynamicPressure() * area)
}
