package report

import (
	"math"
	"strconv"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
)

// number writes x with a true minus sign.
func number(x float64, decimals int) string {
	s := strconv.FormatFloat(x, 'f', decimals, 64)
	if strings.Trim(s, "-0.") == "" {
		s = strings.TrimPrefix(s, "-")
	}
	return strings.Replace(s, "-", "−", 1)
}

// figures writes x with about n significant figures, never in powers of ten.
func figures(x float64, n int) string {
	if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return number(x, 0)
	}
	return number(x, max(0, min(8, n-1-int(math.Floor(math.Log10(math.Abs(x)))))))
}

// shown turns an SI unit into the one that people read, with its factor.
func shown(unit string) (words string, factor float64) {
	const degree = 180 / math.Pi
	switch unit {
	case "rad":
		return "°", degree
	case "rad/m":
		return "° per m", degree
	case "1/rad":
		return "per rad", 1
	case "1", "-", "":
		return "", 1
	}
	return unit, 1
}

// estimateWords writes an estimate as "4.61 (4.40 to 4.82) per rad".
func estimateWords(e evidence.Estimate) string {
	if e.State == evidence.NotDetermined || e.Value == nil {
		return "not determined"
	}
	unit, k := shown(e.Unit)
	decimals := decimalsOf(e, k)
	s := number(k**e.Value, decimals)
	switch {
	case e.Low != nil && e.High != nil:
		s += " (" + number(k**e.Low, decimals) + " to " + number(k**e.High, decimals) + ")"
	case e.Low != nil:
		s += " (above " + number(k**e.Low, decimals) + ")"
	case e.High != nil:
		s += " (below " + number(k**e.High, decimals) + ")"
	}
	if unit != "" {
		s = strings.TrimSpace(s + " " + unit)
	}
	if e.State == evidence.Weak {
		s += ", weak"
	}
	return s
}

// decimalsOf shows the width of the interval to two figures, or the value to four.
func decimalsOf(e evidence.Estimate, k float64) int {
	size := math.Abs(k**e.Value) / 100
	if e.Low != nil && e.High != nil && *e.High > *e.Low {
		size = k * (*e.High - *e.Low)
	}
	if size <= 0 || math.IsInf(size, 0) || math.IsNaN(size) {
		return 3
	}
	return max(0, min(6, int(math.Ceil(0.99-math.Log10(size)))))
}

// positionWords writes a CG at both sizes and in percent of the chord.
func positionWords(at evidence.At, ratio float64) string {
	if at.CG == nil {
		return ""
	}
	s := cgWords(*at.CG, ratio)
	if at.CGPercent != nil {
		s += ", " + number(*at.CGPercent, 1) + " % of chord"
	}
	return s
}

// cgWords writes a position aft of datum at full size and, where the ratio is known, on the model.
func cgWords(x, ratio float64) string {
	if x == 0 {
		return "not stated"
	}
	s := number(x, 3) + " m"
	if ratio > 0 {
		s += " (model " + number(1000*x*ratio, 0) + " mm)"
	}
	return s
}

// percentWords writes a probability; near certainty is not rounded up to certainty.
func percentWords(p float64) string {
	switch {
	case math.IsNaN(p):
		return "unknown"
	case p > 0.999:
		return "over 99.9 %"
	case p < 0.001:
		return "under 0.1 %"
	}
	return number(100*p, 1) + " %"
}
