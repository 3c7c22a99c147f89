package decide

import (
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
)

const (
	practice = "common practice, no source"

	kindForeplane = "foreplane"
	kindWinglet   = "winglet"
	kindOther     = "other"
)

// defaultError is a row of the table of default model errors; numbers are percent.
type defaultError struct {
	quantity                  string
	bias                      float64
	foreplane, winglet, other float64
	interaction               float64
	reynolds, power, shape    float64
	ofChord                   bool
	why                       string
}

// defaultErrorTable lists the default model errors in percent of the predicted value, or of the mean
// aerodynamic chord for the neutral point.
func defaultErrorTable() []defaultError {
	return []defaultError{
		{quantity: evidence.NeutralPoint, bias: 2.0, foreplane: 0.8, winglet: 0.3, other: 0.5, interaction: 0.2,
			reynolds: 0.5, power: 1.0, shape: 0.5, ofChord: true,
			why: "body left out, wake direction, foreplane wake at the wing; power is the step from idle to full"},
		{quantity: evidence.ElevatorTrimRate, bias: 15, foreplane: 4, winglet: 1, other: 2, interaction: 1,
			reynolds: 5, power: 5, shape: 2,
			why: "hinge gap and viscosity take 10 to 30 % of a flap's effect"},
		{quantity: evidence.DirectionalStiffness, bias: 10, foreplane: 2, winglet: 4, other: 3, interaction: 2,
			reynolds: 3, power: 5, shape: 3,
			why: "body and propeller left out, winglet root not exactly as drawn"},
		{quantity: evidence.LiftCurveSlope, bias: 3, foreplane: 1, winglet: 0.7, other: 1, interaction: 0.5,
			reynolds: 2, power: 1, shape: 1,
			why: "boundary layer takes a few per cent off the section slope"},
		{quantity: evidence.TrimmedLiftSlope, bias: 4, foreplane: 1.5, winglet: 0.7, other: 1, interaction: 0.5,
			reynolds: 2, power: 1, shape: 1,
			why: "as the lift-curve slope, and the elevator's share"},
		{quantity: evidence.ZeroLiftDrag, bias: 15, foreplane: 3, winglet: 3, other: 3, interaction: 1,
			reynolds: 10, power: 0, shape: 5,
			why: "transition, junctions and finish; the propeller is excluded"},
		{quantity: evidence.RootBendingMoment, bias: 4, foreplane: 1, winglet: 2, other: 1.5, interaction: 1,
			reynolds: 1, power: 0, shape: 3,
			why: "wake direction and span load at the tip; shape includes twist under load"},
	}
}

// DefaultErrors returns the model errors that stand where the program folder states none.
//
// meanChord [m] is the full-size mean aerodynamic chord, in which the neutral point's errors are stated.
// A choice whose name contains foreplane or winglet gets the level errors of that surface, any other
// choice a middling figure. The numbers are common practice, no source; each carries its reason.
func DefaultErrors(meanChord float64, choices []Choice) []TheoryError {
	table := defaultErrorTable()
	errors := make([]TheoryError, len(table))
	for i, row := range table {
		unit := 0.01
		if row.ofChord {
			unit *= meanChord
		}
		level := make(map[string]float64, len(choices))
		for _, choice := range choices {
			level[choice.Name] = unit * row.level(choice.Name)
		}
		errors[i] = TheoryError{
			Quantity: row.quantity, Relative: !row.ofChord,
			Bias: unit * row.bias, Level: level, Interaction: unit * row.interaction,
			FullSize: map[string]float64{"reynolds": unit * row.reynolds, "power": unit * row.power, "shape": unit * row.shape},
			Source:   practice + ": " + row.why,
		}
	}
	return errors
}

// level returns the level error for a choice, by what its name says that it shapes.
func (d defaultError) level(choice string) float64 {
	switch kindOf(choice) {
	case kindForeplane:
		return d.foreplane
	case kindWinglet:
		return d.winglet
	default:
		return d.other
	}
}

// kindOf tells foreplane and winglet choices from others by their name.
func kindOf(name string) string {
	name = strings.ToLower(name)
	switch {
	case strings.Contains(name, kindForeplane):
		return kindForeplane
	case strings.Contains(name, kindWinglet):
		return kindWinglet
	default:
		return kindOther
	}
}
