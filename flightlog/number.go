package flightlog

import (
	"bytes"
	"math"
	"strconv"
)

// powersOfTen are exact: 10^22 is the largest that float64 holds without rounding, 15 are used.
var powersOfTen = [...]float64{1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15}

// parseNumber reads a decimal number whose decimal mark is '.' or ','. ok is false for anything else,
// infinities and numbers beyond float64 included.
//
// Up to 15 significant digits with a small exponent, one correctly rounded operation on two exact
// numbers gives the nearest float64 (W. D. Clinger, How to Read Floating Point Numbers Accurately, 1990);
// everything else goes to strconv.
func parseNumber(cell []byte, decimal byte) (value float64, ok bool) {
	if v, ok := parseShort(cell, decimal); ok {
		return v, true
	}
	return parseLong(cell, decimal)
}

// parseShort is the fast road. ok is false when the number is not its business, not only when it is none.
func parseShort(cell []byte, decimal byte) (float64, bool) {
	i, negative := 0, false
	if len(cell) > 0 && (cell[0] == '-' || cell[0] == '+') {
		negative = cell[0] == '-'
		i = 1
	}
	var mantissa uint64
	digits, after := 0, -1 // after: digits behind the decimal mark, −1 ahead of it
	for ; i < len(cell); i++ {
		c := cell[i]
		switch {
		case c-'0' <= 9:
			mantissa = mantissa*10 + uint64(c-'0')
			digits++
			if after >= 0 {
				after++
			}
		case c == decimal && after < 0:
			after = 0
		default:
			return 0, false
		}
	}
	if digits == 0 || digits > 15 {
		return 0, false
	}
	v := float64(mantissa)
	if after > 0 {
		v /= powersOfTen[after]
	}
	if negative {
		v = -v
	}
	return v, true
}

// parseLong is the slow road through strconv, kept to plain decimal numbers.
func parseLong(cell []byte, decimal byte) (float64, bool) {
	if len(cell) == 0 || len(cell) > 400 {
		return 0, false
	}
	for _, c := range cell {
		if c-'0' > 9 && c != '+' && c != '-' && c != 'e' && c != 'E' && c != decimal {
			return 0, false
		}
	}
	text := cell
	if decimal != '.' {
		text = bytes.Replace(cell, []byte{decimal}, []byte{'.'}, -1)
	}
	v, err := strconv.ParseFloat(string(text), 64)
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
		return 0, false
	}
	return v, true
}

// noSample tells whether a cell says that its channel has no new sample in this row.
func noSample(cell []byte) bool {
	if len(cell) == 0 {
		return true
	}
	if len(cell) > 4 || cell[0]-'0' <= 9 {
		return false
	}
	switch string(bytes.ToLower(cell)) {
	case "-", "--", "na", "n/a", "#n/a", "nan", "-nan", "+nan", "nil", "null", "none":
		return true
	}
	return false
}
