package report

import (
	"fmt"
	"math"
	"strings"

	"wingproof/cmd/wingproof/internal/plan"
)

// planRow is one line of a sheet's head.
type planRow struct{ Head, Text string }

func planTitle(s plan.Sheet) string {
	return fmt.Sprintf("Test sheet %d of %d: flight %s, %s", s.Number, s.Of, s.Flight, planConfiguration(s))
}

func planConfiguration(s plan.Sheet) string {
	if len(s.Levels) == 0 {
		return "the one configuration"
	}
	return strings.ReplaceAll(strings.ReplaceAll(s.Configuration, "=", " "), ",", ", ")
}

// planHead is what stands above the cards.
func planHead(p plan.Plan, s plan.Sheet) []planRow {
	rows := []planRow{
		{"CG", planPlace(s.CG)},
		{"Model", fmt.Sprintf("%s kg (%s); %s", number(s.Mass, 2), s.MassSource, s.Ballast)},
		{"Aft limit", "do not fly aft of " + planPlace(s.AftLimit) + ": " + s.LimitRule},
		{"Neutral point", fmt.Sprintf("%s, ± %s mm (model, one standard deviation); %s", planPlace(s.NeutralPoint), number(1000*s.NeutralPointSD*s.NeutralPoint.Model/s.NeutralPoint.FullSize, 1), s.NeutralPointWords)},
		{"Static margin", fmt.Sprintf("%s %% of chord at this CG, %s %% with two standard deviations off", number(s.Margin, 1), number(s.LeastMargin, 1))},
		{"Stalling speed", fmt.Sprintf("%s ± %s m/s, maximum lift %s ± %s %s", planSpeed(s.Stalling), number(s.StallingSD, 1), number(s.MaxLift, 2), number(s.MaxLiftSD, 2), s.MaxLiftSource)},
		{"Airspeed", "speeds are those on the display, calibrated beside it where they differ. " + p.Airspeed},
		{"Stop", "each card names the lowest height, the most bank and the slowest and fastest display. Also: " + planElevator(s) + ". Never exceed " + planSpeed(planExceed(s)) + "."},
	}
	if s.From != nil {
		rows = append(rows, planRow{"On the way aft", planSteps(s)})
	}
	return append(rows, planRow{"After this flight", "look at the log before the next: wingproof look LOG"})
}

// planSteps says where to stop on the way, and what to do there.
func planSteps(s plan.Sheet) string {
	var at []string
	for _, x := range s.Steps {
		at = append(at, planMillimetres(x.Model))
	}
	count := "one step"
	if len(at) > 1 {
		count = fmt.Sprintf("%d steps", len(at))
	}
	return fmt.Sprintf("from %s mm not in one go: %s, at %s mm (model), each a short flight of its own with cards %s. After each step look at the log before the next (wingproof look LOG).",
		planMillimetres(s.From.Model), count, strings.Join(at, ", "), planNumbers(s.Checks))
}

func planNumbers(list []int) string {
	var words []string
	for _, n := range list {
		words = append(words, fmt.Sprint(n))
	}
	return strings.Join(words, ", ")
}

// planFly says how fast, at which lift, from where and how often.
func planFly(c plan.Card) string {
	words := planSpeed(c.Shown)
	if number(c.Speed, 1) != number(c.Shown, 1) {
		words = strings.TrimSuffix(words, ")") + "; calibrated " + number(c.Speed, 1) + ")"
	}
	if c.Manoeuvre == "deceleration" {
		words = "begin at " + words
	}
	return fmt.Sprintf("%s, CL %s, from %s m, %s", words, number(c.Lift, 2), number(c.Entry, 0), planOften(c))
}

func planOften(c plan.Card) string {
	switch c.Repeats {
	case 1:
		return "once"
	case 2:
		return "twice"
	}
	return fmt.Sprintf("%d times", c.Repeats)
}

// planStop is the limits of one card as the display shows them; the elevator's stand at the head of the sheet.
func planStop(c plan.Card) string {
	k := c.Shown / c.Speed
	words := fmt.Sprintf("below %s m, bank over %s°, ", number(c.Stop.Lowest, 0), number(c.Stop.Bank*180/math.Pi, 0))
	if c.Stop.Slowest != nil {
		words += "under " + number(k**c.Stop.Slowest, 1) + " or "
	}
	return words + "over " + number(k*c.Stop.Fastest, 1) + " m/s, elevator 3° from its stop"
}

// planElevator is the elevator's limit of a sheet, the same on all its cards.
func planElevator(s plan.Sheet) string { return s.Cards[0].Stop.Elevator }

// planExceed is the never-exceed speed of a sheet, calibrated.
func planExceed(s plan.Sheet) float64 { return s.Cards[0].Stop.Fastest }

// planPlace writes a station at both sizes.
func planPlace(x plan.Place) string {
	return fmt.Sprintf("%s mm (model), %s m full size, %s %% of chord", planMillimetres(x.Model), number(x.FullSize, 3), number(x.Percent, 1))
}

// planMillimetres writes a station of the model: whole millimetres where it lies on one, else a tenth, never farther aft than it is.
func planMillimetres(x float64) string {
	tenths := math.Floor(1e4*x + 1e-4)
	if math.Mod(tenths, 10) == 0 {
		return number(tenths/10, 0)
	}
	return number(tenths/10, 1)
}

func planSpeed(v float64) string {
	const kmh, knots = 3.6, 3600.0 / 1852
	return fmt.Sprintf("%s m/s (%s km/h, %s kt)", number(v, 1), number(v*kmh, 0), number(v*knots, 0))
}
