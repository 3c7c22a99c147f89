package program

import (
	"wingproof/aero"
	"wingproof/aero/aerofoil"
)

// AerofoilData is one [[aerofoil]]: the section that stations name, and its table of largest lift.
type AerofoilData struct {
	Name      string
	Line      aero.MeanLine // nil for a section without camber
	Thickness float64       // largest, fraction of the chord
	PolarFile string        // relative, slashes; empty when no polar is named
	Polar     []PolarRow    // in the order of the file
}

// Rows gives the polar as package aerofoil takes it (aerofoil.NewPolar); a drag that is not stated is 0 there.
func (a AerofoilData) Rows() []aerofoil.PolarRow {
	var out []aerofoil.PolarRow
	for _, r := range a.Polar {
		row := aerofoil.PolarRow{Reynolds: r.Reynolds, Flap: r.Flap, State: r.State, MaxLift: r.MaxLift, Source: r.Source}
		if r.ProfileDrag != nil {
			row.ProfileDrag = *r.ProfileDrag
		}
		out = append(out, row)
	}
	return out
}

// PolarRow is one row of a section's polar: what the section does at one Reynolds number, flap angle and state.
// No two rows of a polar share all three, and each state has a row for every pair of its Reynolds numbers and
// flap angles.
type PolarRow struct {
	Reynolds    float64  // on the chord
	Flap        float64  // rad, trailing edge down positive
	State       string   // aerofoil.Clean or aerofoil.Contaminated
	MaxLift     float64  // largest section lift coefficient
	ProfileDrag *float64 // section drag coefficient; nil when the cell is empty
	Source      string
	Row         int // of the table, for messages
}

// SurfaceMass is the structural mass of one lifting surface, both halves together.
type SurfaceMass struct {
	Surface string
	Mass    float64 // kg
	SD      float64 // kg, 0 when not stated
}

// HingeError is the stated doubt about the effectiveness of one control.
type HingeError struct {
	Surface         string
	Hinge           int // index into Surface.Hinges
	Control         string
	EffectivenessSD float64 // relative: 0.1 is a tenth of the effectiveness
}

// FuselageStation is one cut through the body, full-size metres; x rises from the nose.
type FuselageStation struct {
	X      float64 // aft of datum
	Width  float64
	Height float64
	Z      float64 // of the middle of the height, above datum
}
