package report

import (
	"math"
	"strings"
)

// exact is the grid error, relative to the value, below which a number does not depend on the grid.
const exact = 1e-9

// gridNumber writes value ± grid with the digits that the error leaves: two where it begins with 1, else one. Without an
// error it is the value alone, to five figures; factor carries both to the unit shown.
func gridNumber(value, grid, factor float64) string {
	value, grid = factor*value, math.Abs(factor*grid)
	switch {
	case math.IsNaN(value):
		return "none"
	case math.IsNaN(grid) || grid < exact*math.Max(1, math.Abs(value)):
		return trimmedFigures(value, 5)
	}
	decimals := errorDecimals(grid)
	return number(value, decimals) + " ± " + number(grid, decimals)
}

// signedGrid is gridNumber of a difference, with its sign.
func signedGrid(value, grid, factor float64) string {
	words := gridNumber(value, grid, factor)
	if factor*value > 0 && !strings.HasPrefix(words, "0 ") && words != "0" {
		return "+" + words
	}
	return words
}

// errorDecimals shows an error to one figure, or to two where it begins with 1.
func errorDecimals(size float64) int {
	exponent := math.Floor(math.Log10(size))
	if size/math.Pow(10, exponent) < 1.95 {
		exponent--
	}
	return int(max(0, min(8, -exponent)))
}

// trimmedFigures is figures without zeros at the end; what round-off leaves of nothing is 0.
func trimmedFigures(x float64, n int) string {
	if math.Abs(x) < 1e-12 {
		return "0"
	}
	s := figures(x, n)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// theoryWords writes a 95 % interval with the digits that its width leaves; nothing where none is stated.
func theoryWords(low, high, factor float64) string {
	low, high = factor*low, factor*high
	if math.IsNaN(low) || math.IsNaN(high) {
		return ""
	}
	decimals := 3
	if size := (high - low) / 10; size > 0 {
		decimals = errorDecimals(size)
	}
	return number(low, decimals) + " to " + number(high, decimals)
}
