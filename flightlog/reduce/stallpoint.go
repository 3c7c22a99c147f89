package reduce

import (
	"fmt"
	"math"
	"math/rand/v2"

	"wingproof/flightlog"
	"wingproof/flightlog/manoeuvre"
	"wingproof/flightlog/statistic"
)

// How a deceleration is read. Common practice, no source.
const (
	beforeLowest  = 3.0          // s ahead of the lowest speed from which a lowered elevator is the recovery, as in package manoeuvre
	behindLowest  = 3.0          // s behind it up to which the recovery is looked for
	withoutPush   = 1.0          // s behind the lowest speed that still count where the elevator is not lowered
	lowered       = 2 * degree   // of elevator: a hand that corrects for gusts does less
	peakClear     = 2.0          // widths of the low-pass between the greatest lift and the recovery, which it would smear into one another
	powerSpan     = 1.5          // s ahead of it over which the throttle is taken
	slowingSpan   = 3.0          // s ahead of the greatest lift over which the loss of airspeed is taken
	afterRecovery = 0.5          // s behind the recovery that are read
	nearTop       = 10           // instants to either side of the greatest lift that may be as great
	peakWidths    = 4.0          // widths of the low-pass: of the wider one under which the greatest lift is read
	gustAlphaSD   = 0.5 * degree // of attitude less path angle at one instant: vertical gusts of 0.15 m/s at 17 m/s
	leastApproach = 3.0          // s
	peakSeed      = 0x7065616b   // of the stream that draws what noise adds to a peak: the same for all, so that nothing hangs on their order
)

// approach is one deceleration on the grid, from its first instant to the recovery.
type approach struct {
	from, recovery, last int // last: of what is looked at to tell who let go
	alpha, load, lift    []float64
}

// stalls gives the peak of lift in each deceleration, and warns of those in which the wing let go first.
func (m *measurement) stalls(found []manoeuvre.Manoeuvre, seen []flightlog.Finding) (out []StallPoint, findings []flightlog.Finding) {
	out = []StallPoint{}
	lost := m.lostFor(seen, flightlog.ForwardAcceleration, flightlog.DownAcceleration, flightlog.Airspeed, flightlog.Elevator, flightlog.StaticPressure)
	for _, d := range found {
		if d.Kind != manoeuvre.Deceleration {
			continue
		}
		a, why := m.approach(d)
		p := StallPoint{Flight: m.context.Flight, Start: d.Start, Time: d.End, Mass: m.context.Mass, CG: m.context.CG.X, Slowing: d.Slowing,
			First: FirstUnknown, Sign: "it could not be read", Reason: why, Power: m.powerOver(d.Start, d.End)}
		if why == "" {
			read := p
			m.readPeak(&read, a)
			m.readBreak(&read, a)
			m.stallVerdict(&read, a, lost)
			if p.Reason = "its samples give no finite numbers"; soundStall(read) {
				p = read
			}
		}
		out = append(out, p)
		if p.First == FirstWing {
			findings = append(findings, wingFinding(p, d))
		}
	}
	return out, findings
}

// wingFinding warns of a wing that lets go first.
func wingFinding(p StallPoint, d manoeuvre.Manoeuvre) flightlog.Finding {
	return flightlog.Finding{Severity: flightlog.Note, Start: p.Start, End: math.Max(d.End, p.Time),
		What: fmt.Sprintf("DANGER: in the deceleration at %.0f s the wing seems to let go before the foreplane: %s", p.Start, p.Sign),
		Consequence: "a model that stalls like that can drop a wing or pitch up into a stall that it does not leave: fly no slower with this CG and this " +
			"configuration, look at the recording of this stall, and check CG and foreplane before the next flight"}
}

// approach reads a deceleration; why says that it cannot be.
func (m *measurement) approach(d manoeuvre.Manoeuvre) (a approach, why string) {
	a.from = m.index(d.Start)
	lowest := m.index(d.End)
	a.recovery = m.recovery(lowest)
	a.last = min(a.recovery+int(math.Round(afterRecovery/gridStep)), m.g.n)
	if float64(a.recovery-a.from)*gridStep < leastApproach {
		return a, "it is too short to be read"
	}
	for i := a.from; i < a.last; i++ {
		if m.air.speed[i] != m.air.speed[i] || math.IsNaN(m.load[i]) {
			return a, "samples are missing in it"
		}
	}
	a.alpha = m.alphaAlong(a.from, a.last)
	a.load, a.lift = m.liftAlong(a.from, a.alpha)
	if !statistic.Finite(a.lift...) {
		return a, "its samples give no finite lift"
	}
	return a, ""
}

// recovery is the first instant near the lowest speed at which the elevator has been lowered from its highest.
func (m *measurement) recovery(lowest int) int {
	elevator, top := m.g.get(flightlog.Elevator), math.Inf(-1)
	for i := max(lowest-int(beforeLowest/gridStep), 0); i < min(lowest+int(behindLowest/gridStep), m.g.n); i++ {
		top = math.Max(top, elevator[i])
		if elevator[i] < top-lowered {
			return i
		}
	}
	return min(lowest+int(withoutPush/gridStep), m.g.n-1)
}

// readPeak finds the greatest lift ahead of the recovery. The greatest of noisy values is too great: what the noise adds on average is
// taken off, and the scatter of the greatest is its standard deviation.
func (m *measurement) readPeak(p *StallPoint, a approach) {
	end := a.recovery - a.from - int(math.Round(peakClear*m.g.width/gridStep))
	searched := a.lift[:max(end, 1)]
	top, peak, deviation := peakOf(searched, m.liftNoise(a, highest(searched)), m.g.width, rand.New(rand.NewPCG(peakSeed, 0)))
	p.Lift, p.LiftSD = peak, deviation
	i := a.from + top
	p.Time, p.Airspeed = m.g.time(i), m.air.speed[i]
	p.Power = m.powerOver(p.Time-powerSpan, p.Time)
	p.Reynolds = m.air.density[i] * p.Airspeed * m.context.MeanChord / m.air.viscosity[i]
	p.Elevator = m.g.get(flightlog.Elevator)[i]
	span := int(slowingSpan / gridStep)
	if from := max(i-span, a.from); i-from >= 3 {
		p.Slowing = -m.signals.speed.over(from, i+1).trend
	}
	m.readStallAlpha(p, a, top)
}

// liftNoise is the standard deviation that the noise of accelerometers and airspeed leaves in the lift coefficient behind the low-pass:
// white noise of samples a step apart keeps step/(2·√π·width) of its variance under a Gaussian.
func (m *measurement) liftNoise(a approach, top int) float64 {
	const span = 6.0 // s
	end := m.g.time(a.from + top)
	variance := func(q flightlog.Quantity) float64 {
		c := readings(between(m.g.clean[q], end-span, end))
		if len(c.Time) < 5 {
			return 0
		}
		sd := scatter(c)
		return sd * sd * math.Min(1, c.Step()/(2*math.SqrtPi*m.g.width))
	}
	sin, cos := math.Sincos(a.alpha[top])
	force := sin*sin*variance(flightlog.ForwardAcceleration) + cos*cos*variance(flightlog.DownAcceleration)
	speed := variance(flightlog.Airspeed) / math.Pow(m.g.get(flightlog.Airspeed)[a.from+top], 2)
	perForce := m.context.Mass / (m.air.pressure[a.from+top] * m.context.WingArea)
	return math.Sqrt(perForce*perForce*force + 4*a.lift[top]*a.lift[top]*speed)
}

// readStallAlpha gives the angle of attack at the greatest lift. To its random part comes how far it moves where the lift is the same
// within its noise.
func (m *measurement) readStallAlpha(p *StallPoint, a approach, top int) {
	p.Alpha = a.alpha[top]
	low, high := p.Alpha, p.Alpha
	for k := max(top-nearTop, 0); k <= min(top+nearTop, len(a.lift)-1) && a.from+k < a.recovery; k++ {
		if a.lift[k] > a.lift[top]-p.LiftSD {
			low, high = math.Min(low, a.alpha[k]), math.Max(high, a.alpha[k])
		}
	}
	moves := (high - low) / math.Sqrt(12) // standard deviation of a uniform place
	i := 0
	if m.flown != nil {
		i = min(firstAt(m.flown, p.Time), len(m.flown.Time)-1)
	}
	if m.flown == nil || m.pathLost(p.Start, p.Time) || !(m.flown.AlphaSD[i] > 0) {
		p.AlphaSD = math.Hypot(moves, gustAlphaSD)
		p.AlphaAbsoluteSD = m.attitudeDoubt(p.AlphaSD, p.Airspeed)
		return
	}
	total, common := m.flown.AlphaSD[i], m.flown.AlphaCommonSD[i]
	p.AlphaSD = math.Max(leastAlphaSD, math.Hypot(moves, math.Sqrt(math.Max(0, total*total-common*common))))
	p.AlphaAbsoluteSD = math.Hypot(p.AlphaSD, common)
}

func soundStall(p StallPoint) bool {
	return statistic.Finite(p.Time, p.Slowing, p.Airspeed, p.Reynolds, p.Lift, p.LiftSD, p.Alpha, p.AlphaSD, p.AlphaAbsoluteSD, p.Elevator)
}
