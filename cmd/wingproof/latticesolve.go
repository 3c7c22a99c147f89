package main

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
	"wingproof/aero/atmosphere"
	"wingproof/aero/lattice"
	"wingproof/aero/loads"
	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/program"
)

// subject is one airframe that the lattice is asked about: a configuration, with or without further edits.
type subject struct {
	name     string // such as "foreplane=long, winglet=mid"
	levels   map[string]string
	airframe aero.Airframe
	warnings []string
}

// subjectOf builds the airframe of levels with edits on top.
func subjectOf(p *program.Program, levels map[string]string, edits []program.Edit) (subject, error) {
	airframe, warnings, err := p.AirframeWith(levels, edits)
	if err != nil {
		return subject{}, usageError{fmt.Errorf("configuration %s: %w", evidence.Name(levels), err)}
	}
	return subject{evidence.Name(levels), levels, airframe, warnings}, nil
}

// solved is a subject with what theory gives for it.
type solved struct {
	subject
	prediction.Analysis
	bending lattice.Number // in the plane of symmetry at limit load, N·m; NaN where the folder does not tell mass and load factor
	notes   []string       // warnings of geometry, lattice and trim
}

// solve asks the lattice about several airframes in one condition.
func (c condition) solve(p *program.Program, subjects []subject) ([]solved, error) {
	analyses, turned, err := c.analyse(p, subjects)
	if err != nil {
		return nil, named(err, subjects)
	}
	out := make([]solved, len(subjects))
	for i := range out {
		s := &out[i]
		s.subject, s.Analysis = subjects[i], analyses[i]
		if s.bending, err = c.rootBending(p, &s.Analysis); err != nil {
			return nil, named(&lattice.AirframeError{Index: i, Err: err}, subjects)
		}
		s.notes = append(append(append(s.notes, c.warnings...), s.subject.warnings...), s.Analysis.Warnings...)
		s.notes = append(append(s.notes, turned[i]...), travelWarnings(s.Analysis)...)
	}
	return out, nil
}

// named tells which configuration could not be solved.
func named(err error, subjects []subject) error {
	var one *lattice.AirframeError
	if errors.As(err, &one) && one.Index < len(subjects) {
		return usageError{fmt.Errorf("configuration %s: %w", subjects[one.Index].name, one.Err)}
	}
	if len(subjects) == 1 {
		return usageError{fmt.Errorf("configuration %s: %w", subjects[0].name, err)}
	}
	return usageError{err}
}

// turning is how near, rad, the direction of wakes or ground must come to the angle of attack.
const turning = 1e-4

// analyse solves the airframes: all together in free air with wakes along the body, else each by itself, because wakes along
// the stream and the ground turn with its angle of attack.
func (c condition) analyse(p *program.Program, subjects []subject) ([]prediction.Analysis, [][]string, error) {
	airframes := make([]aero.Airframe, len(subjects))
	for i, s := range subjects {
		airframes[i] = s.airframe
	}
	warnings := make([][]string, len(airframes))
	if c.ground == 0 && !c.alongFlow {
		out, err := prediction.Analyse(airframes, c.setup)
		return out, warnings, err
	}
	out := make([]prediction.Analysis, len(airframes))
	for i := range airframes {
		angle, err := c.angleOf(p, subjects[i])
		if err != nil {
			return nil, nil, &lattice.AirframeError{Index: i, Err: err}
		}
		own, err := prediction.Analyse(airframes[i:i+1], c.turned(angle))
		if err != nil {
			return nil, nil, &lattice.AirframeError{Index: i, Err: err}
		}
		out[i] = own[0]
		if off := math.Abs(own[0].State.Alpha - angle); off > 10*turning {
			warnings[i] = append(warnings[i], fmt.Sprintf("wakes and ground stand %.2f° off the angle of attack that they lead to: the condition is not quite reached", off*180/math.Pi))
		}
	}
	return out, warnings, nil
}

// angleOf is the angle of attack that goes with wakes or ground at that very angle, beginning with that of free air.
func (c condition) angleOf(p *program.Program, s subject) (float64, error) {
	if c.setup.Alpha != nil {
		return *c.setup.Alpha, c.clears(p, s, *c.setup.Alpha)
	}
	setup := c.setup
	angle := math.Inf(1)
	const most = 4
	for range most {
		setup.Grids = false
		own, err := prediction.Analyse([]aero.Airframe{s.airframe}, setup)
		if err != nil {
			return 0, err
		}
		next := own[0].State.Alpha
		if err := c.clears(p, s, next); err != nil {
			return 0, err
		}
		if math.Abs(next-angle) < turning {
			return next, nil
		}
		angle = next
		setup = c.turned(angle)
	}
	return angle, nil
}

// turned is the setup with wakes or ground at an angle to the body.
func (c condition) turned(angle float64) prediction.Setup {
	s := c.setup
	if c.ground > 0 {
		s.Lattice.Ground = &lattice.Ground{Height: c.ground, Pitch: angle}
	} else {
		s.Lattice.Wake, s.Lattice.WakeAlpha = lattice.WakeAlongStream, angle
	}
	return s
}

// clears refuses ground that cuts into a surface at a pitch.
func (c condition) clears(p *program.Program, s subject, pitch float64) error {
	if c.ground == 0 {
		return nil
	}
	sin, cos := math.Sincos(pitch)
	low, name := math.Inf(1), ""
	for _, surface := range s.airframe.Surfaces {
		for _, st := range surface.Stations {
			for _, at := range []r3.Vec{st.LeadingEdge, st.TrailingEdge} {
				if z := at.Z*cos - at.X*sin; z < low {
					low, name = z, surface.Name
				}
			}
		}
	}
	if low+c.ground > 0 {
		return nil
	}
	right := fmt.Sprintf("give more than %.0f", -1000*low)
	if p.Gear != nil && -p.Gear.GroundZ > -low {
		right += fmt.Sprintf("; on its wheels the datum stands at %.0f", -1000*p.Gear.GroundZ)
	}
	return fmt.Errorf("--ground-mm: pitched by %.1f° the %s reaches into the ground; %s", pitch*180/math.Pi, name, right)
}

// travelWarnings tells of a trim that the elevator cannot reach.
func travelWarnings(a prediction.Analysis) []string {
	if !a.Trimmed {
		return nil
	}
	deflection := a.State.Controls[stability.Elevator]
	const degree = 180 / math.Pi
	for _, surface := range a.Airframe.Surfaces {
		for _, h := range surface.Hinges {
			if h.Control == stability.Elevator && h.TravelMin < h.TravelMax && (deflection < h.TravelMin || deflection > h.TravelMax) {
				words := fmt.Sprintf("trim needs %.1f° of elevator, and its travel runs from %.0f° to %.0f°", deflection*degree, h.TravelMin*degree, h.TravelMax*degree)
				return []string{strings.ReplaceAll(words, "-", "−")}
			}
		}
	}
	return nil
}

// rootBending is the bending in the plane of symmetry at limit load and gross mass, with the load shape of the condition:
// trimmed at the aftmost loading, where the wing carries most, unless a moment point was asked for. Relief by inertia is left
// out, which errs on the heavy side.
func (c condition) rootBending(p *program.Program, a *prediction.Analysis) (lattice.Number, error) {
	nan := lattice.Number{Value: math.NaN(), Error: math.NaN()}
	full := p.FullSize
	surfaces := prediction.WingSurfaces(a.Airframe)
	if full.Mass.Value <= 0 || full.LimitLoadFactor <= 0 || len(surfaces) == 0 || !(a.Value(prediction.LiftCoefficient) > 0.01) {
		return nan, nil
	}
	list, err := a.Further(c.bendingOf(p, a))
	if err != nil {
		return nan, err
	}
	return list[0], nil
}

// bendingOf works that bending out on a solution.
func (c condition) bendingOf(p *program.Program, a *prediction.Analysis) prediction.Quantities {
	point := c.setup.CG
	if _, aft, ok := prediction.LoadedRange(p); ok && !c.given {
		point.X = aft
	}
	return func(airframe aero.Airframe, solution *lattice.Solution) ([]float64, error) {
		state, err := c.bendingState(airframe, solution, a, point)
		if err != nil {
			return nil, err
		}
		lift := solution.Coefficients(state, point).Lift
		pressure := loads.Scale(p.FullSize.Mass.Value*atmosphere.Gravity, p.FullSize.LimitLoadFactor, lift, airframe.Reference.Area)
		root := loads.Along(solution.Strips(state), prediction.WingSurfaces(airframe), []float64{0}, point.X)
		return []float64{pressure * root[0].Bending}, nil
	}
}

// bendingState is the state of an analysis, on any grid and about any moment point.
func (c condition) bendingState(airframe aero.Airframe, solution *lattice.Solution, a *prediction.Analysis, point r3.Vec) (lattice.State, error) {
	r := airframe.Reference
	switch {
	case a.Trimmed:
		return solution.Balanced(lattice.Balance{Lift: c.setup.Lift, Control: stability.Elevator, MomentPoint: point,
			MomentSlope: a.Body.Pitch / (r.Area * r.MeanChord)})
	case c.setup.Alpha != nil:
		return lattice.State{Alpha: *c.setup.Alpha}, nil
	}
	alpha, err := solution.AlphaForLift(c.setup.Lift, nil)
	return lattice.State{Alpha: alpha}, err
}
