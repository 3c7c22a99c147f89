package estimate

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"wingproof/flightlog/leastsquares"
)

const (
	// leastLoad is the load factor from which a turn or pull-up tells anything: 25 degrees of bank. Below it the elevator moves less than
	// its own error (common practice, no source).
	leastLoad = 1.1
	// leastAlone is the share of the spread of pitch rate that lift must leave unexplained inside a flight, or the two cannot be told apart.
	leastAlone = 0.02
	pullUp     = "pull_up" // Load.Kind of a pull-up; all others are turns
)

// loadSet is the steady points, turns and pull-ups of one configuration.
type loadSet struct {
	flights  []loadFlight
	power    string
	warnings []string
	loads    int
	kappa    float64 // κ = ρ·S·c̄/(4·m)
	lift1    float64 // mean CL of level flight at the speeds of the loads
}

// loadFlight is one flight: steady points first, then loads, which have a pitch rate.
type loadFlight struct {
	flight
	rate     []float64 // q·c̄/2V of each point
	loads    int
	spans    bool // the flight has a number of its own
	number   number
	residual float64
	free     int
}

// prepareLoads gathers, weighs, and boils each flight down.
func prepareLoads(loads []Load, points []Point) loadSet {
	kept, out := usableLoads(loads)
	out.loads = len(kept)
	steady := slices.DeleteFunc(slices.Clone(points), func(p Point) bool { return p.Power != out.power || !allFinite(p.CG, p.Lift, p.Elevator) })
	slices.SortFunc(steady, comparePoints)
	out.gather(kept, steady)
	out.scales(kept)
	if out.loads == 0 {
		return out
	}
	out.weigh()
	for i := range out.flights {
		out.flights[i].boilDown(out.kappa)
		if f := out.flights[i]; f.loads > 0 && !f.spans {
			out.warnings = append(out.warnings, fmt.Sprintf("flight %s: its turns and steady points do not tell lift from pitch rate; not used", f.name))
		}
	}
	return out
}

// usableLoads keeps loads with numbers, above leastLoad, of the power state that most flights flew, sorted.
func usableLoads(loads []Load) ([]Load, loadSet) {
	var kept []Load
	var out loadSet
	for _, l := range loads {
		if allFinite(l.CG, l.Lift, l.LoadFactor, l.PitchRate, l.Elevator) && l.LoadFactor >= leastLoad && l.PitchRate > 0 && l.Lift > 0 {
			kept = append(kept, l)
		}
	}
	if lost := len(loads) - len(kept); lost > 0 {
		out.warnings = append(out.warnings, fmt.Sprintf("%s left out: a value is missing, or the load factor stays below %.1f", count(lost, "turn or pull-up"), leastLoad))
	}
	slices.SortFunc(kept, func(a, b Load) int {
		return cmp.Or(strings.Compare(a.Flight, b.Flight), cmp.Compare(a.CG, b.CG), cmp.Compare(a.LoadFactor, b.LoadFactor), cmp.Compare(a.Lift, b.Lift),
			cmp.Compare(a.Elevator, b.Elevator), cmp.Compare(a.PitchRate, b.PitchRate), cmp.Compare(a.LiftSD, b.LiftSD), cmp.Compare(a.ElevatorSD, b.ElevatorSD),
			strings.Compare(a.Kind, b.Kind), strings.Compare(a.Power, b.Power))
	})
	power, others := commonPower(powerPoints(kept, func(l Load) Point { return Point{Flight: l.Flight, Power: l.Power} }))
	out.power = power
	if len(others) > 0 {
		out.warnings = append(out.warnings, fmt.Sprintf("power moves trim: only turns and pull-ups with power %s are used; power %s left out", power, strings.Join(others, ", ")))
		kept = slices.DeleteFunc(kept, func(l Load) bool { return l.Power != power })
	}
	return kept, out
}

// gather puts the steady points and the loads of each flight together.
func (l *loadSet) gather(loads []Load, steady []Point) {
	place := func(name string, cg float64) *loadFlight {
		for i := range l.flights {
			if l.flights[i].name == name && math.Abs(l.flights[i].cg-cg) <= sameCG {
				return &l.flights[i]
			}
		}
		l.flights = append(l.flights, loadFlight{flight: flight{name: name, cg: cg}})
		return &l.flights[len(l.flights)-1]
	}
	add := func(f *loadFlight, p Point, rate float64) {
		f.points, f.weight, f.rate = append(f.points, p), append(f.weight, 1), append(f.rate, rate)
	}
	for _, p := range steady {
		add(place(p.Flight, p.CG), p, 0)
	}
	for _, load := range loads {
		f := place(load.Flight, load.CG)
		f.loads++
		add(f, Point{Flight: load.Flight, CG: load.CG, Lift: load.Lift, LiftSD: load.LiftSD, Elevator: load.Elevator, ElevatorSD: load.ElevatorSD, Power: load.Power}, load.PitchRate)
	}
	slices.SortStableFunc(l.flights, func(a, b loadFlight) int { return cmp.Or(strings.Compare(a.name, b.name), cmp.Compare(a.cg, b.cg)) })
}

// scales finds κ and CL1 over all loads: q̂ = CL/n·κ·(n − 1/n) in a turn, (n − 1) in a pull-up.
func (l *loadSet) scales(loads []Load) {
	rate, lift := 0.0, 0.0
	for _, load := range loads {
		lift1 := load.Lift / load.LoadFactor
		turn := load.LoadFactor - 1/load.LoadFactor
		if load.Kind == pullUp {
			turn = load.LoadFactor - 1
		}
		rate += load.PitchRate
		lift += lift1 * turn
		l.lift1 += lift1 / float64(len(loads))
	}
	if lift > 0 {
		l.kappa = rate / lift
	}
}

// weigh weighs points by their stated errors and plays outliers down about each flight's own line, pitch rate's part taken off.
func (l *loadSet) weigh() {
	damping := l.damping()
	flights := make([]flight, len(l.flights))
	for i, f := range l.flights {
		flights[i] = flight{name: f.name, cg: f.cg, points: slices.Clone(f.points), weight: f.weight}
		for j := range flights[i].points {
			flights[i].points[j].Elevator -= damping * f.rate[j]
		}
	}
	statedWeights(flights, elevatorRelation())
	l.warnings = append(l.warnings, playDown(flights, elevatorRelation())...)
}

// damping is c in δe = a + b·CL + c·q̂, by plain least squares inside flights; b may change with CG.
func (l *loadSet) damping() float64 {
	var rows [][]float64
	var response []float64
	centre := 0.0
	for _, f := range l.flights {
		centre += f.cg / float64(len(l.flights))
	}
	travel := false
	for _, f := range l.flights {
		travel = travel || math.Abs(f.cg-centre) > sameCG
	}
	for _, f := range l.flights {
		m := f.means()
		for j, p := range f.points {
			row := []float64{f.rate[j] - m.rate, p.Lift - m.lift}
			if travel {
				row = append(row, (p.Lift-m.lift)*(f.cg-centre))
			}
			rows, response = append(rows, row), append(response, p.Elevator-m.elevator)
		}
	}
	fit, err := leastsquares.Linear(rows, response, nil)
	if err != nil {
		return 0
	}
	return fit.Coefficients[0]
}

type loadMeans struct{ weight, lift, rate, elevator float64 }

func (f loadFlight) means() loadMeans {
	var m loadMeans
	for j, p := range f.points {
		w := f.weight[j]
		m.weight += w
		m.lift += w * p.Lift
		m.rate += w * f.rate[j]
		m.elevator += w * p.Elevator
	}
	m.lift, m.rate, m.elevator = m.lift/m.weight, m.rate/m.weight, m.elevator/m.weight
	return m
}

// boilDown fits δe on CL and q̂ inside the flight, the slope with CL corrected for the error of CL as in flightLine, and keeps b + κ·c;
// without loads it keeps b, which stands apart.
func (f *loadFlight) boilDown(kappa float64) {
	if f.loads == 0 {
		l := flightLine(f.flight, elevatorRelation())
		value, k := slopeTarget(l)
		f.spans, f.residual, f.free = l.spans, l.residual, l.degrees
		f.number = number{flight: f.name, cg: f.cg, value: value, k: k, apart: true}
		return
	}
	m := f.means()
	var cc, cq, qq, cy, qy, blur float64
	for j, p := range f.points {
		w, c, q, y := f.weight[j], p.Lift-m.lift, f.rate[j]-m.rate, p.Elevator-m.elevator
		cc, cq, qq, cy, qy = cc+w*c*c, cq+w*c*q, qq+w*q*q, cy+w*c*y, qy+w*q*y
		blur += w * (1 - w/m.weight) * square(positive(p.LiftSD))
	}
	alone := 1 - cq*cq/(cc*qq)
	real := cc - blur*smallSample(len(f.points)-1)
	det := real*qq - cq*cq
	if len(f.points) < 3 || !(alone > leastAlone) || !(det > leastReliability*(cc*qq-cq*cq)) {
		return
	}
	b, c := (qq*cy-cq*qy)/det, (real*qy-cq*cy)/det
	// u = C⁻¹·(1, κ); the variance is uᵀSu with the plain S.
	u, v := (qq-cq*kappa)/det, (real*kappa-cq)/det
	f.number = number{flight: f.name, cg: f.cg, value: b + kappa*c, k: u*u*cc + 2*u*v*cq + v*v*qq}
	f.spans, f.free = true, len(f.points)-3
	for j, p := range f.points {
		f.residual += f.weight[j] * square(p.Elevator-m.elevator-b*(p.Lift-m.lift)-c*(f.rate[j]-m.rate))
	}
}

// numbers are those of the flights that have one.
func (l loadSet) numbers() []number {
	var out []number
	for _, f := range l.flights {
		if f.spans {
			out = append(out, f.number)
		}
	}
	return out
}

// holding counts the numbers that hold turns or pull-ups.
func (l loadSet) holding(asked []number) int {
	n := 0
	for _, a := range asked {
		if !a.apart {
			n++
		}
	}
	return n
}
