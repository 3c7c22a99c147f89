package leastsquares

import "math"

// exact returns the scaled design in extended numbers, and the condition up to which its columns tell apart.
func (d design) exact() ([][]extended, float64) {
	p := d.parameters
	out, cells := make([][]extended, len(d.rows)), make([]extended, len(d.rows)*p)
	for i, row := range d.rows {
		out[i] = cells[i*p : (i+1)*p]
		for j, v := range row {
			out[i][j] = extended{high: v * d.scale[j]}
		}
	}
	base, exponents, factors, ok := d.powersOf()
	if !ok {
		return out, roundedCondition
	}
	for _, row := range out {
		x := extended{high: row[base].high}
		for j := range row {
			row[j] = power(x, exponents[j]).times2(factors[j])
		}
	}
	return out, powerCondition
}

// powersOf finds the column of which every column is a power, but for a factor that is a power of two and for
// rounding.
//
// Such a design is a polynomial, and only the rounding of its powers keeps a polynomial of high degree from being
// solved: the last digit of x¹⁰ moves the seventh of a coefficient when the condition is 1e10. Carried as powers in
// twice the digits, the columns differ from the given ones by no more than their rounding, and are collinear only when x
// itself takes too few values.
func (d design) powersOf() (base int, exponents []int, factors []float64, ok bool) {
	for base = range d.parameters {
		few, many := d.extremes(base)
		if few == many {
			continue
		}
		exponents, factors = make([]int, d.parameters), make([]float64, d.parameters)
		ok = true
		for j := 0; ok && j < d.parameters; j++ {
			exponents[j], factors[j], ok = d.powerBetween(base, j, few, many)
		}
		if ok {
			return base, exponents, factors, true
		}
	}
	return 0, nil, nil, false
}

// extremes returns the rows where a column's size is least, 0 left aside, and largest.
func (d design) extremes(column int) (few, many int) {
	few, many = -1, -1
	for i, row := range d.rows {
		size := math.Abs(row[column])
		if size == 0 {
			continue
		}
		if few < 0 || size < math.Abs(d.rows[few][column]) {
			few = i
		}
		if many < 0 || size > math.Abs(d.rows[many][column]) {
			many = i
		}
	}
	if few >= 0 && math.Abs(d.rows[few][column]) == math.Abs(d.rows[many][column]) {
		return few, few
	}
	return few, many
}

// powerBetween reads exponent and factor of column j off two rows and tries them on all.
func (d design) powerBetween(base, j, few, many int) (exponent int, factor float64, ok bool) {
	at := func(i, column int) float64 { return d.rows[i][column] * d.scale[column] }
	ratio := math.Log(math.Abs(at(many, j)/at(few, j))) / math.Log(math.Abs(at(many, base)/at(few, base)))
	const degree = 60 // beyond it x⁶⁰ of x from a half to one is lost in rounding beside x⁰
	if !(ratio > -0.5 && ratio < degree) {
		return 0, 0, false
	}
	exponent = int(math.Round(ratio))
	factor = math.Exp2(math.Round(math.Log2(math.Abs(at(many, j)) / math.Abs(power(extended{high: at(many, base)}, exponent).value()))))
	// each of the products that the caller may have formed rounds by 2⁻⁵³, as does a library's power
	allowed := float64(max(exponent, 1)) * 0x1p-53
	for i := range d.rows {
		want := power(extended{high: at(i, base)}, exponent).times2(factor).value()
		if !(math.Abs(at(i, j)-want) <= allowed*math.Abs(want)) {
			return 0, 0, false
		}
	}
	return exponent, factor, true
}

// power is x to a whole exponent.
func power(x extended, exponent int) extended {
	out := extended{high: 1}
	for ; exponent > 0; exponent >>= 1 {
		if exponent&1 == 1 {
			out = out.times(x)
		}
		x = x.times(x)
	}
	return out
}
