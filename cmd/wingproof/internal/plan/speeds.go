package plan

import (
	"fmt"
	"math"

	"wingproof/aero/atmosphere"
)

// Factors on the stalling speed: common practice, no source.
const (
	slowFactor    = 1.25 // slowest steady run, on a stalling speed one standard deviation high
	fastFactor    = 2.2  // fastest
	stopFactor    = 1.10 // below it the crew stops, likewise one standard deviation high
	exceedFactor  = 2.6  // never exceed, where nobody has said
	belowExceed   = 0.90 // fastest run over never exceed
	leastRoom     = 1.4  // never exceed over the slowest run that the default leaves
	leastSpan     = 1.15 // fastest over slowest run, below which there is nothing to plan
	fiveSpeeds    = 1.5  // fastest over slowest run from which five glides are worth it
	beforeStall   = 1.4  // a deceleration begins at
	pullUpReserve = 1.05 // on the slowest speed of a pull-up
)

// speeds are those of one configuration at one mass, calibrated m/s.
type speeds struct {
	seaDensity, load   float64 // kg/m³; m g / S of the model, N/m²
	stalling, sd       float64
	slowest, fastest   float64
	stopSlow, stopFast float64
}

// RoomError is a never-exceed speed that leaves no room above the slowest run.
type RoomError struct{ Slowest, NeverExceed float64 }

// Error says both speeds.
func (e *RoomError) Error() string {
	return fmt.Sprintf("never exceed %.1f m/s leaves no room above the slowest run of %.1f m/s", e.NeverExceed, e.Slowest)
}

// speedsOf works out the speeds of a model with a maximum lift and a mass.
func (p Problem) speedsOf(most Lift, m Mass) (speeds, error) {
	air, err := atmosphere.Standard(0)
	if err != nil {
		return speeds{}, err
	}
	s := speeds{seaDensity: air.Density, load: m.Value * atmosphere.Gravity / (p.Area * p.LengthRatio * p.LengthRatio)}
	s.stalling = s.at(most.Value, 1)
	relative := math.Hypot(most.SD/most.Value, m.SD/m.Value) / 2
	s.sd = relative * s.stalling
	s.slowest, s.stopSlow = slowFactor*(s.stalling+s.sd), stopFactor*(s.stalling+s.sd)
	if s.stopFast = p.NeverExceed; s.stopFast == 0 {
		s.stopFast = s.usualExceed(p.DesignDive)
	}
	s.fastest = math.Min(fastFactor*s.stalling, belowExceed*s.stopFast)
	if s.fastest < leastSpan*s.slowest {
		return s, &RoomError{s.slowest, s.stopFast}
	}
	return s, nil
}

// usualExceed is the never-exceed speed where nobody has stated one: a multiple of the stalling speed, but no more than full size is
// designed for, as long as that leaves room to fly.
func (s speeds) usualExceed(dive float64) float64 {
	most := exceedFactor * s.stalling
	if dive > 0 && dive < most {
		return math.Max(dive, leastRoom*s.slowest)
	}
	return most
}

// at is the calibrated airspeed that holds a lift coefficient at a load factor.
func (s speeds) at(lift, loadFactor float64) float64 {
	return math.Sqrt(2 * loadFactor * s.load / (s.seaDensity * lift))
}

// lift is the coefficient that a speed needs at a load factor.
func (s speeds) lift(speed, loadFactor float64) float64 {
	return 2 * loadFactor * s.load / (s.seaDensity * speed * speed)
}

// between are the speeds of the glides up to a fastest one, slowest first: even steps of lift coefficient, since that is what slopes
// are taken over.
func (s speeds) between(fastest float64) []float64 {
	n := 5
	if fastest < fiveSpeeds*s.slowest {
		n = 4
	}
	most, least := s.lift(s.slowest, 1), s.lift(fastest, 1)
	out := make([]float64, n)
	for i := range out {
		out[i] = s.at(most+(least-most)*float64(i)/float64(n-1), 1)
	}
	return out
}

// Drag of a model with a stopped propeller, for the height that a glide costs: common practice, no source.
const (
	usualDrag       = 0.040
	usualEfficiency = 0.75
	windmill        = 1.3 // on the sink rate: a windmilling propeller, sinking air
)

// sink is the rate of descent in a glide, m/s, on the pessimistic side.
func (p Problem) sink(c Configuration, s speeds, speed float64) float64 {
	lift := s.lift(speed, 1)
	e := c.SpanEfficiency
	if !(e > 0) {
		e = usualEfficiency
	}
	drag := usualDrag + lift*lift*p.Area/(math.Pi*e*p.Span*p.Span)
	return windmill * speed * drag / lift
}
