package estimate

import (
	"fmt"
	"math"
	"math/rand/v2"
)

// programme is what was flown of several configurations, as it was reported, and what is true of them.
type programme struct {
	truth   []aircraft
	shared  sharedErrors
	points  [][]Point
	loads   [][]Load
	slips   [][]Slip
	stalls  [][]Stall
	scatter *Scatter
}

// sharedErrors is one draw of what a whole programme shares.
type sharedErrors struct {
	airspeed, mass, density, cg, cgScale, alpha, elevator, elevatorScale, aileronScale, rudderScale float64
	middle                                                                                          float64 // CG about which distances are stretched
}

func (s Systematics) draw(random *rand.Rand, middle float64) sharedErrors {
	n := random.NormFloat64
	return sharedErrors{airspeed: s.AirspeedScale * n(), mass: s.Mass * n(), density: s.TubeDensity * n(), cg: s.CG * n(), cgScale: s.CGScale * n(), alpha: s.Alpha * n(),
		elevator: s.Elevator * n(), elevatorScale: s.ElevatorScale * n(), aileronScale: s.AileronScale * n(), rudderScale: s.RudderScale * n(), middle: middle}
}

// liftScale is reported over true CL, for an error of airspeed and of mass.
func (e sharedErrors) liftScale() float64 { return (1 + e.mass) / square(1+e.airspeed) }

func (e sharedErrors) reportedCG(cg float64) float64 {
	return cg + e.cg + e.cgScale*(cg-e.middle)
}

// flightErrors are one flight's own; radians, relative, metres.
type flightErrors struct {
	airspeed, cg, elevator, vertical, sideslip, rudder, aileron float64
}

// What instruments and weather do to flights and points in the study: invented, of the order of a small recorder on a calm day.
const (
	degreeOf       = math.Pi / 180
	flightAirspeed = 0.007           // relative
	flightCG       = 0.002           // full-size m
	flightElevator = 0.2 * degreeOf  // play, a flight
	flightSideslip = 1.0 * degreeOf  // unknown wind and heading
	pointLift      = 0.015           // relative
	pointAngle     = 0.3 * degreeOf  // of attack
	pointSurface   = 0.25 * degreeOf // every control surface
	pointDrag      = 0.0012
	pointSideslip  = 0.5 * degreeOf
	pointSide      = 0.004
	pointRate      = 0.02 // relative
	stallLiftSD    = 0.02 // relative
	stallAngleSD   = 0.5 * degreeOf

	slipLift = 0.5 // lift coefficient of every sideslip
)

func drawFlight(random *rand.Rand, vertical float64) flightErrors {
	n := random.NormFloat64
	return flightErrors{airspeed: flightAirspeed * n(), cg: flightCG * n(), elevator: flightElevator * n(), vertical: vertical * n(),
		sideslip: flightSideslip * n(), rudder: pointSurface * n(), aileron: pointSurface * n()}
}

// flyProgramme flies configurations about an aircraft, each with least to most flights that take the CGs in turn.
func flyProgramme(random *rand.Rand, base aircraft, configurations, least, most int, cgs []float64, s Systematics, vertical float64) programme {
	base.slowing += 0.05 * random.NormFloat64()
	base.slowingAngle += 0.01 * random.NormFloat64()
	p := programme{shared: s.draw(random, (cgs[0]+cgs[len(cgs)-1])/2)}
	for range configurations {
		a := base.another(random)
		p.truth = append(p.truth, a)
		var points []Point
		var loads []Load
		var slips []Slip
		var stalls []Stall
		for i := range least + random.IntN(most-least+1) {
			f := observer{a, random, p.shared, drawFlight(random, vertical), fmt.Sprintf("F%02d", i), cgs[i%len(cgs)]}
			points, loads = append(points, f.trims()...), append(loads, f.turns()...)
			slips, stalls = append(slips, f.sideslips()...), append(stalls, f.decelerations()...)
		}
		p.points, p.loads = append(p.points, points), append(p.loads, loads)
		p.slips, p.stalls = append(p.slips, slips), append(p.stalls, stalls)
	}
	return p
}

// pool estimates the scatter over all configurations.
func (p *programme) pool() {
	p.scatter = PoolScatter(p.points).PoolLoads(p.loads, p.points).PoolSlips(p.slips).PoolStalls(p.stalls)
}

// observer reports one flight with all its errors.
type observer struct {
	aircraft
	random *rand.Rand
	shared sharedErrors
	own    flightErrors
	name   string
	cg     float64 // where it is said to be before the shared errors
}

// trueCG is where the flight's CG really was.
func (o observer) trueCG() float64 { return o.cg + o.own.cg }

func (o observer) noise(sd float64) float64 { return sd * o.random.NormFloat64() }

// airspeedScale is reported over true airspeed.
func (o observer) airspeedScale() float64 { return (1 + o.shared.airspeed) * (1 + o.own.airspeed) }

func (o observer) liftOf(lift, relative float64) float64 {
	return lift * (1 + o.shared.mass) / square(o.airspeedScale()) * (1 + o.noise(relative))
}

func (o observer) elevatorOf(elevator float64) float64 {
	return (elevator+o.own.elevator+o.noise(pointSurface))*(1+o.shared.elevatorScale) + o.shared.elevator
}

func (o observer) trims() []Point {
	var out []Point
	n := 5 + o.random.IntN(4)
	for j := range n {
		lift := 0.3 + 0.6*(float64(j)+o.random.Float64())/float64(n)
		alpha, elevator := o.trim(lift, o.trueCG())
		speed := o.speed / math.Sqrt(lift)
		drag := o.drag(lift) + o.own.vertical/speed*lift
		out = append(out, Point{Flight: o.name, CG: o.shared.reportedCG(o.cg), Power: idlePower, HasDrag: true, Airspeed: speed * o.airspeedScale(), Reynolds: 4e5,
			Alpha: alpha + o.own.vertical/speed + o.shared.alpha + o.noise(pointAngle), AlphaSD: pointAngle,
			Lift: o.liftOf(lift, pointLift), LiftSD: pointLift * lift,
			Elevator: o.elevatorOf(elevator), ElevatorSD: pointSurface,
			Drag: drag*(1+o.shared.mass)*(1+o.shared.density/2)/math.Pow(o.airspeedScale(), 3) + o.noise(pointDrag), DragSD: pointDrag})
	}
	return out
}

// turns are two banks, and a pull-up in every second flight.
func (o observer) turns() []Load {
	var out []Load
	for i := range 2 + o.random.IntN(2) {
		kind := "turn"
		if i == 2 {
			kind = pullUp
		}
		one := o.load(o.name, o.trueCG(), 0.3+0.25*o.random.Float64(), 1.35+0.6*o.random.Float64(), kind)
		one.CG = o.shared.reportedCG(o.cg)
		one.LiftSD, one.ElevatorSD, one.LoadFactorSD = pointLift*one.Lift, pointSurface, 0.02
		one.Lift, one.Elevator = o.liftOf(one.Lift, pointLift), o.elevatorOf(one.Elevator)
		one.PitchRate *= (1 + o.noise(pointRate)) / o.airspeedScale()
		one.LoadFactor += o.noise(0.02)
		out = append(out, one)
	}
	return out
}

func (o observer) sideslips() []Slip {
	var out []Slip
	for _, beta := range []float64{-9 * degreeOf, -5 * degreeOf, 5 * degreeOf, 9 * degreeOf} {
		beta *= 0.8 + 0.4*o.random.Float64()
		rudder, aileron, side := o.slip(beta)
		out = append(out, Slip{Flight: o.name, CG: o.shared.reportedCG(o.cg), Lift: o.liftOf(slipLift, pointLift), Power: "level",
			Sideslip: beta + o.own.sideslip + o.noise(pointSideslip), SideslipSD: pointSideslip,
			Rudder: (rudder + o.own.rudder + o.noise(pointSurface)) * (1 + o.shared.rudderScale), RudderSD: pointSurface,
			Aileron: (aileron + o.own.aileron + o.noise(pointSurface)) * (1 + o.shared.aileronScale), AileronSD: pointSurface,
			SideForce: o.liftOf(side, 0) + o.noise(pointSide), SideForceSD: pointSide, Bank: -side/slipLift + o.noise(pointAngle)})
	}
	return out
}

func (o observer) decelerations() []Stall {
	var out []Stall
	for range 1 + o.random.IntN(3) {
		slowing := 0.3 + 0.8*o.random.Float64()
		lift, alpha := o.stall(o.trueCG(), slowing)
		speed := o.speed / math.Sqrt(lift)
		out = append(out, Stall{Flight: o.name, CG: o.shared.reportedCG(o.cg), Slowing: slowing, Broke: true, First: firstForeplane, Power: idlePower, Reynolds: 3e5,
			Lift: o.liftOf(lift, stallLiftSD), LiftSD: stallLiftSD * lift,
			Alpha: alpha + o.own.vertical/speed + o.shared.alpha + o.noise(stallAngleSD), AlphaSD: stallAngleSD})
	}
	return out
}
