package aerofoil

import (
	"math"
	"slices"

	"wingproof/aero"
)

// SurfaceDrag is the share of one lifting surface in a DragArea.
type SurfaceDrag struct {
	Surface   string
	PlanArea  float64 // of its strips, m²
	Drag      float64 // profile drag over dynamic pressure, m²
	Deviation float64 // standard deviation of Drag, m²
	FromPolar float64 // the part of Drag that comes from polars, m²
}

// CommonError is the error that all strips of one source share.
type CommonError struct {
	Polar     *Polar  // nil: friction and form factor
	Deviation float64 // standard deviation of drag over dynamic pressure, m²
}

// DragArea is the profile drag of an arrangement of lifting surfaces over the dynamic pressure.
type DragArea struct {
	Drag      float64       // m²; over the reference area it is a drag coefficient
	Deviation float64       // standard deviation, m²
	Surfaces  []SurfaceDrag // in the order in which they first occur
	Common    []CommonError // what Deviation is made of, by source in the order in which they first occur
	Warnings  []aero.Warning
}

// Minus is how much more profile drag a has than b, m², and its standard deviation: errors of a source that both
// share (the same friction estimate, the same *Polar) cancel in part, as between two sizes of a winglet.
func (a DragArea) Minus(b DragArea) (difference, deviation float64) {
	common := slices.Clone(a.Common)
	for _, e := range b.Common {
		common = add(common, e.Polar, -e.Deviation)
	}
	return a.Drag - b.Drag, together(common)
}

// add puts deviation onto that of its source, in the order in which sources come.
func add(common []CommonError, source *Polar, deviation float64) []CommonError {
	for i := range common {
		if common[i].Polar == source {
			common[i].Deviation += deviation
			return common
		}
	}
	return append(common, CommonError{source, deviation})
}

// together is the standard deviation of independent sources.
func together(common []CommonError) float64 {
	sum := 0.0
	for _, e := range common {
		sum += e.Deviation * e.Deviation
	}
	return math.Sqrt(sum)
}

// stripSum is a DragArea in the making.
type stripSum struct {
	area      DragArea
	bySurface [][]CommonError // beside area.Surfaces
}

func (t *stripSum) add(s Strip) error {
	cd, relative, doubt, right, err := s.drag()
	if err != nil {
		return err
	}
	at := slices.IndexFunc(t.area.Surfaces, func(d SurfaceDrag) bool { return d.Surface == s.Surface })
	if at < 0 {
		at = len(t.area.Surfaces)
		t.area.Surfaces, t.bySurface = append(t.area.Surfaces, SurfaceDrag{Surface: s.Surface}), append(t.bySurface, nil)
	}
	drag := s.Area * cd
	t.area.Drag += drag
	surface := &t.area.Surfaces[at]
	surface.PlanArea += s.Area
	surface.Drag += drag
	if s.Polar != nil {
		surface.FromPolar += drag
	}
	t.area.Common = add(t.area.Common, s.Polar, drag*relative)
	t.bySurface[at] = add(t.bySurface[at], s.Polar, drag*relative)
	warning := aero.Warning{Surface: s.Surface, What: doubt, Right: right}
	if doubt != "" && !slices.Contains(t.area.Warnings, warning) {
		t.area.Warnings = append(t.area.Warnings, warning)
	}
	return nil
}

func (t *stripSum) result() DragArea {
	t.area.Deviation = together(t.area.Common)
	for i := range t.area.Surfaces {
		t.area.Surfaces[i].Deviation = together(t.bySurface[i])
	}
	return t.area
}
