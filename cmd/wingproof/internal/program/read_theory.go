package program

import (
	"wingproof/cmd/wingproof/internal/evidence"
)

// theoryQuantities lists the quantities whose default model error a program may override. Percent are of the predicted value; of the mean
// aerodynamic chord for the neutral point; of 1 for dihedral effect and yaw due to roll, which may be about zero.
func theoryQuantities() []string {
	return []string{evidence.NeutralPoint, evidence.ElevatorTrimRate, evidence.DirectionalStiffness, evidence.LiftCurveSlope,
		evidence.ZeroLiftDrag, evidence.RootBendingMoment,
		evidence.MaxLift, evidence.RotationMoment,
		evidence.PitchDamping, evidence.SideForceSlope, evidence.DihedralEffect, evidence.RollDamping, evidence.YawDamping,
		evidence.YawDueToRoll, evidence.RollDueToYaw}
}

// readTheoryErrors reads overrides of the default model errors. An override states every part, since a
// part that is left out would count as no error at all.
func (l *loader) readTheoryErrors(all []*scope) {
	for _, s := range all {
		quantity, ok := known(s.v.text, theoryQuantities())
		if !ok {
			s.wrong(s.v.at, "there is no theory error of "+quoted(s.v.text), suggest(s.v.text, theoryQuantities(), "quantity"))
			continue
		}
		e := TheoryError{Quantity: quantity}
		e.Bias, _ = s.number(percent("bias", 0, 200).required())
		e.Interaction, _ = s.number(percent("interaction", 0, 200).required())
		e.Level = s.shares("level_percent", l.choiceNames())
		e.FullSize = s.shares("full_size_percent", []string{"reynolds", "power", "shape"})
		e.Source, _ = s.text("source", true)
		s.done()
		l.p.TheoryErrors = append(l.p.TheoryErrors, e)
	}
}

// shares reads a table of percentages with one entry for each of the names.
func (s *scope) shares(name string, names []string) map[string]float64 {
	sub := s.group(name, name, len(names) > 0)
	out := map[string]float64{}
	if sub == nil {
		return out
	}
	for _, n := range names {
		v := sub.ask(n, true, n+" = 1.5, in percent; 0 where there is none")
		if v == nil || !sub.form(v, n, numberForm) {
			continue
		}
		if !(v.number >= 0 && v.number <= 200) {
			sub.wrong(v.at, n+" = "+v.text+" is out of range", "write percent from 0 to 200")
			continue
		}
		out[n] = v.number / 100
	}
	sub.done()
	return out
}
