package study

import (
	"slices"

	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/flightlog/estimate"
)

// motionDerivatives are the beliefs that only the motions of the full-size aircraft hang on. Pitch damping is about ReferenceCG, the others are about
// StiffnessCG: there the fits of manoeuvres carry each flight's numbers from the CG of its day (Study.setup), so that measured and predicted
// ones need no moving.
func motionDerivatives() []string {
	return []string{evidence.PitchDamping, evidence.SideForceSlope, evidence.DihedralEffect, evidence.RollDamping, evidence.YawDamping,
		evidence.YawDueToRoll, evidence.RollDueToYaw}
}

// momentCG is the CG that a belief on a derivative is about, m aft of datum and the same for every configuration; false for other quantities.
func (s *Study) momentCG(quantity string) (float64, bool) {
	switch {
	case quantity == evidence.PitchDamping:
		return s.ReferenceCG, true
	case quantity == evidence.DirectionalStiffness || slices.Contains(motionDerivatives(), quantity):
		return s.Configurations[0].StiffnessCG, true
	}
	return 0, false
}

// movable tells whether the motions of the full-size aircraft can be computed: without its inertias the derivatives serve nothing.
func movable(p *program.Program) bool {
	f := p.FullSize
	return f.Ix.Value > 0 && f.Iy.Value > 0 && f.Iz.Value > 0
}

// dragAsked tells whether some limit asks for the phugoid, the only motion that drag damps.
func dragAsked(p *program.Program) bool {
	for _, l := range p.Limits {
		if l.Quantity == evidence.PhugoidDamping {
			return movable(p)
		}
	}
	return false
}

// yawDampingDoubt is one standard deviation of what the lattice leaves out of Cn_r whatever the winglets: profile drag, −CD0/3 or so for drag that
// is spread evenly over the span (−∫CD0·(2y/b)² over the half span), and the body, as much again. Common practice, no source.
const yawDampingDoubt = 0.005

// believeMotions adds to a prediction what the motions of the full-size aircraft are computed from. The lattice gives Cm_q; Cm_α̇, which flights
// measure with it, is part of the stated error. Zero-lift drag is what is usual, for want of a prediction of the whole aircraft.
func (s *Study) believeMotions(c Configuration, p *decide.Prediction) {
	if !movable(s.Program) {
		return
	}
	across := stability.Moved(c.Derivatives, c.StiffnessCG, c.Derivatives.MomentZ)
	p.Values[evidence.PitchDamping] = c.Derivatives.ByPitchRate.Pitch
	p.Values[evidence.SideForceSlope] = across.ByBeta.Side
	p.Values[evidence.DihedralEffect] = across.ByBeta.Roll
	p.Values[evidence.RollDamping] = across.ByRollRate.Roll
	p.Values[evidence.YawDueToRoll] = across.ByRollRate.Yaw
	p.Values[evidence.RollDueToYaw] = across.ByYawRate.Roll
	p.Values[evidence.YawDamping] = across.ByYawRate.Yaw
	if p.Doubt == nil {
		p.Doubt = map[string]float64{}
	}
	p.Doubt[evidence.YawDamping] = yawDampingDoubt
	if dragAsked(s.Program) {
		p.Values[evidence.ZeroLiftDrag] = usualZeroLiftDrag
		p.Doubt[evidence.ZeroLiftDrag] = usualDragShare * usualZeroLiftDrag
	}
}

// motionEvidence is what flights say of these: of derivatives what input manoeuvres determine, in each state of power, dihedral effect with steady
// sideslips. What rests on flights in which a stabiliser worked is weak and stays out.
//
// Measured pitch damping is Cm_q + (1 − κ·CL_q)·Cm_α̇ with κ = ρSc/4m, which differs from the sum by a few per cent of Cm_α̇.
func (s *Study) motionEvidence() []decide.Direct {
	if !movable(s.Program) {
		return nil
	}
	var out []decide.Direct
	for _, f := range s.Fits {
		for _, quantity := range motionDerivatives() {
			for _, r := range f.measuredBy(quantity) {
				if d, ok := direct(f, f.resting(r)); ok {
					out = append(out, s.atPredictionLift(d, r.Lift))
				}
			}
		}
		if d, ok := direct(f, f.ZeroLiftDrag); ok && dragAsked(s.Program) {
			out = append(out, d)
		}
	}
	return out
}

// measuredBy lists what manoeuvres say of a quantity in each state of power; of dihedral effect what all roads say together.
func (f Fit) measuredBy(quantity string) []estimate.Result {
	if quantity == evidence.DihedralEffect {
		return []estimate.Result{f.pooled(quantity)}
	}
	var out []estimate.Result
	for _, r := range f.Manoeuvres {
		if r.Quantity == quantity {
			out = append(out, r)
		}
	}
	return out
}

// direct is a measured number as the judging takes it; false when it is not determined.
func direct(f Fit, r estimate.Result) (decide.Direct, bool) {
	if r.State != estimate.Determined || r.Value == nil || r.SDOwn == nil {
		return decide.Direct{}, false
	}
	return decide.Direct{Levels: f.Levels, Quantity: r.Quantity, Value: *r.Value, SDOwn: *r.SDOwn, Common: r.Common, Degrees: r.Degrees,
		Flights: r.Flights, Power: r.Power}, true
}

// liftShare is one standard deviation of how far derivatives that grow with lift follow it, over following it in full. Common practice, no source.
const liftShare = 0.5

// atPredictionLift puts in doubt what was flown at another lift coefficient than that of the prediction: yaw due to roll, roll due to yaw and the sweep's
// share of dihedral effect grow with lift, to an extent that a lattice at one lift coefficient does not tell.
func (s *Study) atPredictionLift(d decide.Direct, lift float64) decide.Direct {
	switch d.Quantity {
	case evidence.YawDueToRoll, evidence.RollDueToYaw, evidence.DihedralEffect:
	default:
		return d
	}
	if lift == 0 {
		return d
	}
	d.Common = times(d.Common, 1)
	d.Common["lift coefficient of the flights"] = liftShare * d.Value * (lift/PredictionLift - 1)
	return d
}
