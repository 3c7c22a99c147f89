package prediction

import (
	"errors"
	"fmt"
	"math"

	"wingproof/aero/aerofoil"
	"wingproof/aero/atmosphere"
	"wingproof/aero/body"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
)

// mostClimbLift bounds the lift coefficient of the climb: nobody climbs closer to the stall.
const mostClimbLift = 1.0

// ClimbCondition is full size at sea level and gross mass where least power keeps it in the air, which is where a propeller
// lets it climb best: induced drag three times the rest, but at a lift coefficient of 1.0 at most. The rest is the profile
// drag of the lifting surfaces, friction of the fuselage where it is stated, and other [m²] of the caller's (gear, cooling).
//
// Lift that leaves something out is too low; compare levels at the condition of one of them.
func ClimbCondition(p *program.Program, sections *Sections, a *Analysis, s Setup, other float64) (DragCondition, error) {
	r := a.Solution.Reference()
	if !(p.FullSize.Mass.Value > 0) {
		return DragCondition{}, errors.New("drag in the climb: full_size.mass_kg is not stated")
	}
	air, err := atmosphere.Standard(0)
	if err != nil {
		return DragCondition{}, err
	}
	c := DragCondition{Name: "best climb", Size: evidence.FullSize, Lift: 0.8, Air: air}
	for range 6 {
		c.Speed = math.Sqrt(2 * p.FullSize.Mass.Value * atmosphere.Gravity / (air.Density * r.Area * c.Lift))
		d, err := ProfileDrag(sections, a, s, c)
		if err != nil {
			return c, err
		}
		rest := d.Profile.Drag + FuselageDrag(s.Body, air.Density*c.Speed/air.Viscosity) + other
		next := math.Min(mostClimbLift, c.Lift*math.Sqrt(3*rest/d.Induced))
		if math.IsNaN(next) || next <= 0 {
			return c, fmt.Errorf("drag in the climb: induced drag of %.3g m² at a lift coefficient of %.2f", d.Induced, c.Lift)
		}
		if math.Abs(next-c.Lift) < 1e-4 {
			break
		}
		c.Lift = next
	}
	c.Speed = math.Sqrt(2 * p.FullSize.Mass.Value * atmosphere.Gravity / (air.Density * r.Area * c.Lift))
	return c, nil
}

// FuselageDrag is the friction drag of a fuselage over the dynamic pressure, m², turbulent from the nose, with Hoerner's form factor; perMetre is
// the Reynolds number of one metre. 0 without a fuselage. Common practice puts a tenth to a fifth on it for gaps and fittings.
func FuselageDrag(b *body.Body, perMetre float64) float64 {
	if b == nil || !(b.Length() > 0) {
		return 0
	}
	return wetted(b) * aerofoil.TurbulentFriction(perMetre*b.Length()) * aerofoil.BodyFormHoerner(b.Fineness())
}

// wetted is the surface between elliptic sections, m², slopes along the body left out.
//
// Perimeter of an ellipse: S. Ramanujan, Modular Equations and Approximations to π, 1914, last page; from memory.
func wetted(b *body.Body) float64 {
	around := func(s body.Station) float64 {
		a, c := s.Width/2, s.Height/2
		return math.Pi * (3*(a+c) - math.Sqrt((3*a+c)*(a+3*c)))
	}
	sum := 0.0
	for i := 1; i < len(b.Stations); i++ {
		p, q := b.Stations[i-1], b.Stations[i]
		sum += (q.X - p.X) * (around(p) + around(q)) / 2
	}
	return sum
}
