package estimate

import (
	"math"

	"wingproof/flightlog/leastsquares"
)

// component is the scatter of one asked number between flights: variance σ²·k + τ², times what the
// residuals really came to.
type component struct {
	within  float64 // σ²
	between float64 // τ²
	factor  float64 // Σ r²/v over degrees: 1 unless τ² is held at 0
	degrees float64 // flights − parameters, over all configurations pooled; flights that are played down do not count
	flights int
}

// variance of one flight's number, up to the factor.
func (c component) variance(n number) float64 { return (c.within*n.k + c.between) / n.weight() }

// lineInCG is value = coefficients[0] + coefficients[1]·(h − centre) through the flights' numbers. Where some numbers stand apart,
// a last coefficient holds by how much.
type lineInCG struct {
	centre       float64
	single       bool      // all flights flew one CG, so there is no coefficient of h
	coefficients []float64 // level, change with CG unless single, step of the numbers apart where there are any
	covariance   [][]float64
	unscaled     [][]float64 // (XᵀV⁻¹X)⁻¹
	residuals    []float64
	leverage     []float64 // share of its own residual that each number takes with it
	chiSquare    float64   // Σ r²/v of the flights that are not played down
	degrees      float64   // their number − parameters
}

// oneCG tells whether all numbers belong to one CG.
func oneCG(numbers []number) bool {
	for _, n := range numbers {
		if math.Abs(n.cg-numbers[0].cg) > sameCG {
			return false
		}
	}
	return true
}

func centreOf(numbers []number) float64 {
	sum := 0.0
	for _, n := range numbers {
		sum += n.cg - numbers[0].cg // differences, so that a far datum costs no digits
	}
	return numbers[0].cg + sum/float64(len(numbers))
}

// fitInCG draws the weighted line through the flights' numbers; the variances are as given.
func fitInCG(numbers []number, variance func(number) float64) (lineInCG, error) {
	if len(numbers) == 0 {
		return lineInCG{}, leastsquares.ErrUndetermined
	}
	out := lineInCG{centre: centreOf(numbers), single: oneCG(numbers)}
	two := twoLevels(numbers)
	var rows [][]float64
	var response, weight []float64
	for _, n := range numbers {
		rows = append(rows, out.row(n.cg, n.apart, two))
		response = append(response, n.value)
		weight = append(weight, 1/variance(n))
	}
	fit, err := leastsquares.Linear(rows, response, weight)
	if err != nil {
		return lineInCG{}, err
	}
	out.coefficients, out.unscaled, out.residuals = fit.Coefficients, fit.Unscaled, fit.Residuals
	out.degrees = -float64(len(fit.Coefficients))
	for i, n := range numbers {
		if n.weight() == 1 { // a flight that is played down is no yardstick
			out.degrees++
			out.chiSquare += weight[i] * square(fit.Residuals[i])
		}
		out.leverage = append(out.leverage, weight[i]*rowForm(rows[i], fit.Unscaled))
	}
	out.degrees = math.Max(0, out.degrees)
	return out, nil
}

// rowForm is xᵀ·m·x.
func rowForm(x []float64, m [][]float64) float64 {
	sum := 0.0
	for i := range x {
		for j := range x {
			sum += x[i] * x[j] * m[i][j]
		}
	}
	return sum
}

// row is one row of the design.
func (l lineInCG) row(cg float64, apart, two bool) []float64 {
	row := []float64{1}
	if !l.single {
		row = append(row, cg-l.centre)
	}
	if two {
		step := 0.0
		if apart {
			step = 1
		}
		row = append(row, step)
	}
	return row
}

// twoLevels tells whether some numbers stand apart from others.
func twoLevels(numbers []number) bool {
	for _, n := range numbers {
		if n.apart != numbers[0].apart {
			return true
		}
	}
	return false
}

// at is the line's value at a CG, and the standard deviation of its random part.
func (l lineInCG) at(cg float64) (value, sd float64) {
	x := l.row(cg, false, false)
	for i := range x {
		value += x[i] * l.coefficients[i]
	}
	return value, math.Sqrt(math.Max(0, rowForm(x, l.covariance)))
}

// perCG is the change of the value with CG; 0 when flown at one CG.
func (l lineInCG) perCG() float64 {
	if l.single {
		return 0
	}
	return l.coefficients[1]
}

// estimateComponent finds τ² so that Σ r²/v equals its degrees of freedom, each configuration about its
// own line; where even τ² = 0 gives less, it stays 0 and the factor falls below one.
func estimateComponent(configurations [][]number, sigma2 float64) component {
	c := component{within: sigma2}
	largest, typical := spreadOf(configurations)
	if sigma2*typical <= 1e-24*largest || sigma2 == 0 {
		c.within = 0 // no scatter inside flights to speak of: every flight counts alike
	}
	chi := func(between float64) (float64, float64) {
		c.between = between
		return chiSquare(configurations, c.variance)
	}
	unit := largest
	if unit == 0 {
		unit = 1
	}
	if c.within == 0 {
		q, degrees := chi(unit)
		c.degrees = degrees
		c.factor = q / math.Max(1, c.degrees)
		c.flights = countNumbers(configurations)
		return c
	}
	q, degrees := chi(0)
	c.degrees, c.flights = degrees, countNumbers(configurations)
	if degrees == 0 || q <= c.degrees {
		c.between, c.factor = 0, q/math.Max(1, c.degrees)
		return c
	}
	low, high := 0.0, c.within*typical
	for q, _ = chi(high); q > c.degrees; q, _ = chi(high) {
		low, high = high, 2*high
	}
	for high-low > 1e-12*high {
		middle := (low + high) / 2
		if middle <= low || middle >= high {
			break
		}
		if q, _ = chi(middle); q > c.degrees {
			low = middle
		} else {
			high = middle
		}
	}
	c.between, c.factor = high, 1
	return c
}

// chiSquare sums Σ r²/v and degrees over configurations.
func chiSquare(configurations [][]number, variance func(number) float64) (sum, degrees float64) {
	for _, numbers := range configurations {
		l, err := fitInCG(numbers, variance)
		if err != nil {
			continue
		}
		sum += l.chiSquare
		degrees += l.degrees
	}
	return sum, degrees
}

// spreadOf returns the largest squared value and the largest k, to scale by.
func spreadOf(configurations [][]number) (value2, k float64) {
	for _, numbers := range configurations {
		for _, n := range numbers {
			value2 = math.Max(value2, n.value*n.value)
			k = math.Max(k, n.k)
		}
	}
	return value2, k
}

func countNumbers(configurations [][]number) int {
	n := 0
	for _, numbers := range configurations {
		n += len(numbers)
	}
	return n
}
