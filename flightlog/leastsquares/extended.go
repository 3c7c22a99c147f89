package leastsquares

import "math"

// extended is the sum of two float64 of which the second holds the rounding error of the first: 106 bits, some 32
// decimal digits.
//
// Source: T. J. Dekker, A Floating-Point Technique for Extending the Available Precision, Numerische Mathematik 18,
// 1971 (from memory); with a fused multiply-add the error of a product is one operation.
type extended struct{ high, low float64 }

// twoSum returns a + b and its rounding error, exactly.
func twoSum(a, b float64) (sum, lost float64) {
	sum = a + b
	t := sum - a
	return sum, (a - (sum - t)) + (b - t)
}

// quickTwoSum is twoSum for |a| ≥ |b|.
func quickTwoSum(a, b float64) (sum, lost float64) {
	sum = a + b
	return sum, b - (sum - a)
}

// twoProduct returns a·b and its rounding error, exactly unless it underflows.
func twoProduct(a, b float64) (product, lost float64) {
	product = a * b
	return product, math.FMA(a, b, -product)
}

func (a extended) value() float64 { return a.high + a.low }

func (a extended) negative() extended { return extended{-a.high, -a.low} }

// times2 multiplies by a power of two, which is exact.
func (a extended) times2(power float64) extended {
	return extended{float64(a.high * power), float64(a.low * power)}
}

func (a extended) plus(b extended) extended {
	s, e := twoSum(a.high, b.high)
	t, f := twoSum(a.low, b.low)
	s, e = quickTwoSum(s, e+t)
	s, e = quickTwoSum(s, e+f)
	return extended{s, e}
}

func (a extended) minus(b extended) extended { return a.plus(b.negative()) }

func (a extended) times(b extended) extended {
	p, e := twoProduct(a.high, b.high)
	e += float64(a.high*b.low) + float64(a.low*b.high)
	p, e = quickTwoSum(p, e)
	return extended{p, e}
}

// over divides by long division, three quotient digits of 53 bits.
func (a extended) over(b extended) extended {
	first := a.high / b.high
	rest := a.minus(b.times(extended{high: first}))
	second := rest.high / b.high
	rest = rest.minus(b.times(extended{high: second}))
	third := rest.high / b.high
	first, second = quickTwoSum(first, second)
	return extended{first, second}.plus(extended{high: third})
}

// root is the square root by one Newton step from the float64 root; 0 for what is not positive.
func (a extended) root() extended {
	if !(a.high > 0) {
		return extended{}
	}
	r := math.Sqrt(a.high)
	square, lost := twoProduct(r, r)
	rest := a.minus(extended{square, lost})
	s, e := quickTwoSum(r, rest.value()/(2*r))
	return extended{s, e}
}

// accumulator sums products as if in twice the digits.
//
// Source: T. Ogita, S. M. Rump and S. Oishi, Accurate Sum and Dot Product, SIAM J. Scientific Computing 26, 2005,
// algorithm 5.3 (from memory).
type accumulator struct{ sum, lost float64 }

// add adds a·b.
func (s *accumulator) add(a, b float64) {
	p, e := twoProduct(a, b)
	sum, f := twoSum(s.sum, p)
	s.sum, s.lost = sum, s.lost+(e+f)
}

func (s accumulator) extended() extended {
	high, low := twoSum(s.sum, s.lost)
	return extended{high, low}
}
