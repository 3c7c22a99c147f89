package prediction

import (
	"fmt"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
	"wingproof/aero/body"
	"wingproof/aero/lattice"
	"wingproof/aero/loads"
	"wingproof/cmd/wingproof/internal/program"
)

// LoadsSetup is what the loads of an airframe depend on beside the program.
type LoadsSetup struct {
	// CG is flown where no loading flies or the empty weight is not stated, datum axes, m; its Z goes with the gross mass in any case.
	CG   r3.Vec
	Body body.Effect // its moments enter trim and sideslip (Analysis.Body); zero for none
	// Steps are even steps from a beam's inboard end to its outboard one, whose stations join those of the built
	// parts in it; 0 is none, and ten where no part lies in the beam.
	Steps int
}

// LoadsResult is what the surfaces of one airframe have to carry at full size.
type LoadsResult struct {
	Conditions []LoadCondition
	Beams      []BeamLoads // wing first, then foreplanes, then what stands up, each in the order of the airframe

	Missing  []string // what the program does not state: what is left out for that, and what would add it
	Warnings []string // what was flown and could not be, such as an elevator beyond its stop
}

// LoadCondition is a flight of the list with what the lattice made of it.
type LoadCondition struct {
	loads.Condition
	LiftCoefficient float64       // of the whole aircraft on the reference area
	State           lattice.State // as flown: angle of attack, rates over the speed, every deflection
	ElevatorHeld    bool          // a gust met with the elevator of level flight; else the elevator trims
	ElevatorBeyond  float64       // rad past its stop, either way; 0 within its travel
	SideLoadFactor  float64       // to the right: the side force over the weight
}

// BeamLoads is the envelope along one structure.
type BeamLoads struct {
	Name     string   // of the surface that it runs along: the wing, a foreplane, a winglet
	Surfaces []string // whose load it carries
	Upright  bool     // stations count along the surface from its inboard end; else from the plane of symmetry
	Length   float64  // where it ends, counted alike, m
	Envelope []loads.Extreme
}

// Beam is the one that a part in a surface belongs to: a wing's and a strake's is the wing, a winglet has its own.
func (r LoadsResult) Beam(surface string) (BeamLoads, bool) {
	for _, b := range r.Beams {
		if b.Name == surface {
			return b, true
		}
	}
	for _, b := range r.Beams {
		if slices.Contains(b.Surfaces, surface) {
			return b, true
		}
	}
	return BeamLoads{}, false
}

// Flown finds the flight that a peak of an envelope names, whichever half it is of.
func (r LoadsResult) Flown(peak loads.Peak) (LoadCondition, bool) {
	for _, c := range r.Conditions {
		if half, ok := strings.CutPrefix(peak.Condition, c.Name); ok && (half == "" || half == ", right half" || half == ", left half") {
			return c, true
		}
	}
	return LoadCondition{}, false
}

// Loads works out shear, bending and torsion along wing, foreplane and what stands up, the extremes over every
// flight that the program states the figures for, with the flight that gives each.
//
// # Weights and CGs
//
// Every loading that flies, with the fuel that it says lies along the surfaces and with those tanks run dry;
// and the gross mass at the foremost and the aftmost CG of them. Nobody says what the gross mass is made of, so that it flies
// without fuel in the surfaces, on the heavy side; a loading with tanks that weighs as much (to its standard deviation) takes its place.
// Without speeds, gusts and such tanks the gross mass is all that is flown.
//
// # Flights
//
// The list of loads.Conditions at the manoeuvre and the dive speed, flown as pull-ups; gusts at the cruise and the dive
// speed, each met twice: trimmed at its load factor, which loads the foreplane more, and with the elevator of level flight
// held, which loads the wing more. Sideslip is the one that full rudder holds, 15° at most, flown with the rudder let go, and half as
// much again with the rudder still out. A figure that is not stated leaves out what needs it, and Missing says so.
//
// Without a manoeuvre speed the limit load has no speed; it is flown with the load shape of the lift coefficient Lift,
// trimmed in level flight. So it is beside the manoeuvre speed where no dive speed closes the list.
//
// # Inertia
//
// Structure of a stated mass is spread by chord at structureAt, both halves alike; a size of a choice whose area differs from the
// baseline's weighs in proportion. Fuel is spread along the span of its tank, its centre on the x that the
// loading gives it. Masses that are not stated relieve nothing, on the heavy side. A roll that has not begun accelerates
// where Ix is stated. Standard deviations of masses are not used here.
//
// Axes, signs and sources are those of package loads. An error names the condition that cannot be flown.
func Loads(p *program.Program, airframe aero.Airframe, solution *lattice.Solution, s LoadsSetup) (LoadsResult, error) {
	f := newLoadFlier(p, airframe, solution, s)
	var r LoadsResult
	if !(p.FullSize.Mass.Value > 0 && p.FullSize.LimitLoadFactor >= 1) {
		return r, fmt.Errorf("loads: a gross mass of %.4g kg at a limit load factor of %.4g loads nothing; state mass_kg and limit_load_factor in [full_size]",
			p.FullSize.Mass.Value, p.FullSize.LimitLoadFactor)
	}
	corners := f.corners()
	beams, err := f.beams(corners)
	if err != nil {
		return r, err
	}
	flights, err := f.flights(corners)
	if err != nil {
		return r, err
	}
	lines := make([][]loads.Line, len(beams))
	for _, flight := range flights {
		condition, flown, err := f.fly(flight)
		if err != nil {
			return r, fmt.Errorf("loads in %q: %w", flight.Name, err)
		}
		r.Conditions = append(r.Conditions, condition)
		for i, b := range beams {
			found, err := b.at(flight.corner).Lines(flown)
			if err != nil {
				return r, err
			}
			lines[i] = append(lines[i], found...)
		}
	}
	for i, b := range beams {
		r.Beams = append(r.Beams, BeamLoads{Name: b.name, Surfaces: b.Surfaces, Upright: b.Upright, Length: b.end, Envelope: loads.Envelope(lines[i])})
	}
	r.Missing = append(f.unstated(), f.missing...)
	r.Warnings = beyondStops(r.Conditions)
	return r, nil
}
