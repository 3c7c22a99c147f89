package report

import (
	"math"
	"strconv"
	"strings"

	"wingproof/plots"
)

// pointLines writes the points of a drawing as its page carries them: a line each, "across down what it says", in the units of the drawing.
func pointLines(points []plots.Point) string {
	lines := make([]string, len(points))
	for i, p := range points {
		lines[i] = tenth(p.X) + " " + tenth(p.Y) + " " + strings.Join(strings.Fields(p.Text), " ")
	}
	return strings.Join(lines, "\n")
}

// tenth is a length in tenths of a unit, which no pointer tells apart; a whole one stands without its nought.
func tenth(x float64) string {
	return strconv.FormatFloat(math.Round(10*x)/10, 'f', -1, 64)
}
