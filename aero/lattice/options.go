package lattice

// Options sets how an airframe is panelled and in what air it flies.
type Options struct {
	// Density multiplies the number of panels in each direction; 0 and 1 mean the default.
	Density float64
	// Mach number for Prandtl and Glauert's rule; 0 is incompressible.
	Mach float64
	// Wake says along what the wakes run, WakeAlpha [rad] where the stream is meant. Derivatives by the angle of attack
	// leave the wake where it is.
	Wake      Wake
	WakeAlpha float64
	// Ground beneath the aircraft; nil is free air. Wakes then run along the ground, and states should have the
	// angle of attack Ground.Pitch.
	Ground *Ground
	// Incidences adds a control for every surface that turns it as a whole, named by Incidence.
	Incidences bool
	// OwnPanels gives every airframe that is solved with others the panels that it has alone, and so its numbers to round-off.
	// Less is shared where wakes pass close over a surface.
	OwnPanels bool
	// Sections also solves a unit turn of every strip by itself: see Solution.SectionResponse.
	Sections bool

	coarse [2]float64 // factors on the density along the chord and along the span, for error estimates; 0 is 1
}

// Incidence is the name of the control that turns a whole surface: nose up on a surface that runs in y, leading edge
// inboard (toe) on one that stands up, both halves alike.
func Incidence(surface string) string { return "incidence of " + surface }

// densities are the factors on the panel counts along the chord and along the span.
func (o Options) densities() (chord, span float64) {
	d := o.Density
	if !(d > 0) {
		d = 1
	}
	chord, span = d, d
	if o.coarse[0] > 0 {
		chord *= o.coarse[0]
	}
	if o.coarse[1] > 0 {
		span *= o.coarse[1]
	}
	return chord, span
}

// State is the motion of the aircraft and the position of its controls.
type State struct {
	Alpha     float64            // angle of attack of the datum x axis, rad
	Beta      float64            // sideslip, rad, wind from the right positive
	RollRate  float64            // pb/2V, right wing down positive
	PitchRate float64            // qc/2V, nose up positive
	YawRate   float64            // rb/2V, nose right positive
	Controls  map[string]float64 // deflections, rad, by the name in Hinge.Control; absent means neutral
}
