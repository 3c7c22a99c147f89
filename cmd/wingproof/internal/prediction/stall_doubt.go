package prediction

import (
	"math"

	"wingproof/aero/stall"
	"wingproof/cmd/wingproof/internal/evidence"
)

// doubt moves the section maxima of foreplane and wing by their standard deviations, each to its dangerous side (the foreplane lets go
// later, the wing earlier), the elevator held.
func (c *StallCase) doubt(t try) error {
	c.Deviation, c.Trim.Deviation = math.NaN(), math.NaN()
	of, trim := map[string]float64{}, map[string]float64{}
	shifts := []struct {
		source          string
		foreplane, wing float64
		sign            float64
	}{{SourceForeplaneMaximum, sectionMaximumError, 0, 1}, {SourceWingMaximum, 0, -sectionMaximumError, -1}}
	for _, s := range shifts {
		search, err := t.begin(s.foreplane, s.wing)
		if err != nil {
			return err
		}
		moved := search.Outline()
		if v, ok := moved.Margin.Minus(c.Order.Margin).Value(); ok {
			of[s.source] = s.sign * v
		}
		if !c.AtStop {
			continue
		}
		if v, ok := t.trim(moved).Left.Minus(c.Trim.Left).Value(); ok {
			trim[s.source] = s.sign * v
		}
	}
	if len(of) == len(shifts) {
		c.Common, c.Deviation = of, evidence.Total(0, of)
	}
	if len(trim) == len(shifts) {
		c.Trim.Common, c.Trim.Deviation = trim, evidence.Total(0, trim)
	}
	return nil
}

// measure fills in lift, speed and Reynolds numbers where the foreplane's lift stops rising.
func (c *StallCase) measure(t try) {
	alpha, size := nearestTo(c.Order.Foreplane), t.question.size
	c.Lift = t.held(alpha)
	c.Speed = size.speed(c.Lift, c.Mass, c.Reference.Area)
	longest := 0.0
	for i, s := range t.layout.strips {
		if s.Part == stall.Foreplane {
			longest = math.Max(longest, t.layout.chord[i])
		}
	}
	c.ForeplaneReynolds, c.WingReynolds = size.reynolds(c.Speed, longest), size.reynolds(c.Speed, c.Reference.MeanChord)
}

// nearestTo is a known angle, else the bound that there is.
func nearestTo(b stall.Bracket) float64 {
	if low, ok := b.AtLeast(); ok {
		return low
	}
	if high, ok := b.AtMost(); ok {
		return high
	}
	return 0
}
