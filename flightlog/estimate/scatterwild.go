package estimate

import (
	"fmt"
	"math"
)

const (
	// alike is the relative difference of distance below which two flights are equally far off: two flights that disagree at one CG
	// cannot tell which of them is wrong.
	alike = 0.02
	// leastOwn is the share of its own residual that a number must keep for its distance to mean anything.
	leastOwn = 1e-6
)

// playDownNumbers finds flights whose number lies far from their configuration's line, the farthest first, and plays them down by their
// distance in standard deviations that the other flights of all configurations show, as a wild point is. Few flights tell that standard
// deviation badly, so the distance from which it is done grows as they get fewer (farLimit). Nothing is left out of a line; the scatter that
// is returned is that of the others.
//
// Source: leaving a flight out of its own yardstick, R. D. Cook and S. Weisberg, Residuals and Influence in Regression, Chapman and
// Hall 1982, section 2.2 (from memory); for the weights see playDown.
func playDownNumbers(sets [][]number, sigma2 float64) ([][]number, component) {
	out := make([][]number, len(sets))
	for i, set := range sets {
		out[i] = append([]number(nil), set...)
	}
	for {
		c := estimateComponent(out, sigma2)
		chi, degrees := chiSquare(out, c.variance)
		i, z := farthestNumbers(out, c, func(left float64) float64 { return math.Sqrt(math.Max(0, chi-left) / (degrees - 1)) })
		if i < 0 || !(degrees-1 >= 1) || !mark(out[i], z, farLimit(degrees-1)) {
			return out, c
		}
	}
}

// playDownUnder is playDownNumbers for one configuration with a known yardstick. few is false when more than a quarter of the flights lie
// far: then it is the yardstick that does not fit. One flight, or two that disagree, are always few.
func playDownUnder(set []number, c component) (out []number, few bool) {
	out = append([]number(nil), set...)
	if c.factor <= 0 || c.degrees < 1 {
		return out, true
	}
	for rounds := 1; ; rounds++ {
		i, z := farthestNumbers([][]number{out}, c, func(float64) float64 { return math.Sqrt(c.factor) })
		if i < 0 || !mark(out, z, farLimit(c.degrees)) {
			return out, true
		}
		if 4*rounds > max(4, len(set)) {
			return append([]number(nil), set...), false
		}
	}
}

// farthestNumbers is the distance of every number of the set that holds the farthest one; -1 where none can be told. yardstick
// turns the square that a number leaves behind into the standard deviation of the others.
func farthestNumbers(sets [][]number, c component, yardstick func(left float64) float64) (set int, distance []float64) {
	set = -1
	most := 0.0
	for i, numbers := range sets {
		if len(numbers) < leastToTell {
			continue
		}
		l, err := fitInCG(numbers, c.variance)
		if err != nil {
			continue
		}
		z := make([]float64, len(numbers))
		far := 0.0
		for j, n := range numbers {
			if own := 1 - l.leverage[j]; own > leastOwn && n.distance == 0 {
				left := square(l.residuals[j]) / (c.variance(n) * own)
				z[j] = math.Sqrt(left) / yardstick(left)
				far = math.Max(far, z[j])
			}
		}
		if far > most {
			set, distance, most = i, z, far
		}
	}
	return set, distance
}

// mark plays down the numbers that are farthest, if beyond the limit; several that are equally far go together.
func mark(numbers []number, distance []float64, limit float64) bool {
	most := 0.0
	for _, z := range distance {
		most = math.Max(most, z)
	}
	if !(most > limit) || math.IsInf(most, 0) {
		return false
	}
	for j, z := range distance {
		if z >= most*(1-alike) {
			numbers[j].distance = z
		}
	}
	return true
}

// wildWords names the flights that are played down.
func wildWords(numbers []number) []string {
	var words []string
	for _, n := range numbers {
		if n.weight() < 1 {
			words = append(words, fmt.Sprintf("flight %s lies %.1f standard deviations from what the other flights say and counts %.0f %%: look at its log and its weighing, or fly it again",
				n.flight, n.distance, 100*n.weight()))
		}
	}
	return words
}
