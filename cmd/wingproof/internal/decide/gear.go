package decide

import (
	"fmt"
	"math"
)

// The three identities of a nose-wheel undercarriage follow from the triangle of wheel contacts and the
// CG alone. Layout rules for them stand in Raymer, Aircraft Design: A Conceptual Approach, chapter on
// landing gear (from memory).

// tipBack is the angle [rad] between the vertical through the main-wheel contact and the line from there
// to the CG: atan(distance of the CG ahead of the main wheels / its height). Negative: it sits on its tail.
func (g Gear) tipBack(cg empty) float64 {
	return math.Atan2(g.MainX-cg.x, cg.z-g.GroundZ)
}

// noseShare is the part of the weight on the nose wheel in percent: (main − CG)/(main − nose).
func (g Gear) noseShare(cg empty) float64 {
	return 100 * (g.MainX - cg.x) / (g.MainX - g.NoseX)
}

// overturn is the angle [rad] of the CG seen from the line nose wheel to main wheel, about which the
// aircraft turns over sideways: atan(height/(x·sin δ)) with x the distance of the CG behind the nose
// wheel and tan δ = track/(2·wheelbase). Forward CGs are the worst. At or ahead of the nose wheel it is 90°.
func (g Gear) overturn(cg empty) float64 {
	delta := math.Atan(g.Track / (2 * (g.MainX - g.NoseX)))
	return math.Atan2(cg.z-g.GroundZ, math.Max(0, cg.x-g.NoseX)*math.Sin(delta))
}

// check refuses wheels that carry nothing.
func (g *Gear) check() error {
	if g == nil {
		return fmt.Errorf("the landing gear is not stated; give stations of nose and main wheels, track and ground height")
	}
	if !(g.MainX > g.NoseX) || !(g.Track > 0) {
		return fmt.Errorf("main wheels at %g m, nose wheel at %g m, track %g m; the main wheels stand aft of the nose wheel, the track is positive", g.MainX, g.NoseX, g.Track)
	}
	return nil
}
