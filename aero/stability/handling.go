package stability

import (
	"math"

	"wingproof/aero"
)

// HandlingNumbers are what requirements on flying qualities are stated in. Judge them at full size: control anticipation, frequencies and
// times of a model that is scaled to the same motion differ from those of the aircraft by powers of its length ratio.
//
// A motion that does not oscillate has two real roots λ1 and λ2 instead, and is read as the second-order motion that they make:
// ω² = λ1·λ2 and ζ = −(λ1 + λ2)/(2ω), at least 1 when both die out and at most −1 when both grow. Where one grows and one dies out, ω²
// is negative: frequency is then 0, control anticipation negative, and damping is −λ/√|λ1·λ2| of the growing root, so that it is
// negative as it is for every motion that grows.
type HandlingNumbers struct {
	ShortPeriodFrequency float64 // undamped, rad/s
	ShortPeriodDamping   float64 // damping ratio
	LoadFactorPerAlpha   float64 // n/α, g per rad
	ControlAnticipation  float64 // ω²/(n/α) of the short period, rad/s² per g
	PhugoidDamping       float64
	PhugoidTimeToDouble  float64 // s; +Inf when it does not grow
	DutchRollFrequency   float64 // undamped, rad/s
	DutchRollDamping     float64
	RollTimeConstant     float64 // s; +Inf when the roll does not die out
	SpiralRate           float64 // 1/s, positive when it grows
	SpiralTimeToDouble   float64 // ln 2/SpiralRate, s; +Inf when it does not grow
}

// LoadFactorPerAlpha is n/α = q·S·CL_α/W [g per rad], W the weight. CL_α is taken with the elevator held: what the elevator's own lift
// adds while it pulls, a few per cent with the elevator on a foreplane, is left out.
//
// Source: definition of n/α in MIL-F-8785C (from memory); Nelson, Flight Stability and Automatic Control, chapter 4 (from memory).
func LoadFactorPerAlpha(d aero.Derivatives, b Body, c Condition) float64 {
	pressure := 0.5 * c.Density * c.Speed * c.Speed
	return pressure * d.Reference.Area * d.ByAlpha.Lift / (b.Mass * gravity(c))
}

// HandlingNumbers reads the numbers off the modes. loadFactorPerAlpha is n/α [g per rad], above zero.
//
// Without a Dutch roll the two middle roots by size stand for it, the largest for the roll, the smallest for the spiral. Where roll and spiral are
// coupled into one slow oscillation, its decay stands for the roll and its growth for the spiral: the roll is then judged more strictly
// than by what the specification says of that oscillation.
func (m Modes) HandlingNumbers(loadFactorPerAlpha float64) HandlingNumbers {
	n := HandlingNumbers{LoadFactorPerAlpha: loadFactorPerAlpha}
	short, long := m.alongPairs()
	n.ShortPeriodFrequency, n.ShortPeriodDamping = short.frequency(), short.damping
	n.ControlAnticipation = short.square / loadFactorPerAlpha
	n.PhugoidDamping, n.PhugoidTimeToDouble = long.damping, timeToDouble(long.growth)
	swing, roll, spiral := m.acrossMotions()
	n.DutchRollFrequency, n.DutchRollDamping = swing.frequency(), swing.damping
	n.RollTimeConstant = math.Inf(1)
	if roll < 0 {
		n.RollTimeConstant = -1 / roll
	}
	n.SpiralRate, n.SpiralTimeToDouble = spiral, timeToDouble(spiral)
	return n
}

// timeToDouble is ln 2/growth in s; +Inf when nothing grows.
func timeToDouble(growth float64) float64 {
	if growth <= 0 {
		return math.Inf(1)
	}
	return math.Ln2 / growth
}

// rootPair is the motion that two roots make.
type rootPair struct {
	square  float64 // product of the roots, 1/s²; negative when one of two real roots grows
	damping float64
	growth  float64 // largest real part, 1/s
}

func (p rootPair) frequency() float64 { return math.Sqrt(math.Max(0, p.square)) }

func ofOscillation(o *Oscillation) rootPair {
	return rootPair{square: o.Frequency * o.Frequency, damping: o.Damping, growth: real(o.Root)}
}

func ofReals(a, b Decay) rootPair {
	p := rootPair{square: a.Root * b.Root, growth: math.Max(a.Root, b.Root)}
	size := math.Sqrt(math.Abs(p.square))
	switch {
	case size == 0: // a root at zero: neither grows for sure nor dies out
	case p.square < 0:
		p.damping = -p.growth / size
	default:
		p.damping = -(a.Root + b.Root) / (2 * size)
	}
	return p
}

// alongPairs are short period and phugoid, whether they oscillate or not. Of four real roots the larger two make the short period.
func (m Modes) alongPairs() (short, long rootPair) {
	_, reals := split(m.LongitudinalRoots)
	if m.ShortPeriod != nil {
		short = ofOscillation(m.ShortPeriod)
	} else if len(reals) >= 2 {
		short, reals = ofReals(reals[0], reals[1]), reals[2:]
	}
	if m.Phugoid != nil {
		long = ofOscillation(m.Phugoid)
	} else if len(reals) >= 2 {
		long = ofReals(reals[0], reals[1])
	}
	return short, long
}

// acrossMotions are the Dutch roll and the roots [1/s] of roll and spiral.
func (m Modes) acrossMotions() (swing rootPair, roll, spiral float64) {
	if m.DutchRoll == nil {
		_, reals := split(m.LateralRoots)
		if len(reals) < 4 {
			return swing, 0, 0
		}
		return ofReals(reals[1], reals[2]), reals[0].Root, reals[3].Root
	}
	swing = ofOscillation(m.DutchRoll)
	if m.Roll == nil || m.Spiral == nil {
		slow := real(m.LateralRoots[len(m.LateralRoots)-1])
		return swing, slow, slow
	}
	return swing, m.Roll.Root, m.Spiral.Root
}
