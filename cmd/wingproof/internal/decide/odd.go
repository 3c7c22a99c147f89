package decide

import (
	"fmt"
	"math"
	"strings"
)

// mostAtOdds names, where flights disagree with theory, the measured number that stands out most: the
// greatest innovation in units of the standard deviation that theory and flight as stated give it. One number
// alone need not be at fault, since all of them share the errors of the lattice.
func mostAtOdds(t *theory, o *observations, a Agreement, lengthRatio float64) (string, error) {
	if a.Inflation <= 1 || len(o.rows) == 0 {
		return "", nil
	}
	b, err := anchor(t, o)
	if err != nil {
		return "", err
	}
	innovation, spread := b.innovation(), b.innovationCovariance()
	worst, deviation := 0, 0.0
	for j := range o.rows {
		if variance := spread.At(j, j); variance > 0 {
			if d := math.Abs(innovation.AtVec(j)) / math.Sqrt(variance); d > deviation {
				worst, deviation = j, d
			}
		}
	}
	return fmt.Sprintf("what stands out most: %s, %.1f standard deviations from what theory expects", o.name(worst, t, lengthRatio), deviation), nil
}

// name writes what an observation measured, in which configuration, and the flights behind it.
func (o *observations) name(j int, t *theory, lengthRatio float64) string {
	row := o.rows[j]
	text := "trim slope"
	if !row.trim {
		text = plainName(t.quantities[row.quantity])
	}
	text += " of " + t.space.configs[row.config].name
	if row.trim {
		text += " with the centre of gravity at " + station(row.cg, lengthRatio)
	}
	if flights := o.recordOf(j).flights; len(flights) > 0 {
		text += " (flights " + strings.Join(flights, ", ") + ")"
	}
	return text
}

// recordOf finds the record that an observation belongs to.
func (o *observations) recordOf(j int) record {
	for _, r := range o.records {
		if j < len(r.rows) {
			return r
		}
		j -= len(r.rows)
	}
	return record{}
}

// agreementInFull is the agreement with what stands out most.
func (o *outcome) agreementInFull() Agreement {
	a := o.agreement
	if o.odd != "" {
		a.Text += "; " + o.odd
	}
	return a
}
