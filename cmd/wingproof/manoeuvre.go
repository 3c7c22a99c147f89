package main

import (
	"fmt"
	"math"

	"wingproof/aero/atmosphere"
	"wingproof/aero/lattice"
	"wingproof/cmd/wingproof/internal/program"
)

// Bounds of --speed-kt and --load-factor.
const (
	leastSpeedKnots = 20
	mostSpeedKnots  = 400
	mostLoadFactor  = 12
)

// manoeuvre turns speed and load factor into the lift coefficient and the pitch rate of a pull-up at sea level, at the gross mass.
func (o conditionOptions) manoeuvre(p *program.Program, c *condition, m *mistakes) {
	if o.speed == "" && o.loadFactor == "" {
		return
	}
	knots := m.number("--speed-kt", o.speed, 0, leastSpeedKnots, mostSpeedKnots, "write an equivalent airspeed in knots such as 110")
	n := m.number("--load-factor", o.loadFactor, 1, -mostLoadFactor, mostLoadFactor, "write a load factor such as 3.8")
	switch {
	case o.speed == "":
		m.add("--load-factor without --speed-kt: lift coefficient and pitch rate follow from both; add --speed-kt 110")
		return
	case o.lift != "" || o.alpha != "":
		m.add("--speed-kt with --lift or --alpha-deg: the lift coefficient follows from speed, load factor and gross mass; leave one of them out")
		return
	case n != 1 && o.untrimmed:
		m.add("--load-factor with --untrimmed: a pull-up is flown with the elevator; leave one of them out")
		return
	}
	baseline, _, err := p.Airframe(p.Configurations()[0])
	if err != nil || knots == 0 {
		return // told elsewhere
	}
	const knot = 1852.0 / 3600 // m/s, exact
	speed, r := knots*knot, baseline.Reference
	pressure := atmosphere.SeaLevelDensity / 2 * speed * speed
	lift := n * p.FullSize.Mass.Value * atmosphere.Gravity / (pressure * r.Area)
	if math.Abs(lift) > mostLift {
		m.add("--speed-kt %s and --load-factor %g ask for a lift coefficient of %.2f, beyond %d; fly faster or pull less", o.speed, n, lift, mostLift)
		return
	}
	c.setup.Lift = lift
	c.setup.PitchRate = lattice.PullUpRate(n, atmosphere.Gravity, r.MeanChord, speed)
	c.manoeuvre = fmt.Sprintf("gross mass %.0f kg at %s kt equivalent and load factor %g", p.FullSize.Mass.Value, short(knots), n)
}
