package aero

import "gonum.org/v1/gonum/spatial/r3"

// StripLoad is the air load on one chordwise strip of the right half of a surface.
type StripLoad struct {
	Surface     string
	Centre      r3.Vec  // middle of the strip on its quarter-chord line, datum axes, m
	Width       float64 // along the surface, m
	Chord       float64 // m
	Force       r3.Vec  // force over ½ρV², datum axes (x aft, y right, z up), m²
	Moment      r3.Vec  // moment about Centre over ½ρV², datum axes, right-hand rule, m³
	SectionLift float64 // circulation lift coefficient of the section, 2Γ/(Vc)
	Station     int     // the station inboard of its control station, counted from 1 as in the station table
	Between     float64 // how far the control station stands from there to the next one, 0 to 1
}
