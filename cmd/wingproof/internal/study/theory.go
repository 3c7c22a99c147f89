package study

import (
	"math"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/program"
)

// TheoryErrors are the model errors that a program is judged with: its own where it states them, else the
// defaults. meanChord [m] is the full-size mean aerodynamic chord, which the neutral point's are fractions of.
func TheoryErrors(p *program.Program, meanChord float64) []decide.TheoryError {
	all := decide.DefaultErrors(meanChord, decideChoices(p))
	for i, e := range all {
		for _, own := range p.TheoryErrors {
			if own.Quantity == e.Quantity {
				all[i] = override(own, e.Relative, meanChord)
			}
		}
	}
	return all
}

func override(own program.TheoryError, relative bool, meanChord float64) decide.TheoryError {
	unit := 1.0
	if own.Quantity == evidence.NeutralPoint {
		unit = meanChord
	}
	out := decide.TheoryError{Quantity: own.Quantity, Relative: relative, Bias: unit * own.Bias, Interaction: unit * own.Interaction,
		Level: map[string]float64{}, FullSize: map[string]float64{}, Source: own.Source}
	for name, share := range own.Level {
		out.Level[name] = unit * share
	}
	for name, share := range own.FullSize {
		out.FullSize[name] = unit * share
	}
	return out
}

func decideChoices(p *program.Program) []decide.Choice {
	choices := make([]decide.Choice, len(p.Choices))
	for i, c := range p.Choices {
		choices[i] = decide.Choice{Name: c.Name, Baseline: c.Baseline}
		for _, l := range c.Levels {
			choices[i].Levels = append(choices[i].Levels, l.Name)
		}
	}
	return choices
}

// ModelError splits the error of a prediction the way the theory's errors are stated: what is the configuration's own,
// and by name what it shares with others, the bias with all of them and each level's error with those of that level.
// At full size the errors of the way there come on top. ok is false when no error is stated for the quantity.
func ModelError(errors []decide.TheoryError, levels map[string]string, quantity string, value float64, scale string) (own float64, common map[string]float64, ok bool) {
	for _, e := range errors {
		if e.Quantity != quantity {
			continue
		}
		size := 1.0
		if e.Relative {
			size = math.Abs(value)
		}
		common = map[string]float64{"theory bias of " + quantity: size * e.Bias}
		for choice, level := range levels {
			common["theory "+choice+"="+level+" of "+quantity] = size * e.Level[choice]
		}
		if scale == evidence.FullSize {
			for step, sd := range e.FullSize {
				common["full size "+step+" of "+quantity] = size * sd
			}
		}
		return size * e.Interaction, withoutZeros(common), true
	}
	return 0, nil, false
}

func withoutZeros(common map[string]float64) map[string]float64 {
	out := map[string]float64{}
	for name, sd := range common {
		if sd != 0 {
			out[name] = sd
		}
	}
	return out
}

// times scales the effects of shared sources; the map given stays as it is.
func times(common map[string]float64, factor float64) map[string]float64 {
	out := make(map[string]float64, len(common))
	for name, sd := range common {
		out[name] = factor * sd
	}
	return out
}

// predictedQuantities lists what is predicted of a configuration: the numbers of its analysis with the directional stiffness
// about StiffnessCG, and the root bending moment.
func (c Configuration) predictedQuantities() []prediction.Number {
	var out []prediction.Number
	for _, n := range c.Analysis.Numbers {
		switch n.Quantity {
		case prediction.LiftCoefficient, prediction.PitchingMoment, evidence.StaticMargin: // the condition, and margins have a list of their own
			continue
		case evidence.DirectionalStiffness:
			n.Value = c.DirectionalStiffness
		}
		out = append(out, n)
	}
	root := prediction.Number{Quantity: evidence.RootBendingMoment, Unit: "N·m", Value: math.NaN(), Grid: math.NaN()}
	if len(c.Bending) > 0 {
		root.Value = c.Bending[0]
	}
	return append(out, root)
}
