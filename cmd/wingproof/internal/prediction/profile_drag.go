package prediction

import (
	"errors"
	"fmt"
	"math"

	"wingproof/aero"
	"wingproof/aero/aerofoil"
	"wingproof/aero/atmosphere"
	"wingproof/aero/lattice"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
)

// Quantities of drag over the dynamic pressure, m² at full size.
const (
	ProfileDragArea = "profile_drag_area" // lifting surfaces, friction and form
	InducedDragArea = "induced_drag_area" // far field
	SurfaceDragArea = "surface_drag_area" // both together: what a winglet's size trades
)

// DragCondition is steady flight in which drags are compared.
type DragCondition struct {
	Name       string  // such as "cruise"
	Size       string  // evidence.ModelScale or evidence.FullSize
	Ratio      float64 // length of this size over full size; 0 counts as 1
	Lift       float64 // lift coefficient
	Speed      float64 // true, of this size, m/s
	Air        atmosphere.State
	State      string              // aerofoil.Clean when empty
	Transition aerofoil.Transition // where a clean surface without a polar turns turbulent; the zero value is the leading edge
}

// CruiseCondition is full size at its cruise speed, altitude and gross mass; an error says which of them is not stated.
func CruiseCondition(p *program.Program, area float64) (DragCondition, error) {
	f := p.FullSize
	if !(f.CruiseSpeed > 0 && f.Mass.Value > 0 && area > 0) {
		return DragCondition{}, errors.New("drag in cruise: full_size.cruise or full_size.mass_kg is not stated")
	}
	air, err := atmosphere.Standard(f.CruiseAltitude)
	if err != nil {
		return DragCondition{}, fmt.Errorf("drag in cruise: %w", err)
	}
	pressure := air.Density * f.CruiseSpeed * f.CruiseSpeed / 2
	return DragCondition{Name: "cruise", Size: evidence.FullSize, Lift: f.Mass.Value * atmosphere.Gravity / (pressure * area), Speed: f.CruiseSpeed, Air: air}, nil
}

// LiftingDrag is the drag of the lifting surfaces in one condition, over the dynamic pressure, m² at full size.
type LiftingDrag struct {
	Condition DragCondition
	Reynolds  float64           // of the mean aerodynamic chord
	Trim      lattice.State     // in which the surfaces stand
	Induced   float64           // far field; the error of the theory is not in it
	Profile   aerofoil.DragArea // by surface, with its standard deviation
}

// Area is induced and profile drag together.
func (d LiftingDrag) Area() float64 { return d.Induced + d.Profile.Drag }

// Force is that drag in newtons, of the condition's own size.
func (d LiftingDrag) Force() float64 { return d.Condition.force(d.Area()) }

func (c DragCondition) ratio() float64 {
	if c.Ratio > 0 {
		return c.Ratio
	}
	return 1
}

func (c DragCondition) force(area float64) float64 {
	return c.Air.Density * c.Speed * c.Speed / 2 * area * c.ratio() * c.ratio()
}

// DragDifference is how much more drag one airframe has than another, m² over the dynamic pressure, and in newtons.
type DragDifference struct {
	Induced, Profile, Net float64
	Deviation             float64 // standard deviation of Profile and so of Net, by section data and friction; errors that both share cancel
	Force                 float64 // Net in newtons, of the condition's own size
}

// Minus compares two airframes in one condition, such as two sizes of a winglet. Their drags must come from the same Sections, so that
// shared errors are known to be shared; it is an error when the conditions differ.
func (d LiftingDrag) Minus(o LiftingDrag) (DragDifference, error) {
	if d.Condition != o.Condition {
		return DragDifference{}, fmt.Errorf("drags of %q and %q are not of one condition: compare at the same lift coefficient, speed and air", d.Condition.Name, o.Condition.Name)
	}
	profile, deviation := d.Profile.Minus(o.Profile)
	induced := d.Induced - o.Induced
	return DragDifference{Induced: induced, Profile: profile, Net: induced + profile, Deviation: deviation, Force: d.Condition.force(induced + profile)}, nil
}

// ProfileDrag is the drag of an airframe's lifting surfaces in trim at a condition: profile drag by strips, from the polars of the aerofoils on
// both sides of each strip or, where one has none with drag, from friction and form; and induced drag.
//
// aerofoil.StripDrag says what is assumed. The setup gives CG, elevator and fuselage. An error says why there is no trim or which strip
// cannot be used; doubts are in Profile.Warnings.
func ProfileDrag(sections *Sections, a *Analysis, s Setup, c DragCondition) (LiftingDrag, error) {
	d := LiftingDrag{Condition: c}
	var err error
	if d.Trim, err = s.trimAt(a, c.Lift); err != nil {
		return d, fmt.Errorf("drag in %s: %w", c.Name, err)
	}
	r := a.Solution.Reference()
	perMetre := c.Air.Density * c.Speed * c.ratio() / c.Air.Viscosity
	d.Reynolds = perMetre * r.MeanChord
	d.Induced = a.Solution.InducedDrag(d.Trim) * r.Area
	if d.Profile, err = aerofoil.StripDrag(dragStrips(sections, a, d.Trim, c, perMetre)); err != nil {
		return d, fmt.Errorf("drag in %s: %w", c.Name, err)
	}
	return d, nil
}

// trimAt balances an airframe at a lift coefficient; without the elevator, by angle of attack alone.
func (s Setup) trimAt(a *Analysis, lift float64) (lattice.State, error) {
	if !HasControl(a.Airframe, s.elevator()) {
		alpha, err := a.Solution.AlphaForLift(lift, nil)
		return lattice.State{Alpha: alpha}, err
	}
	r := a.Solution.Reference()
	return a.Solution.Balanced(lattice.Balance{
		Lift: lift, Control: s.elevator(), MomentPoint: s.CG, MomentSlope: a.Body.Pitch / (r.Area * r.MeanChord),
	})
}

// dragStrips are both halves of all strips; one between two aerofoils counts as a share of each.
func dragStrips(sections *Sections, a *Analysis, trim lattice.State, c DragCondition, perMetre float64) []aerofoil.Strip {
	surfaces := map[string]aero.Surface{}
	for _, s := range a.Airframe.Surfaces {
		surfaces[s.Name] = s
	}
	var out []aerofoil.Strip
	for _, load := range a.Solution.Strips(lattice.State{}) {
		s := surfaces[load.Surface]
		inner, outer := s.Stations[load.Station-1], s.Stations[min(load.Station, len(s.Stations)-1)]
		copies := 1.0
		if s.Mirrored {
			copies = 2
		}
		for _, part := range []struct {
			station aero.Station
			share   float64
		}{{inner, 1 - load.Between}, {outer, load.Between}} {
			if part.share <= 0 {
				continue
			}
			strip := aerofoil.Strip{
				Surface: load.Surface, Area: copies * part.share * load.Chord * load.Width, Chord: load.Chord, Reynolds: perMetre * load.Chord,
				Thickness: part.station.Thickness, Flap: deflectionOn(s, load.Station, trim), State: c.State, Transition: c.Transition,
			}
			strip.Polar = sections.drag(part.station.Aerofoil, c.State)
			out = append(out, strip)
		}
	}
	return out
}

// drag is the table of an aerofoil with drags in a state; nil where there is none.
func (s *Sections) drag(name, state string) *aerofoil.Polar {
	if state == "" {
		state = aerofoil.Clean
	}
	polar := s.tables[name].drag
	if polar == nil {
		return nil
	}
	if _, _, ok := polar.Range(state); !ok {
		return nil
	}
	return polar
}

// deflectionOn adds the deflections of the symmetric controls on the stretch outboard of a station.
func deflectionOn(s aero.Surface, station int, trim lattice.State) float64 {
	sum := 0.0
	for _, h := range s.Hinges {
		if station >= h.FromStation && station < h.ToStation {
			sum += trim.Controls[h.Control]
		}
	}
	return math.Min(math.Max(sum, -math.Pi/2), math.Pi/2)
}
