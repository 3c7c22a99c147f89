package report

import (
	"fmt"
	"math"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
)

// motionTable is what the flights of one configuration say of its motions, beside the prediction.
type motionTable struct {
	Configuration string
	Rows          []motionRow
}

// motionRow is one quantity: measured on the model, predicted for it, and what follows at full size where that was worked out.
type motionRow struct {
	Quantity                      string
	Measured, Predicted, FullSize cell
}

// motionQuantities are the derivatives and motions that a designer asks for first.
func motionQuantities() []string {
	return []string{"pitch_stiffness", "pitch_damping", "elevator_power", evidence.DirectionalStiffness, "dihedral_effect", "roll_damping", "yaw_damping",
		"rudder_power", "aileron_power", "short_period_frequency", "short_period_damping", "dutch_roll_frequency", "dutch_roll_damping",
		"roll_time_constant", "spiral_time_to_double"}
}

// motionTables gives a table for each configuration of which flights tell one of the quantities, in the order of the estimates.
func motionTables(estimates []evidence.Estimate) []motionTable {
	var out []motionTable
	seen := map[string]bool{}
	for _, e := range estimates {
		if seen[e.Configuration] {
			continue
		}
		seen[e.Configuration] = true
		if rows := motionRows(estimates, e.Configuration); len(rows) > 0 {
			out = append(out, motionTable{e.Configuration, rows})
		}
	}
	return out
}

func motionRows(estimates []evidence.Estimate, configuration string) []motionRow {
	var out []motionRow
	told := false
	for _, quantity := range motionQuantities() {
		measured := firstOf(estimates, configuration, quantity, evidence.Measured, evidence.ModelScale)
		predicted := firstOf(estimates, configuration, quantity, evidence.Predicted, evidence.ModelScale)
		full := firstOf(estimates, configuration, quantity, evidence.Measured, evidence.FullSize)
		if measured == nil && predicted == nil {
			continue
		}
		told = told || measured != nil && measured.Value != nil
		row := motionRow{Quantity: flownWords(quantity)}
		if measured != nil {
			row.Measured = cell{motionWords(*measured), motionNote(estimates, *measured, predicted)}
		}
		if predicted != nil {
			row.Predicted = cell{Text: motionWords(*predicted)}
		}
		if full != nil {
			row.FullSize = cell{Text: motionWords(*full)}
		}
		out = append(out, row)
	}
	if !told {
		return nil
	}
	if levels := handlingWords(estimates, configuration); levels != "" {
		out = append(out, motionRow{Quantity: handlingRow, FullSize: cell{Text: levels}})
	}
	return out
}

// firstOf is the first estimate of a kind that holds a number, else the first of the kind; nil without one. Of several roads to a number
// that is what they say together, where they could be pooled.
func firstOf(estimates []evidence.Estimate, configuration, quantity, origin, scale string) *evidence.Estimate {
	var found *evidence.Estimate
	for i, e := range estimates {
		if e.Configuration != configuration || e.Quantity != quantity || e.Origin != origin || e.Scale != scale {
			continue
		}
		if e.Value != nil {
			return &estimates[i]
		}
		if found == nil {
			found = &estimates[i]
		}
	}
	return found
}

// motionNote tells how many flights and roads stand behind a measured number, and where it refers to another CG than the prediction.
func motionNote(estimates []evidence.Estimate, e evidence.Estimate, predicted *evidence.Estimate) string {
	const apart = 0.005 // m at full size
	parts := []string{}
	if words := restsOn(e); words != "" {
		parts = append(parts, words)
	}
	roads := 0
	for _, other := range estimates {
		if other.Configuration == e.Configuration && other.Quantity == e.Quantity && other.Origin == e.Origin && other.Scale == e.Scale && other.Value != nil && roadOf(other) != "all roads together" {
			roads++
		}
	}
	switch {
	case roads > 1 && roadOf(e) == "all roads together":
		parts = append(parts, fmt.Sprintf("%d roads together", roads))
	case roads > 1:
		parts = append(parts, fmt.Sprintf("%s, one of %d roads", roadOf(e), roads))
	}
	if predicted != nil && byCG(e.Quantity) && e.At.CG != nil && predicted.At.CG != nil && math.Abs(*e.At.CG-*predicted.At.CG) > apart {
		parts = append(parts, fmt.Sprintf("about %s m, the prediction about %s m", number(*e.At.CG, 3), number(*predicted.At.CG, 3)))
	}
	return strings.Join(parts, "; ")
}

// motionWords is a number with its interval; the caption says that derivatives are per radian. A number without an interval says so.
func motionWords(e evidence.Estimate) string {
	words := fitValue(e, e.Unit == "1/rad")
	if e.Value != nil && e.State != evidence.NotDetermined && e.Low == nil && e.High == nil {
		_, k := shown(e.Unit)
		words = figures(k**e.Value, 3) + ", no error stated"
	}
	return words
}

// byCG tells whether a derivative of the motion tables moves with the CG: yawing and pitching moments do.
func byCG(quantity string) bool {
	switch quantity {
	case "pitch_stiffness", "pitch_damping", "elevator_power", evidence.DirectionalStiffness, "yaw_damping", "rudder_power":
		return true
	}
	return false
}
