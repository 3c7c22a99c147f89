package program

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
	"wingproof/flightlog/unit"
)

// editSize is one number that an edit may set: how program.toml writes it, where Edit holds it, and what it
// does to an airframe.
type editSize struct {
	measure measure
	field   func(*Edit) **float64
	apply   func(a aero.Airframe, surface string, si float64) (aero.Airframe, error)
	now     func(aero.Surface) (si float64, ok bool) // of a surface as it stands; ok is false where the size means nothing
}

// editSizes lists the sizes in the order in which Edit.Apply makes them: first the extent, then the angles, then
// the place. An edit that states several relies on that order.
func editSizes() []editSize {
	return []editSize{
		{length("span").positive(), func(e *Edit) **float64 { return &e.Span }, aero.Airframe.SetSpan, spanOf},
		{length("height").positive(), func(e *Edit) **float64 { return &e.Height }, aero.Airframe.SetHeight, heightOf},
		{number("chord_scale", 0.2, 5), func(e *Edit) **float64 { return &e.ChordScale }, aero.Airframe.ScaleChord, constant(1)},
		{angle("cant", -120, 120), func(e *Edit) **float64 { return &e.Cant }, aero.Airframe.SetCant, cantOf},
		{angle("toe", -30, 30), func(e *Edit) **float64 { return &e.Toe }, aero.Airframe.SetToe, toeOf},
		{angle("incidence", -30, 30), func(e *Edit) **float64 { return &e.Incidence }, aero.Airframe.SetIncidence, incidenceOf},
		{length("move_x"), func(e *Edit) **float64 { return &e.MoveX }, func(a aero.Airframe, s string, v float64) (aero.Airframe, error) { return a.Shift(s, v, 0) }, constant(0)},
		{length("move_z"), func(e *Edit) **float64 { return &e.MoveZ }, func(a aero.Airframe, s string, v float64) (aero.Airframe, error) { return a.Shift(s, 0, v) }, constant(0)},
	}
}

// usualUnit is the unit that the program writes the size in.
func (e editSize) usualUnit() unit.Unit {
	if u, ok := unit.Lookup(e.measure.usual, e.measure.dimension); ok {
		return u
	}
	return unit.Unit{Dimension: unit.None, Factor: 1}
}

// Apply makes the changes of the edit on a copy of the airframe, in a fixed order: other stations, then
// span, height and chords, then cant, toe and incidence, then the place. What joins the surface follows it.
//
// An error (aero.GeometryError) is a surface that is not there or a size that the surface cannot take; the
// result is not checked beyond that: Program.AirframeWith does.
func (e Edit) Apply(a aero.Airframe) (aero.Airframe, error) {
	var err error
	if e.Stations != nil {
		if a, err = a.ReplaceStations(e.Surface, e.Stations); err != nil {
			return aero.Airframe{}, err
		}
	}
	for _, size := range editSizes() {
		v := *size.field(&e)
		if v == nil {
			continue
		}
		if a, err = size.apply(a, e.Surface, *v); err != nil {
			return aero.Airframe{}, err
		}
	}
	return a, nil
}

// smallestExtent is the extent, m, below which a surface counts as having none in that direction.
const smallestExtent = 1e-6

// ends are the leading edges of the inboard and the outboard end.
func ends(s aero.Surface) (root, tip r3.Vec) {
	return s.Stations[0].LeadingEdge, s.Stations[len(s.Stations)-1].LeadingEdge
}

func rootChord(s aero.Surface) r3.Vec {
	return r3.Sub(s.Stations[0].TrailingEdge, s.Stations[0].LeadingEdge)
}

func constant(si float64) func(aero.Surface) (float64, bool) {
	return func(aero.Surface) (float64, bool) { return si, true }
}

func spanOf(s aero.Surface) (float64, bool) {
	root, tip := ends(s)
	return 2 * tip.Y, tip.Y-root.Y > smallestExtent
}

func heightOf(s aero.Surface) (float64, bool) {
	root, tip := ends(s)
	height := math.Abs(tip.Z - root.Z)
	return height, height > smallestExtent
}

func cantOf(s aero.Surface) (float64, bool) {
	root, tip := ends(s)
	return math.Atan2(tip.Y-root.Y, math.Abs(tip.Z-root.Z)), upright(s)
}

func toeOf(s aero.Surface) (float64, bool) {
	chord := rootChord(s)
	return math.Atan2(chord.Y, chord.X), upright(s)
}

func incidenceOf(s aero.Surface) (float64, bool) {
	chord := rootChord(s)
	return math.Atan2(-chord.Z, chord.X), !upright(s)
}

// upright tells a winglet or a fin, which rises more than it reaches outboard, from a wing.
func upright(s aero.Surface) bool {
	root, tip := ends(s)
	return math.Abs(tip.Z-root.Z) > math.Abs(tip.Y-root.Y)
}
