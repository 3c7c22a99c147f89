package prediction

import (
	"math"

	"wingproof/aero/stall"
)

// The elevator in trim is found when the moment left is this share of that between the stops (a tenth of a degree of forty), or when it is
// enclosed as closely [rad]; a tenth of a degree moves the margin by less than half of it. The rounds bound what a jump of the moment could cost.
const (
	trimResidual  = 0.0025
	trimTolerance = 0.1 * deg
	trimRounds    = 30
)

// handled answers a question with the elevator where its handling puts it.
func (w *stallWork) handled(q question) (try, error) {
	atStop, err := w.try(q, w.stop)
	if err != nil || q.handling == AftStop || !w.moves {
		return atStop, err
	}
	return w.trimmed(q, atStop)
}

// trimmed finds the deflection with which the aircraft is in balance where the foreplane's lift stops rising: with more of it the
// foreplane lets go while the nose still rises, with less only after the nose has come down. Illinois variant of regula falsi.
func (w *stallWork) trimmed(q question, atStop try) (try, error) {
	left := func(t try) float64 { return t.balance(t.order, nearestTo(t.order.Foreplane)) }
	high, over := atStop, left(atStop)
	if over <= 0 {
		return atStop, nil // the elevator runs out of travel first
	}
	low, err := w.try(q, w.travel[0]+w.travel[1]-w.stop)
	if err != nil {
		return low, err
	}
	under := left(low)
	if under >= 0 {
		return low, nil
	}
	whole := over - under
	for last, round := 0, 0; ; round++ {
		at := (low.deflection*over - high.deflection*under) / (over - under)
		t, err := w.try(q, at)
		if err != nil {
			return t, err
		}
		v := left(t)
		switch {
		case math.Abs(v) < trimResidual*whole || math.Abs(high.deflection-low.deflection) < trimTolerance || round == trimRounds:
			return t, nil
		case v > 0:
			high, over = t, v
			if last > 0 {
				under /= 2
			}
			last = 1
		default:
			low, under = t, v
			if last < 0 {
				over /= 2
			}
			last = -1
		}
	}
}

// trim is where steady flight with the deflection of the try ends.
func (t *try) trim(o stall.Order) StallTrim {
	alpha, moment := make([]float64, len(o.Curve)), make([]float64, len(o.Curve))
	for k, p := range o.Curve {
		alpha[k], moment[k] = p.Alpha, t.balance(o, p.Alpha)
	}
	out := StallTrim{Attached: balance(t.path.alpha, t.path.moment), Held: balance(alpha, moment), Deviation: math.NaN()}
	if v, ok := out.Attached.Value(); ok && v < t.from { // before anything lets go
		out.Held = out.Attached
	}
	out.Left = o.Wing.Minus(out.Held)
	return out
}

// balance is where a nose-up moment first falls through zero; a bound where it does not do so in range.
func balance(alpha, moment []float64) stall.Bracket {
	if moment[0] <= 0 {
		return stall.Bracket{Low: math.Inf(-1), High: alpha[0]}
	}
	for k := 1; k < len(alpha); k++ {
		if moment[k] <= 0 {
			at := alpha[k-1] + (alpha[k]-alpha[k-1])*moment[k-1]/(moment[k-1]-moment[k])
			return stall.Bracket{Low: at, High: at}
		}
	}
	return stall.Bracket{Low: alpha[len(alpha)-1], High: math.Inf(1)}
}
