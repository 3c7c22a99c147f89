package prediction

import (
	"math"

	"wingproof/aero/stall"
)

// What ends the rise of trimmed lift.
const (
	EndsAtForeplane = "the foreplane's lift stops rising"
	EndsAtStop      = "the elevator is at its nose-up stop"
	EndsAtWing      = "the first wing station reaches its maximum"
)

// GreatestLift is the lift coefficient of the whole aircraft, in trim with clean surfaces, beyond which it does not go: where the foreplane's
// lift stops rising, the elevator has no travel left, or the first wing station reaches its maximum, whichever comes first. What
// the wing could still carry behind its first station is left out: nobody is to fly there.
type GreatestLift struct {
	Known     bool
	Lift      float64 // coefficient on the reference area
	Alpha     float64 // rad
	Ends      string
	Deviation float64            // standard deviation by the section data, the elevator trimming anew; 0 where it was not asked for
	Common    map[string]float64 // what it is made of, signed, by source
}

// greatest reads it off a try.
func (t *try) greatest() GreatestLift {
	g := GreatestLift{Ends: EndsAtForeplane}
	if g.Alpha, g.Known = t.order.Foreplane.AtLeast(); !g.Known {
		return g
	}
	for _, other := range []struct {
		at   stall.Bracket
		ends string
	}{{t.order.Wing, EndsAtWing}, {t.trim(t.order).Held, EndsAtStop}} {
		if other.ends == EndsAtStop && t.deflection != t.work.stop {
			continue
		}
		if v, ok := other.at.Value(); ok && v < g.Alpha {
			g.Alpha, g.Ends = v, other.ends
		}
	}
	g.Lift = t.held(g.Alpha)
	g.Known = !math.IsNaN(g.Lift) && g.Lift > 0
	return g
}

// held is the lift coefficient at an angle of attack, sections that have let go held at their maximum.
func (t *try) held(alpha float64) float64 {
	lost := alongCurve(t.order, alpha, func(p stall.Point) float64 {
		return p.ForeplaneAttached + p.WingAttached - p.ForeplaneLift - p.WingLift
	})
	return t.path.value(t.path.lift, alpha) - 2*lost/t.work.analysis.Solution.Reference().Area
}

// greatestLift of a case in trim with clean surfaces; elsewhere it stays unknown. At the forward CG, where stalling speed is judged, the
// section maxima of foreplane and wing are moved by their standard deviations, and the elevator trims anew each time.
func (w *stallWork) greatestLift(q question, t try) (GreatestLift, error) {
	if q.handling == AftStop || q.surfaces != AllClean || !w.moves {
		return GreatestLift{}, nil
	}
	g := t.greatest()
	if !g.Known || q.handling != ForwardTrimmed {
		return g, nil
	}
	g.Common = map[string]float64{}
	for _, source := range []string{SourceForeplaneMaximum, SourceWingMaximum} {
		moved := q
		moved.shift = sectionShift{foreplane: sectionMaximumError}
		if source == SourceWingMaximum {
			moved.shift = sectionShift{wing: sectionMaximumError}
		}
		other, err := w.handled(moved)
		if err != nil {
			return g, err
		}
		g.Common[source] = sectionMaximumError * g.Lift // where the moved case is not known, as if lift went with the section
		if m := other.greatest(); m.Known {
			g.Common[source] = m.Lift - g.Lift
		}
	}
	g.Deviation = math.Hypot(g.Common[SourceForeplaneMaximum], g.Common[SourceWingMaximum])
	return g, nil
}

// sectionShift changes the section maxima of foreplane and wing by shares of themselves.
type sectionShift struct{ foreplane, wing float64 }

func (s sectionShift) of(part stall.Part) float64 {
	switch part {
	case stall.Foreplane:
		return 1 + s.foreplane
	case stall.Wing:
		return 1 + s.wing
	}
	return 1
}
