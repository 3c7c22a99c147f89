package rehearse

import (
	"fmt"
	"math"

	"wingproof/aero/stability"
)

// Surface is a surface that lets go.
type Surface string

// The surfaces that can let go first.
const (
	ForeplaneFirst Surface = "foreplane" // lift bends over softly and the nose drops
	WingFirst      Surface = "wing"      // lift bends over, the nose pitches, a wing drops: a danger, for tests of what must find it
)

// Stall is how an aircraft lets go at MaxLift. The zero Stall is a foreplane that lets go first.
//
// A wing that lets go first loses more than the lift slope, so that lift falls past it. What it has lost, as a lift coefficient, times Pitch is a pitching
// moment and times RollOff a rolling moment, and the damping in roll fades with the slope, as strips that are past their highest lift
// do not resist. The foreplane then lets go 6° later. On an aircraft with the elevator behind the CG there is no foreplane.
type Stall struct {
	First   Surface // "" means ForeplaneFirst
	Pitch   float64 // wing first: Cm per lift coefficient that it has lost, nose up positive
	RollOff float64 // wing first: Cl likewise; positive drops the right wing
}

// InventedWingStall is a wing behind the CG that lets go first and drops the right wing: a tip stall of a swept wing in kind. Invented.
func InventedWingStall() Stall { return Stall{First: WingFirst, Pitch: 0.4, RollOff: 0.12} }

func (s Stall) check() error {
	switch s.First {
	case "", ForeplaneFirst:
		if s.Pitch != 0 || s.RollOff != 0 {
			return fmt.Errorf("rehearse: a stall with pitch %g and roll-off %g is one of the wing; write First: WingFirst", s.Pitch, s.RollOff)
		}
		return nil
	case WingFirst:
		return nil
	}
	return fmt.Errorf("rehearse: a stall that begins at the %q; write foreplane or wing", s.First)
}

// elevatorAsIncidence is the share of an elevator deflection that acts on the foreplane like incidence;
// about that of a plain flap of a fifth of the chord. It places the stall only.
const elevatorAsIncidence = 0.55

// stallSoftness is the range of angle of attack over which a surface lets go, rad. Invented.
const stallSoftness = 0.5 * math.Pi / 180

// otherStallsLater is how far past the stall of the first surface the other one bends over, rad. Invented.
const otherStallsLater = 6 * math.Pi / 180

// The share of the lift slope that a stalled wing takes with it: the lift of one that goes first falls, so that there is a highest one.
// Invented.
const (
	wingLoses      = 0.9
	wingFirstLoses = 1.2
)

// placeStall finds the angles at which the surfaces let go.
func (f *airframe) placeStall() error {
	alpha, deflection, err := stability.Trim(f.d, f.MaxLift)
	if err != nil {
		return fmt.Errorf("rehearse: trim at the highest lift coefficient: %w", err)
	}
	f.foreplaneStall, f.wingStall, f.wingLoses = alpha+elevatorAsIncidence*deflection, alpha+otherStallsLater, wingLoses
	if f.Stall.First == WingFirst {
		f.foreplaneStall, f.wingStall, f.wingLoses = f.foreplaneStall+otherStallsLater, alpha, wingFirstLoses
	}
	if f.elevator.Lift > 0 && f.elevator.Pitch > 0 {
		f.foreplaneSlope = f.elevator.Lift / elevatorAsIncidence
		f.foreplaneArm = f.elevator.Pitch / f.elevator.Lift
	}
	return nil
}

// stalled takes from lift and pitching moment what surfaces have lost.
func (f *airframe) stalled(alpha, lift, pitch, elevator float64) (float64, float64) {
	lost := f.foreplaneSlope * excess(alpha+elevatorAsIncidence*elevator-f.foreplaneStall)
	byWing := f.wingLoses * f.d.ByAlpha.Lift * excess(alpha-f.wingStall)
	lift -= lost + byWing
	pitch -= lost * f.foreplaneArm
	return lift, pitch + f.Stall.Pitch*byWing
}

// rolledOff is the rolling moment coefficient that a stalled wing adds: one side goes first, and damping fades.
func (f *airframe) rolledOff(alpha, rollRate float64) float64 {
	past := alpha - f.wingStall
	byWing := f.wingLoses * f.d.ByAlpha.Lift * excess(past)
	return f.Stall.RollOff*byWing - f.wingLoses*slope(past)*f.d.ByRollRate.Roll*rollRate
}

// excess is how far an angle is past the stall, rounded off over stallSoftness: w·ln(1 + e^(x/w)).
func excess(x float64) float64 {
	switch s := x / stallSoftness; {
	case s < -12:
		return 0
	case s > 30:
		return x
	default:
		return stallSoftness * math.Log1p(math.Exp(s))
	}
}

// slope of excess.
func slope(x float64) float64 { return 1 / (1 + math.Exp(-x/stallSoftness)) }
