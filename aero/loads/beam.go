package loads

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// Beam is one structure along which loads are wanted, drawn on the right half.
type Beam struct {
	// Surfaces are those whose load it carries: wing, strake and winglet for a wing spar, the foreplane alone for
	// its spar, the winglet alone for its root.
	Surfaces []string
	Upright  bool      // it is one surface that stands up: stations count along it (AlongUpright)
	Stations []float64 // m from the plane of symmetry, or along an upright surface from its inboard end
	Axis     []float64 // x of the torsion axis at each station, m aft of datum; nil is the quarter-chord point there

	Structure []PointMass // of the right half that it carries, winglet included
	Fuel      []PointMass // of the right half when the tanks are full
}

// Flown is a condition with the air loads that were solved for it.
type Flown struct {
	Condition Condition
	Right     []aero.StripLoad // all strips of the right half, over the dynamic pressure
	Left      []aero.StripLoad // of the left half as if mirrored to the right; nil when the halves are alike

	SideLoadFactor float64  // to the right, side force over weight
	Rates          Rotation // rad/s with the true airspeed, as in the strips' state
	RateChanges    Rotation // rad/s², such as q·S·b·Cl/Ix when a roll begins; zero leaves that relief out
}

// Lines works out what a beam carries in a condition: air loads at the dynamic pressure of its speed less the
// inertia of structure and, with full tanks, of fuel. It is one line where both halves are alike, else two, that of
// the right half first and that of the left half, mirrored, second; the names say which.
//
// An error names what does not fit: no strip on the beam's surfaces, an upright beam of several surfaces, a torsion
// axis without one x for each station, or a condition without speed.
func (b Beam) Lines(f Flown) ([]Line, error) {
	c := f.Condition
	motion := Motion{
		SpecificForce: r3.Vec{Y: f.SideLoadFactor * gravity, Z: c.LoadFactor * gravity},
		CG:            c.CG, Rates: f.Rates, RateChanges: f.RateChanges,
	}
	right, err := b.line(c, f.Right, motion)
	if err != nil {
		return nil, fmt.Errorf("loads in %q: %w", c.Name, err)
	}
	if f.Left == nil {
		return []Line{{c.Name, right}}, nil
	}
	left, err := b.line(c, f.Left, motion.Mirrored())
	if err != nil {
		return nil, fmt.Errorf("loads in %q, left half: %w", c.Name, err)
	}
	return []Line{{c.Name + ", right half", right}, {c.Name + ", left half", left}}, nil
}

// line is one half.
func (b Beam) line(c Condition, strips []aero.StripLoad, motion Motion) ([]Section, error) {
	if err := b.check(c, strips); err != nil {
		return nil, err
	}
	var sections []Section
	if b.Upright {
		sections = AlongUpright(strips, b.Surfaces[0], b.Stations)
	} else {
		sections = AlongQuarterChord(strips, b.Surfaces, b.Stations)
	}
	if b.Axis != nil {
		var err error
		if sections, err = AboutAxis(sections, b.Axis); err != nil {
			return nil, err
		}
	}
	sections = AddInertia(Times(sections, c.DynamicPressure()), b.Structure, motion)
	if c.FuelFull {
		sections = AddInertia(sections, b.Fuel, motion)
	}
	return sections, nil
}

// check finds what would make a line without meaning.
func (b Beam) check(c Condition, strips []aero.StripLoad) error {
	switch {
	case !positive(c.Speed):
		return fmt.Errorf("the speed is %.4g m/s; it has to be positive", c.Speed)
	case b.Upright && len(b.Surfaces) != 1:
		return fmt.Errorf("the beam stands up and names %d surfaces; name the one that it runs along", len(b.Surfaces))
	case len(counted(strips, b.Surfaces)) == 0:
		return fmt.Errorf("no strip belongs to %q; the strips are of %q", b.Surfaces, surfacesOf(strips))
	}
	return nil
}
