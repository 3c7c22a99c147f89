package prediction

import (
	"math"

	"wingproof/cmd/wingproof/internal/program"
)

// fuselageFrictionError is the relative standard deviation of a fuselage's friction: where it turns turbulent, its finish, its joints. Common
// practice, no source.
const fuselageFrictionError = 0.15

// DragStep is how the drag coefficient at no lift changes from the model to full size by Reynolds number alone.
type DragStep struct {
	Known       bool
	Model, Full float64 // coefficients of what is counted: lifting surfaces and, where it is stated, the fuselage
	Step        float64 // Full − Model
	Deviation   float64 // standard deviation of Step; errors that both sizes share cancel
	Missing     []string
}

// ZeroLiftDragStep finds it at the speeds at which model and full size fly at the setup's lift coefficient, the model ballasted to dynamic
// similarity at the altitude of its field, full size at sea level and gross mass.
//
// Profile drag of the lifting surfaces by strips in trim at no lift, from polars or from friction and form (ProfileDrag), and friction of the
// fuselage. Gear, cooling, gaps, junctions and the propeller are left out, as if their coefficients were the
// same at both sizes. The step is not known without a length ratio or a gross mass.
func ZeroLiftDragStep(p *program.Program, sections *Sections, a *Analysis, s Setup) (DragStep, error) {
	var out DragStep
	if !(p.FullSize.Mass.Value > 0 && p.Model.LengthRatio > 0) {
		out.Missing = []string{"zero-lift drag at full size needs full_size.mass_kg and model.length_ratio"}
		return out, nil
	}
	sizes, err := sizesOf(p)
	if err != nil {
		return out, err
	}
	area := a.Solution.Reference().Area
	var drags [2]LiftingDrag
	var bodies [2]float64
	for i, size := range sizes { // the model comes first
		c := DragCondition{Name: sizeWords(size.size) + " at no lift", Size: size.size, Ratio: size.ratio, Air: size.air}
		c.Speed = size.speed(s.lift(), size.weight(p.FullSize.Mass.Value), area)
		if drags[i], err = ProfileDrag(sections, a, s, c); err != nil {
			return out, err
		}
		bodies[i] = FuselageDrag(s.Body, size.reynolds(c.Speed, 1))
	}
	step, deviation := drags[1].Profile.Minus(drags[0].Profile)
	body := bodies[1] - bodies[0]
	out.Known = true
	out.Model, out.Full = (drags[0].Profile.Drag+bodies[0])/area, (drags[1].Profile.Drag+bodies[1])/area
	out.Step, out.Deviation = (step+body)/area, math.Hypot(deviation, fuselageFrictionError*body)/area
	if s.Body == nil {
		out.Missing = append(out.Missing, "the fuselage's friction is not in the step of zero-lift drag to full size: add [fuselage]")
	}
	for _, w := range drags[1].Profile.Warnings {
		out.Missing = append(out.Missing, "zero-lift drag at full size: "+w.String())
	}
	return out, nil
}
