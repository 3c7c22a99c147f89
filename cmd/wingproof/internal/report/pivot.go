package report

import (
	"math"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
)

// pivotRow sets the roads to one number side by side.
type pivotRow struct {
	Configuration string
	Quantity      string
	At            string
	Measured      []cell
	Predicted     []cell
	Anchored      []cell
}

// cell is one estimate in words, with what a reader should know of it.
type cell struct{ Text, Note string }

// pivot groups estimates by configuration, quantity and CG, in the order in which they first appear within
// each configuration.
func pivot(estimates []evidence.Estimate, ratio float64) []pivotRow {
	type key struct {
		configuration, quantity, what string
		cg                            int
	}
	var configurations []string
	byConfiguration := map[string][]pivotRow{}
	index := map[key]int{}
	for _, e := range estimates {
		k := key{e.Configuration, e.Quantity, loadingOf(e), cgKey(e)}
		rows, seen := byConfiguration[e.Configuration]
		if !seen {
			configurations = append(configurations, e.Configuration)
		}
		i, known := index[k]
		if !known {
			i = len(rows)
			index[k] = i
			at := positionWords(e.At, ratio)
			if k.what != "" {
				at = strings.TrimSuffix(k.what+"; "+at, "; ")
			}
			rows = append(rows, pivotRow{Configuration: e.Configuration, Quantity: quantityWords(e.Quantity), At: at})
		}
		rows[i].take(e)
		byConfiguration[e.Configuration] = rows
	}
	var out []pivotRow
	for _, c := range configurations {
		out = append(out, byConfiguration[c]...)
	}
	return out
}

// cgKey is the CG to the millimetre where the number depends on it, else −1.
func cgKey(e evidence.Estimate) int {
	if e.At.CG == nil || (e.Quantity != evidence.StaticMargin && e.Quantity != "elevator_per_lift") {
		return -1
	}
	return int(math.Round(1000 * *e.At.CG))
}

// loadingOf reads the loading's name from the method of an estimate that belongs to a loading.
func loadingOf(e evidence.Estimate) string {
	if e.Method == nil || e.Quantity != evidence.StaticMargin {
		return ""
	}
	rest, found := strings.CutPrefix(*e.Method, `loading "`)
	name, _, closed := strings.Cut(rest, `"`)
	if !found || !closed {
		return ""
	}
	return name
}

func (r *pivotRow) take(e evidence.Estimate) {
	c := cell{Text: estimateWords(e), Note: noteOf(e)}
	switch e.Origin {
	case evidence.Measured:
		r.Measured = append(r.Measured, c)
	case evidence.Predicted:
		r.Predicted = append(r.Predicted, c)
	default:
		r.Anchored = append(r.Anchored, c)
	}
}

// noteOf names size, power and flights behind an estimate, and its first warning.
func noteOf(e evidence.Estimate) string {
	var parts []string
	switch {
	case e.Scale == evidence.FullSize:
		parts = append(parts, "full size")
	case e.Scale == evidence.ModelScale && e.Origin == evidence.Anchored:
		parts = append(parts, "model")
	}
	if e.Power != nil && e.Origin == evidence.Measured {
		parts = append(parts, "propeller "+*e.Power)
	}
	switch n := len(e.Flights); {
	case n == 1:
		parts = append(parts, "1 flight")
	case n > 1:
		parts = append(parts, number(float64(n), 0)+" flights")
	}
	if len(e.Warnings) > 0 {
		parts = append(parts, e.Warnings[0])
	}
	return strings.Join(parts, "; ")
}
