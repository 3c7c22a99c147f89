package decide

import (
	"math"
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
	ofChord, inDegrees        bool
	absolute                  bool // the numbers are hundredths of the coefficient's unit
	why                       string
}

// defaultErrorTable lists the default model errors in percent of the predicted value, or of the mean
// aerodynamic chord for the neutral point, in degrees for angles,
// or in hundredths of the coefficient itself where that may be about zero, so that a share of it would say nothing.
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
		{quantity: evidence.MaxLift, bias: 6, foreplane: 2, winglet: 0.5, other: 2, interaction: 1,
			reynolds: 4, power: 1, shape: 2,
			why: "the critical section stands for the whole foreplane, tip and root flow left out; what section data may be off by comes on top"},
		{quantity: evidence.StallOrderMargin, bias: 1.0, foreplane: 0.3, winglet: 0.2, other: 0.3, interaction: 0.2,
			reynolds: 0, power: 0.3, shape: 0.5, inDegrees: true,
			why: "the foreplane's downwash on the wing and flow along the span near the stall; computed at full size, section data on top"},
		{quantity: evidence.ZeroLiftElevator, bias: 1.5, foreplane: 0.5, winglet: 0.1, other: 0.5, interaction: 0.2,
			reynolds: 0.3, power: 0.5, shape: 0.5, inDegrees: true,
			why: "camber, twist and incidence as built, body's moment at zero lift left out"},
		{quantity: evidence.RotationMoment, bias: 8, foreplane: 3, winglet: 0.5, other: 2, interaction: 1,
			reynolds: 3, power: 2, shape: 2,
			why: "hinge gap and viscosity at full deflection, ground effect between foreplane and wing"},
	}
}

// derivativeErrorTable goes on with the derivatives that only the motions hang on.
//
// Pitch damping is Cm_q + Cm_α̇, of which steady theory gives Cm_q only. While the angle of attack grows, the foreplane's
// downwash reaches the wing the time l/V late, which adds Cm_α̇ = −2·ΔCL_α·(l/c)·(x/c), ΔCL_α the lift slope that the
// downwash takes off the wing, l from foreplane to wing, x from CG to where it is lost. A lift slope of 0.35, l = 2 c and x = 0.4 c
// give −0.6 beside a Cm_q of −6 to −9: a tenth of it at most, since downwash inboard and upwash outboard of the foreplane's
// tips partly cancel about the CG. What the flow about the wing itself lags is of that size too.
func derivativeErrorTable() []defaultError {
	return []defaultError{
		{quantity: evidence.PitchDamping, bias: 18, foreplane: 4, winglet: 1, other: 3, interaction: 2,
			reynolds: 2, power: 5, shape: 1,
			why: "15 % for body and foreplane wake, and 10 % because the foreplane's downwash reaches the wing late, which steady theory leaves out"},
		{quantity: evidence.SideForceSlope, bias: 25, foreplane: 2, winglet: 5, other: 4, interaction: 2,
			reynolds: 3, power: 5, shape: 3,
			why: "body and propeller left out, which push sideways about as much as small winglets"},
		{quantity: evidence.DihedralEffect, bias: 1.5, foreplane: 0.3, winglet: 0.5, other: 0.4, interaction: 0.2,
			reynolds: 0.2, power: 0.3, shape: 0.3, absolute: true,
			why: "about 15 % of what is usual; body beside the wing and its wake left out; sweep, winglets and dihedral may cancel, so no share of the value"},
		{quantity: evidence.RollDamping, bias: 7, foreplane: 1, winglet: 1, other: 1.5, interaction: 0.5,
			reynolds: 2, power: 2, shape: 1,
			why: "section lift slope and tip flow, as for the lift-curve slope and a little more"},
		{quantity: evidence.YawDamping, bias: 20, foreplane: 3, winglet: 5, other: 4, interaction: 3,
			reynolds: 3, power: 8, shape: 3,
			why: "body, propeller and profile drag left out"},
		{quantity: evidence.YawDueToRoll, bias: 2.0, foreplane: 0.2, winglet: 0.4, other: 0.3, interaction: 0.2,
			reynolds: 0.2, power: 0.5, shape: 0.2, absolute: true,
			why: "about 40 % of what is usual; grows with lift, leading-edge thrust in doubt; wing and winglets may cancel, so no share of the value"},
		{quantity: evidence.RollDueToYaw, bias: 15, foreplane: 3, winglet: 4, other: 3, interaction: 2,
			reynolds: 2, power: 5, shape: 2,
			why: "grows with lift; body and winglet height as drawn"},
	}
}

// DefaultErrors returns the model errors that stand where the program folder states none.
//
// meanChord [m] is the full-size mean aerodynamic chord, in which the neutral point's errors are stated.
// A choice whose name contains foreplane or winglet gets the level errors of that surface, any other
// choice a middling figure. The numbers are common practice, no source; each carries its reason.
func DefaultErrors(meanChord float64, choices []Choice) []TheoryError {
	table := append(defaultErrorTable(), derivativeErrorTable()...)
	errors := make([]TheoryError, len(table))
	for i, row := range table {
		unit := 0.01
		switch {
		case row.ofChord:
			unit *= meanChord
		case row.inDegrees:
			unit = math.Pi / 180
		}
		level := make(map[string]float64, len(choices))
		for _, choice := range choices {
			level[choice.Name] = unit * row.level(choice.Name)
		}
		errors[i] = TheoryError{
			Quantity: row.quantity, Relative: !row.ofChord && !row.inDegrees && !row.absolute,
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
