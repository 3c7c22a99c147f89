package estimate

import (
	"fmt"
	"math"
)

// ManoeuvrePoint finds the CG at which the elevator no longer moves with load factor at constant speed [full-size m aft of datum], and
// the elevator for each g [rad] at every CG flown.
//
// In a pull-up or turn CL is n times that of level flight at the same speed, CL1, and pitch rate is g(n − 1)/V or g(n − 1/n)/V. With
// pitch damping, trim becomes
//
//	δe = a + b·CL + c·q̂,   b = −CL_α·(h − x_NP)/(c̄·D),   c = −(CL_α·Cm_q − Cm_α·CL_q)/D,   D = CL_α·Cm_δe − CL_δe·Cm_α,
//
// q̂ made dimensionless with c̄/2V; neither c nor D changes with the moment point. A pull-up has q̂ = CL1·κ·(n − 1), κ = ρ·S·c̄/(4·m), so
//
//	dδe/dn = CL1·(b + κ·c),   x_MP = x_NP − c̄·κ·(Cm_q − Cm_α·CL_q/CL_α):
//
// pitch damping puts the manoeuvre point aft of the neutral point, more so on a light model in dense air. It stands for
// the mass and density of these flights. Each flight with turns or pull-ups gives b + κ·c from its own steady points and loads; flights
// without give b, which changes with CG at the same rate; those numbers lie on a line in h, and the zero of
// the first is the manoeuvre point, with Fieller's set as for NeutralPoint.
//
// κ comes from the loads themselves, so airspeed, mass and the elevator's gain cancel; an offset of all CGs shifts the result one for
// one. The elevator for each g is stated at the mean CL1 (Result.Lift) and takes only the gain and the CGs. Loads and steady points must
// share a power state. pooled may be nil; see PoolLoads.
//
// Source: C. D. Perkins and R. E. Hage, Airplane Performance, Stability and Control, Wiley 1949, chapter 6, on manoeuvring flight (from memory).
func ManoeuvrePoint(loads []Load, points []Point, s Systematics, pooled *Scatter) (point Result, perG []Result) {
	set := prepareLoads(loads, points)
	r := loadLabel("manoeuvre_point", "m", set)
	asked := set.numbers()
	if set.holding(asked) == 0 {
		return undetermined(r, set.nothingWords()), nil
	}
	pool := pooled.orNone().loads.component()
	l, used, words, err := regressNumbers(asked, loadScatter{}.with(set).within(), pool, "turns or pull-ups beside steady points at two speeds or more")
	r.Warnings = append(r.Warnings, words...)
	r.Degrees = used.degrees
	if err != nil {
		return undetermined(r, err.Error()), nil
	}
	perG = elevatorPerG(loadLabel("elevator_per_g", "rad", set), used.degrees, l, asked, set.lift1, s)
	if l.single {
		return undetermined(r, fmt.Sprintf("flown at one CG only (%s): the elevator for each g is known there, the manoeuvre point needs turns or pull-ups at a second CG; fly them",
			millimetres(asked[0].cg))), perG
	}
	return zeroCrossing(r, "a manoeuvre point", l, asked, s), perG
}

// elevatorPerG is the line's value at each CG where turns or pull-ups were flown, times CL1.
func elevatorPerG(r Result, degrees float64, l lineInCG, asked []number, lift1 float64, s Systematics) []Result {
	var out []Result
	for _, group := range groupByCG(asked) {
		one := r
		one.Warnings = append([]string(nil), r.Warnings...)
		one.CG, one.HasCG, one.Degrees = group[0].cg, true, degrees
		value, sd := l.at(one.CG)
		common := s.withCG(map[string]float64{SourceElevatorScale: lift1 * value * s.ElevatorScale}, lift1*l.perCG(), one.CG-l.centre)
		out = append(out, thin(fillStudent(one, lift1*value, lift1*sd, common)))
	}
	return out
}

// loadLabel starts a result.
func loadLabel(quantity, unit string, set loadSet) Result {
	r := Result{Quantity: quantity, Unit: unit, Power: set.power, Method: "elevator against lift and pitch rate in turns and pull-ups, flight by flight",
		Lift: set.lift1, Common: map[string]float64{}, Warnings: append([]string(nil), set.warnings...)}
	for _, f := range set.flights {
		r.Flights = append(r.Flights, f.name)
		r.Points += len(f.points)
	}
	return r
}

// nothingWords says what would make an answer.
func (l loadSet) nothingWords() string {
	if l.loads == 0 {
		return "no steady turn or pull-up was flown: fly steady turns at 45 and 60 degrees of bank, both ways, in each of three flights that also hold steady points at two speeds"
	}
	return fmt.Sprintf("in none of the flights with %s do steady points at other speeds tell lift from pitch rate: fly level slow and fast beside the turns, at the same power", count(l.loads, "turn or pull-up"))
}

// PoolLoads adds the turns and pull-ups of every configuration of a program, with its steady points (one slice a configuration, in a
// fixed order), to the scatter and returns it.
func (s *Scatter) PoolLoads(loads [][]Load, points [][]Point) *Scatter {
	for i := range loads {
		var steady []Point
		if i < len(points) {
			steady = points[i]
		}
		s.loads = s.loads.with(prepareLoads(loads[i], steady))
	}
	return s
}

// loadScatter is how the flights' numbers scatter, over configurations.
type loadScatter struct {
	asked    [][]number
	residual float64 // Σw·r² inside flights
	degrees  int
}

func (s loadScatter) with(set loadSet) loadScatter {
	asked := set.numbers()
	if set.holding(asked) == 0 {
		return s
	}
	out := loadScatter{asked: append(append([][]number(nil), s.asked...), asked), residual: s.residual, degrees: s.degrees}
	for _, f := range set.flights {
		if f.spans {
			out.residual += f.residual
			out.degrees += f.free
		}
	}
	return out
}

func (s loadScatter) component() component {
	_, c := playDownNumbers(s.asked, s.within())
	return c
}

// within is σ² inside flights.
func (s loadScatter) within() float64 { return s.residual / math.Max(1, float64(s.degrees)) }
