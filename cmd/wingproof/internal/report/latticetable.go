package report

import (
	"fmt"
	"io"
	"math"
	"slices"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/prediction"
)

// PredictedRow is one predicted quantity.
type PredictedRow struct {
	Quantity  string
	Unit      string
	Value     float64 // NaN leaves the row out
	Grid      float64 // error of the grid; NaN when it was not estimated
	Low, High float64 // 95 % with the stated error of theory; NaN where none is stated
	Note      string  // what is particular to this row, such as another moment point
}

// PredictedGroup is one configuration.
type PredictedGroup struct {
	Name     string
	Rows     []PredictedRow
	Warnings []string
}

// LatticeTable writes predictions as text no wider than width columns (100 when width is 0): the condition, then each
// configuration with the error of the grid and, apart from it, the error of the theory.
func LatticeTable(w io.Writer, head LatticeHead, groups []PredictedGroup, width int) error {
	if err := head.write(w, width); err != nil {
		return err
	}
	for i, g := range groups {
		if i > 0 {
			if _, err := fmt.Fprintln(w); err != nil {
				return err
			}
		}
		if err := paragraph(w, plain(g.Name), width); err != nil {
			return err
		}
		t := textTable{heads: []string{"quantity", head.valueHead("value"), "unit", "by the error of theory, 95 %"}, most: []int{46, 22, 14, 0}}
		for _, r := range g.Rows {
			if math.IsNaN(r.Value) {
				continue
			}
			unit, k := shown(r.Unit)
			t.add(plain(latticeWords(r.Quantity)+noted(r.Note)), gridNumber(r.Value, r.Grid, k), unit, theoryWords(r.Low, r.High, k))
		}
		if err := t.write(w, width); err != nil {
			return err
		}
	}
	return warnOnce(w, groups, width)
}

func noted(note string) string {
	if note == "" {
		return ""
	}
	return ", " + note
}

// warnOnce writes each warning once, with the configurations that it concerns where it is not all of them.
func warnOnce(w io.Writer, groups []PredictedGroup, width int) error {
	var order []string
	concerns := map[string][]string{}
	for _, g := range groups {
		for _, warning := range g.Warnings {
			if !slices.Contains(order, warning) {
				order = append(order, warning)
			}
			if !slices.Contains(concerns[warning], g.Name) {
				concerns[warning] = append(concerns[warning], g.Name)
			}
		}
	}
	for i, warning := range order {
		if i == 0 {
			if _, err := fmt.Fprintln(w); err != nil {
				return err
			}
		}
		line := "look at: " + plain(warning)
		if n := len(concerns[warning]); n < len(groups) {
			line += " (" + plain(joinedWords(concerns[warning])) + ")"
		}
		if err := paragraph(w, line, width); err != nil {
			return err
		}
	}
	return nil
}

func joinedWords(names []string) string {
	out := ""
	for i, n := range names {
		if i > 0 {
			out += "; "
		}
		out += n
	}
	return out
}

// latticeWords says a quantity with the symbol that aerodynamicists know it by.
func latticeWords(quantity string) string {
	switch quantity {
	case prediction.InducedDrag:
		return "induced drag coefficient, far field"
	case prediction.SpanEfficiency:
		return "span efficiency, on the reference span"
	case prediction.BestSpanEfficiency:
		return "best span efficiency that the trace allows"
	case prediction.LiftCoefficient:
		return "lift coefficient CL"
	case prediction.PitchingMoment:
		return "pitching moment Cm"
	case prediction.TrimElevator:
		return "elevator in trim, trailing edge down"
	case evidence.NeutralPoint:
		return "neutral point, aft of datum"
	case evidence.NeutralPointPercent:
		return "neutral point, of the mean chord"
	case evidence.StaticMargin:
		return "static margin, of the mean chord"
	case evidence.LiftCurveSlope:
		return "lift curve slope, elevator fixed, CL_α"
	case prediction.ElevatorPerLift:
		return "elevator per lift in trim, dδe/dCL"
	case evidence.ElevatorTrimRate:
		return "elevator trim rate per metre of CG travel"
	case evidence.RootBendingMoment:
		return "bending in the plane of symmetry, limit load, no relief"
	}
	return quantityWords(quantity)
}
