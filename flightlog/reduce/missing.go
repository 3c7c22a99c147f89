package reduce

import (
	"fmt"
	"slices"

	"wingproof/flightlog"
	"wingproof/flightlog/identify"
)

// MissingFlying tells in plain words what the flights of a programme do not hold that derivatives, maximum lift and manoeuvre point need, each with
// what to fly. It is empty when nothing is missing; flights whose manoeuvres were all dropped count as flights without.
func MissingFlying(flights []Reduction) []string {
	var segments []identify.Segment
	var stalls, left, right, loads int
	for _, f := range flights {
		segments = append(segments, f.Segments...)
		for _, s := range f.Stalls {
			stalls += ones(s.Kept)
		}
		for _, s := range f.Slips {
			left += ones(s.Kept && s.Rudder > heldRudder/2)
			right += ones(s.Kept && s.Rudder < -heldRudder/2)
		}
		for _, l := range f.Loads {
			loads += ones(l.Kept)
		}
	}
	moves := func(q flightlog.Quantity) bool {
		return slices.ContainsFunc(segments, func(s identify.Segment) bool { return s.Control == q })
	}
	var out []string
	add := func(missing bool, what, fly string) {
		if missing {
			out = append(out, fmt.Sprintf("%s; fly %s", what, fly))
		}
	}
	add(!moves(flightlog.Elevator), "no doublet or multistep on the elevator can be used: pitch stiffness, pitch damping and elevator power are not determined",
		"three of them at one speed, from level flight in calm air, and let go for 4 s behind each")
	add(!moves(flightlog.Aileron), "no doublet or multistep on the aileron can be used: roll damping and aileron power are not determined",
		"three of them at one speed, and let go for 4 s behind each")
	add(!moves(flightlog.RudderLeft) && !moves(flightlog.RudderRight), "no doublet or multistep on the rudder can be used: directional stiffness, yaw damping and rudder power are not determined from motion",
		"three of them at one speed, and let go for 4 s behind each")
	add(left == 0 || right == 0, fmt.Sprintf("steady sideslips with left and right rudder: %d and %d can be used; directional stiffness and dihedral effect have no second road without both", left, right),
		"sideslips of 10 s to both sides at one speed, heading held by the ailerons")
	add(loads == 0, "no steady turn, circle or pull-up can be used: the manoeuvre point is not determined", "level turns of 10 s at 45° of bank, or pull-ups to twice the weight held for 1.5 s")
	add(stalls == 0, "no deceleration can be used: maximum lift is not determined", "decelerations by 1 m/s a second with the throttle closed, high enough to recover, as the local rules allow")
	return out
}

func ones(yes bool) int {
	if yes {
		return 1
	}
	return 0
}
