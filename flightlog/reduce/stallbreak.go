package reduce

import (
	"fmt"
	"math"

	"wingproof/flightlog"
)

// What tells the surface that let go. The limits lie between what 96 rehearsed stalls of either kind showed, in gusts of nothing to 0.9 m/s: with the
// foreplane first the nose dropped by 3 to 12°/s against the elevator, it rose by no more than 6°/s, and with at most 2° of angle of attack, and no wing dropped faster than
// 13°/s; with the wing first the nose rose by 4 to 20°/s with 3 to 7° of angle of attack in most, and in most a wing dropped at 15 to 110°/s. No real model has been
// stalled against them.
const (
	nearPeak    = 0.93          // of the greatest lift: below it nothing has let go yet
	aheadOfPush = 2.0           // s ahead of the recovery that are looked at
	behindPush  = 0.3           // s behind it: what began ahead shows, what the recovery does not
	heldSpan    = 0.6           // s over which a held elevator moves by less than heldWithin
	heldWithin  = 0.25 * degree // a hand's tremor behind the low-pass
	noseDrops   = -3 * degree   // rad/s, against the median of the deceleration
	noseRises   = 3.5 * degree  // rad/s, likewise
	runsAway    = 3 * degree    // of angle of attack within runsAwayIn
	runsAwayIn  = 0.8           // s
	wingDrops   = 15 * degree   // rad/s, likewise
	byAileron   = 1 * degree    // of aileron towards the roll: somebody wanted it
	shownFor    = 2             // instants of the grid in a row
	breaksApart = 0.2           // s by which the foreplane must be ahead of a wing
	bankedStall = 20 * degree   // beyond it a deceleration is a turn
	quickest    = 2.0           // m/s² of slowing: a zoom. Common practice, no source
)

// sign is one thing that shows in a stall.
type sign struct {
	at    int     // first instant of the grid; −1 when it does not show
	most  float64 // rad/s
	count int
}

// see takes one instant.
func (s *sign) see(i int, shows bool, size float64) {
	if !shows {
		s.count = 0
		return
	}
	s.count++
	if s.count >= shownFor && s.at < 0 {
		s.at = i - shownFor + 1
	}
	if math.Abs(size) > math.Abs(s.most) {
		s.most = size
	}
}

// readBreak tells whether something let go, and what.
func (m *measurement) readBreak(p *StallPoint, a approach) {
	drop, rise, roll := m.signsOf(a, p.Lift)
	wing := rise
	if roll.at >= 0 && (wing.at < 0 || roll.at < wing.at) {
		wing = roll
	}
	p.Broke = drop.at >= 0 || wing.at >= 0
	switch {
	case !p.Broke:
		p.Sign = "neither nose nor wing drops, and the nose does not rise, until the elevator is lowered"
	case wing.at < 0 || drop.at >= 0 && float64(wing.at-drop.at)*gridStep > breaksApart:
		p.First = FirstForeplane
		p.Sign = fmt.Sprintf("the nose drops by %.0f°/s although the elevator is not lowered", -drop.most/degree)
		if wing.at >= 0 {
			p.Sign += ", then " + wingSign(rise, roll)
		}
	default:
		p.First, p.Sign = FirstWing, wingSign(rise, roll)
	}
}

func wingSign(rise, roll sign) string {
	side := "right"
	if roll.most < 0 {
		side = "left"
	}
	dropped := fmt.Sprintf("the %s wing drops at %.0f°/s against the aileron", side, math.Abs(roll.most)/degree)
	risen := fmt.Sprintf("the nose rises by %.0f°/s although the elevator is not raised", rise.most/degree)
	switch {
	case rise.at < 0:
		return dropped
	case roll.at < 0:
		return risen
	}
	return risen + ", and " + dropped
}

// signsOf looks for a nose that drops against the elevator, one that rises against it, and a wing that drops against the aileron, once the
// lift is near its greatest.
func (m *measurement) signsOf(a approach, greatest float64) (drop, rise, roll sign) {
	drop.at, rise.at, roll.at = -1, -1, -1
	pitchRate, rollRate := m.g.get(flightlog.PitchRate), m.g.get(flightlog.RollRate)
	elevator, aileron := m.g.get(flightlog.Elevator), m.g.get(flightlog.Aileron)
	usualPitch, usualRoll, usualAileron := middleOf(pitchRate, a), middleOf(rollRate, a), middleOf(aileron, a)
	from := max(a.recovery-int(aheadOfPush/gridStep), a.from)
	for from < a.recovery && a.lift[from-a.from] < nearPeak*greatest {
		from++
	}
	back, away := int(heldSpan/gridStep), int(runsAwayIn/gridStep)
	for i := from; i < min(a.recovery+int(behindPush/gridStep), a.last); i++ {
		k, moved := i-a.from, elevator[i]-elevator[max(i-back, 0)]
		if pitchRate != nil {
			q := pitchRate[i] - usualPitch
			drop.see(i, q < noseDrops && moved > -heldWithin && i < a.recovery, q)
			rise.see(i, q > noseRises && moved < heldWithin && a.alpha[k]-a.alpha[max(k-away, 0)] > runsAway, q)
		}
		if rollRate != nil {
			rate := rollRate[i] - usualRoll
			wanted := aileron != nil && math.Copysign(1, rate)*(aileron[max(i-1, 0)]-usualAileron) > byAileron
			roll.see(i, math.Abs(rate) > wingDrops && !wanted, rate)
		}
	}
	return drop, rise, roll
}

// middleOf is the median of a series over a deceleration; zero where there is none.
func middleOf(series []float64, a approach) float64 {
	if series == nil {
		return 0
	}
	part := series[a.from:a.recovery]
	return medianOf(part, make([]bool, len(part)))
}

// stallVerdict keeps the point or says why not.
func (m *measurement) stallVerdict(p *StallPoint, a approach, lost []obstacle) {
	bank := mean(m.g.get(flightlog.RollAngle)[a.from:a.recovery])
	switch {
	case m.signals.throttle == nil:
		p.Reason = "no throttle channel: the power state is unknown"
	case math.Abs(bank) > bankedStall:
		p.Reason = fmt.Sprintf("bank is %.0f°, over %g°: a turn", math.Abs(bank)/degree, bankedStall/degree)
	case p.Slowing > quickest:
		p.Reason = fmt.Sprintf("airspeed falls by %.1f m/s a second, over %g: the lift is higher than in a slow stall", p.Slowing, quickest)
	default:
		for _, o := range lost {
			if o.start <= p.Time+behindPush && o.end >= p.Time-slowingSpan {
				p.Reason = o.what
				return
			}
		}
		p.Kept = true
		p.Reason = fmt.Sprintf("airspeed falls by %.1f m/s a second", p.Slowing)
		if !p.Broke {
			p.Reason += "; no break shows, so that more lift may be there"
		}
	}
}
