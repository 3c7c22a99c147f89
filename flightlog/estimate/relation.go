package estimate

import "fmt"

// relation is what is fitted against CL: elevator or angle of attack.
type relation struct {
	name       string
	response   func(Point) float64
	responseSD func(Point) float64
	place      func(Point) string // how a point is named in words; nil says its CL
}

func elevatorRelation() relation {
	return relation{name: "elevator", response: func(p Point) float64 { return p.Elevator }, responseSD: func(p Point) float64 { return p.ElevatorSD }}
}

func alphaRelation() relation {
	return relation{name: "angle of attack", response: func(p Point) float64 { return p.Alpha }, responseSD: func(p Point) float64 { return p.AlphaSD }}
}

// where names a point in words.
func (r relation) where(p Point) string {
	if r.place != nil {
		return r.place(p)
	}
	return fmt.Sprintf("CL %.3f", p.Lift)
}
