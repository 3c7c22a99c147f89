package study

import (
	"fmt"
	"math"

	"wingproof/aero"
	"wingproof/aero/atmosphere"
	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/flightlog/estimate"
)

// The zero-lift drag coefficient of an aircraft of this kind, propeller excluded, where no glide tells it, and one standard deviation over
// it: only the phugoid asks. Common practice, no source.
const (
	usualZeroLiftDrag = 0.025
	usualDragShare    = 0.3
)

// endlessRoll is the time constant in s that stands for a roll which does not die out.
const endlessRoll = 1000.0

// motionBase is what the motions of one configuration start from: all about the CG that pitching moments are predicted about.
type motionBase struct {
	derivatives  aero.Derivatives // without controls
	neutralPoint float64          // m aft of datum
	stiffnessCG  float64          // m aft of datum, which beliefs on lateral derivatives are about
	induced      float64          // drag coefficient at PredictionLift
	zeroLiftDrag float64
}

// motions hands the judging a function that computes the motions of a configuration at full size with controls held.
//
// Derivatives are the lattice's; what beliefs holds takes their place. Beliefs are named as in package evidence, at full size: neutral point
// [m aft of datum] and lift slope give the pitch stiffness, pitch damping is about ReferenceCG, lateral derivatives are about StiffnessCG;
// other quantities are left alone. Everything is then moved to the CG of the loading, at the height of the empty aircraft's.
//
// The aircraft flies level at the cruise altitude at the lift coefficient PredictionLift, at which the derivatives were taken, so that
// its speed follows from its mass: it is slower than the cruise where that takes less lift. Its angle of attack is that of trim about
// ReferenceCG. Measured pitch damping is Cm_q + Cm_α̇, and all of it counts as Cm_q here: what of it is Cm_α̇ moves ω² of the short period by
// κ·CL_α·Cm_α̇/Cm_α with κ = ρSc/4m, a few per cent. Drag is the zero-lift drag that is believed, else that the configuration's glides tell, else
// the mean of the other configurations' glides, else usualZeroLiftDrag, with the predicted induced drag. The product of inertia, which nobody
// states, counts as zero, and thrust as constant.
//
// It returns short-period damping, control anticipation, phugoid damping, frequency and damping of the Dutch roll, roll time constant (endlessRoll
// where the roll does not die out) and spiral rate, by quantity; see stability.HandlingNumbers for motions that do not oscillate.
//
// The motions that flights give by themselves, with the cruise speed and intervals of their own, are those of Fit.FullSizeModes.
func (s *Study) motions() decide.Motions {
	air, failed := atmosphere.Standard(s.Program.FullSize.CruiseAltitude)
	bases := map[string]motionBase{}
	for _, c := range s.Configurations {
		bases[c.Name] = s.motionBase(c)
	}
	return func(levels map[string]string, beliefs map[string]float64, in decide.Flown) (map[string]float64, error) {
		if failed != nil {
			return nil, failed
		}
		name := evidence.Name(levels)
		base, ok := bases[name]
		if !ok {
			return nil, fmt.Errorf("motions of %s: there is no such configuration", name)
		}
		numbers, err := base.handling(beliefs, in, air.Density)
		if err != nil {
			return nil, fmt.Errorf("motions of %s: %w", name, err)
		}
		return map[string]float64{
			evidence.ShortPeriodDamping: numbers.ShortPeriodDamping, evidence.ControlAnticipation: numbers.ControlAnticipation,
			evidence.PhugoidDamping: numbers.PhugoidDamping, evidence.DutchRollFrequency: numbers.DutchRollFrequency,
			evidence.DutchRollDamping: numbers.DutchRollDamping, evidence.RollTimeConstant: math.Min(endlessRoll, numbers.RollTimeConstant),
			evidence.SpiralRate: numbers.SpiralRate,
		}, nil
	}
}

func (s *Study) motionBase(c Configuration) motionBase {
	d := c.Derivatives
	d.ByControl, d.Alpha = nil, c.TrimAlpha
	return motionBase{derivatives: d, neutralPoint: c.NeutralPoint, stiffnessCG: c.StiffnessCG, induced: c.InducedDrag, zeroLiftDrag: s.zeroLiftDrag(c)}
}

// zeroLiftDrag is what the glides of a configuration tell, else the mean over the configurations whose glides tell it, else what is usual.
func (s *Study) zeroLiftDrag(c Configuration) float64 {
	sum, n := 0.0, 0.0
	for _, f := range s.Fits {
		v := f.ZeroLiftDrag.Value
		if v == nil || f.ZeroLiftDrag.State != estimate.Determined || !(*v > 0) {
			continue
		}
		if f.Configuration == c.Name {
			return *v
		}
		sum, n = sum+*v, n+1
	}
	if n == 0 {
		return usualZeroLiftDrag
	}
	return sum / n
}

// handling are the numbers of the motions with beliefs in place of what was predicted.
func (b motionBase) handling(beliefs map[string]float64, in decide.Flown, density float64) (stability.HandlingNumbers, error) {
	d := b.with(beliefs)
	zeroLift := b.zeroLiftDrag
	replace(&zeroLift, beliefs, evidence.ZeroLiftDrag)
	d.At = aero.Coefficients{Lift: PredictionLift, Drag: zeroLift + b.induced}
	d.ByAlpha.Drag = 2 * b.induced / PredictionLift * d.ByAlpha.Lift // the induced drag goes with the square of lift
	d = stability.Moved(d, in.CG, d.MomentZ)
	body := stability.Body{Mass: in.Mass, Ix: in.Ix, Iy: in.Iy, Iz: in.Iz}
	level := stability.Condition{Density: density, Speed: speedAt(in.Mass, d.Reference.Area, density, PredictionLift)}
	m, err := stability.FindModes(d, body, level)
	if err != nil {
		return stability.HandlingNumbers{}, err
	}
	return m.HandlingNumbers(stability.LoadFactorPerAlpha(d, body, level)), nil
}

// with puts beliefs in the place of derivatives, longitudinal ones about the moment point, lateral ones about StiffnessCG, where it leaves them.
func (b motionBase) with(beliefs map[string]float64) aero.Derivatives {
	d, neutral := b.derivatives, b.neutralPoint
	replace(&neutral, beliefs, evidence.NeutralPoint)
	replace(&d.ByAlpha.Lift, beliefs, evidence.LiftCurveSlope)
	replace(&d.ByPitchRate.Pitch, beliefs, evidence.PitchDamping)
	d.ByAlpha.Pitch = -d.ByAlpha.Lift * (neutral - d.MomentPoint) / d.Reference.MeanChord
	d = stability.Moved(d, b.stiffnessCG, d.MomentZ)
	replace(&d.ByBeta.Side, beliefs, evidence.SideForceSlope)
	replace(&d.ByBeta.Roll, beliefs, evidence.DihedralEffect)
	replace(&d.ByBeta.Yaw, beliefs, evidence.DirectionalStiffness)
	replace(&d.ByRollRate.Roll, beliefs, evidence.RollDamping)
	replace(&d.ByRollRate.Yaw, beliefs, evidence.YawDueToRoll)
	replace(&d.ByYawRate.Roll, beliefs, evidence.RollDueToYaw)
	replace(&d.ByYawRate.Yaw, beliefs, evidence.YawDamping)
	return d
}

// replace takes the belief of a quantity where there is one.
func replace(value *float64, beliefs map[string]float64, quantity string) {
	if v, ok := beliefs[quantity]; ok {
		*value = v
	}
}
