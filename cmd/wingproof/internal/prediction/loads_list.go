package prediction

import (
	"fmt"
	"math"
	"slices"

	"wingproof/aero/atmosphere"
	"wingproof/aero/body"
	"wingproof/aero/loads"
	"wingproof/cmd/wingproof/internal/program"
)

// loadFlight is a condition of the list and how it is flown.
type loadFlight struct {
	loads.Condition
	corner int
	tanks  []program.Item // of the corner
	pullUp bool           // the load factor bends the flight path; else the air moves, or no speed is stated
	held   bool           // the elevator stays as in level flight at the speed
}

// flights are all conditions in all corners.
func (f *loadFlier) flights(corners []loadCorner) ([]loadFlight, error) {
	sideslip, err := f.balancedSideslip(corners)
	if err != nil {
		return nil, err
	}
	var out []loadFlight
	for i, c := range corners {
		list, err := f.manoeuvres(c, sideslip)
		if err != nil {
			return nil, err
		}
		gusts, err := f.gusts(c)
		if err != nil {
			return nil, err
		}
		for _, one := range slices.Concat(f.unclosed(c), list, gusts) {
			one.corner, one.tanks = i, c.tanks
			out = append(out, one)
		}
	}
	return out, nil
}

// at is a condition of this package's own in a corner.
func (c loadCorner) at(name string, factor, speed float64) loadFlight {
	return loadFlight{Condition: loads.Condition{
		Name: name + "; " + c.Name, Loading: c.Name, Mass: c.Mass, CG: c.CG, FuelFull: c.FuelFull, LoadFactor: factor, Speed: speed,
	}}
}

// unclosed are the limit loads with the load shape of the lift coefficient Lift: all that can be flown without speeds, and
// without a dive speed the fast end of the list.
func (f *loadFlier) unclosed(c loadCorner) []loadFlight {
	full := f.program.FullSize
	if full.ManoeuvreSpeed > 0 && full.DiveSpeed > 0 {
		return nil
	}
	var out []loadFlight
	for _, limit := range []struct {
		way    string
		factor float64
	}{{"up", full.LimitLoadFactor}, {"down", full.NegativeLimitLoadFactor}} {
		pressure := loads.Scale(c.Mass*atmosphere.Gravity, math.Abs(limit.factor), Lift, f.airframe.Reference.Area)
		speed := math.Sqrt(2 * pressure / atmosphere.SeaLevelDensity)
		if speed <= full.ManoeuvreSpeed {
			continue
		}
		one := c.at(fmt.Sprintf("limit load %s at the lift coefficient %.1f", limit.way, math.Copysign(Lift, limit.factor)), limit.factor, speed)
		one.pullUp = full.ManoeuvreSpeed > 0
		out = append(out, one)
	}
	return out
}

// manoeuvres are the flights of a corner that the pilot brings about; none without a manoeuvre speed. Rudder still out, the
// nose swings past the sideslip that balances; with the rudder back in neutral it is met at that sideslip.
func (f *loadFlier) manoeuvres(c loadCorner, sideslip float64) ([]loadFlight, error) {
	full := f.program.FullSize
	if full.ManoeuvreSpeed == 0 {
		return nil, nil
	}
	list, err := loads.Conditions(loads.Limits{
		Positive: full.LimitLoadFactor, Negative: full.NegativeLimitLoadFactor, ManoeuvreSpeed: full.ManoeuvreSpeed, DiveSpeed: full.DiveSpeed,
		NoAileron: len(f.ailerons) == 0, AileronOnset: true, NoRudder: len(f.rudders) == 0, Sideslip: overswing * sideslip,
		Loadings: []loads.Loading{c.Loading},
	})
	out := make([]loadFlight, len(list))
	for i, condition := range list {
		if condition.Rudder == 0 && condition.Sideslip != 0 {
			condition.Sideslip = sideslip // the rudder let go in a steady sideslip: no overswing
		}
		out[i] = loadFlight{Condition: condition, pullUp: true}
	}
	return out, err
}

// gusts are those that a corner meets, from below and from above, trimmed and with the elevator held.
func (f *loadFlier) gusts(c loadCorner) ([]loadFlight, error) {
	reference := f.airframe.Reference
	var out []loadFlight
	for _, g := range f.statedGusts() {
		level, err := f.trimmed(c.at("", 1, g.Speed).Condition, 0)
		if err != nil {
			return nil, fmt.Errorf("loads: level flight %s; %s: %w", g.Name, c.Name, err)
		}
		slope := f.solution.Derivatives(level, c.CG).ByAlpha.Lift
		wing := loads.GustWing{Area: reference.Area, MeanChord: reference.Area / reference.Span, LiftSlope: slope}
		below, above, err := loads.GustLoadFactor(g, wing, c.Mass)
		if err != nil {
			return nil, err
		}
		for _, way := range []struct {
			name   string
			factor float64
		}{{"gust from below ", below}, {"gust from above ", above}} {
			held := c.at(way.name+g.Name+", elevator held", way.factor, g.Speed)
			held.held = true
			out = append(out, c.at(way.name+g.Name, way.factor, g.Speed), held)
		}
	}
	return out, nil
}

// statedGusts are the gusts whose velocity and speed are both known. The air is that of the cruising altitude, where
// a gust of one equivalent velocity loads a little more than at sea level.
func (f *loadFlier) statedGusts() []loads.Gust {
	full := f.program.FullSize
	air, err := atmosphere.Standard(full.CruiseAltitude)
	if err != nil {
		air.Density = atmosphere.SeaLevelDensity
	}
	cruise := full.CruiseSpeed * math.Sqrt(air.Density/atmosphere.SeaLevelDensity)
	var out []loads.Gust
	for _, g := range []loads.Gust{
		{Name: "at the cruising speed", Velocity: full.GustCruise, Speed: cruise, Density: air.Density},
		{Name: "at the dive speed", Velocity: full.GustDive, Speed: full.DiveSpeed, Density: air.Density},
	} {
		if g.Velocity > 0 && g.Speed > 0 {
			out = append(out, g)
		}
	}
	return out
}

// Sideslip at which rudder and airframe balance where neither says, and the furthest that is flown: 15°, since
// winglets let go near it. A rudder thrown out carries the nose half as far again before it settles. Source of both: the pattern
// of 14 CFR 23.441(a) as it stood before 2017, from memory.
const (
	sideslipUnknown = 15 * math.Pi / 180
	overswing       = 1.5
)

// balancedSideslip is the greatest steady sideslip over the corners that full rudder holds in level flight at the manoeuvre
// speed, where Cn_β·β + Cn_δr·δr = 0; sideslipUnknown at most, and where there is no rudder or no directional
// stiffness. It is zero without a manoeuvre speed.
func (f *loadFlier) balancedSideslip(corners []loadCorner) (float64, error) {
	speed := f.program.FullSize.ManoeuvreSpeed
	switch {
	case speed == 0:
		return 0, nil
	case len(f.rudders) == 0:
		return sideslipUnknown, nil
	}
	greatest := 0.0
	for _, c := range corners {
		state, err := f.trimmed(c.at("", 1, speed).Condition, 0)
		if err != nil {
			return 0, fmt.Errorf("loads: level flight at the manoeuvre speed; %s: %w", c.Name, err)
		}
		d := body.Correct(f.solution.Derivatives(state, c.CG), f.setup.Body)
		turns := 0.0
		for _, rudder := range f.rudders {
			turns -= d.ByControl[rudder.name].Yaw * rudder.full
		}
		balance := turns / d.ByBeta.Yaw
		if !(d.ByBeta.Yaw > 0 && balance > 0) {
			balance = sideslipUnknown
		}
		greatest = math.Max(greatest, math.Min(balance, sideslipUnknown))
	}
	return greatest, nil
}
