package lattice

// Options sets how finely an airframe is panelled.
type Options struct {
	// Density multiplies the number of panels in each direction; 0 and 1 mean the default.
	Density float64
	// SharedEdges are further y stations, m, where surfaces that run in y get a panel edge, so that the
	// levels of a choice keep the panels of unchanged surfaces.
	SharedEdges []float64
}

func (o Options) density() float64 {
	if o.Density > 0 {
		return o.Density
	}
	return 1
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
