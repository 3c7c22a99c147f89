package flightlog

import (
	"bytes"
	"math"
	"math/bits"
	"strconv"
)

// powersOfTen are exact: 10^22 is the largest that float64 holds without rounding.
var powersOfTen = [...]float64{1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
	1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22}

// mostExact is 2^53, up to which float64 holds every whole number.
const mostExact = 1 << 53

// parseNumber reads a decimal number whose decimal mark is '.' or ','. ok is false for anything else,
// infinities and numbers beyond float64 included.
//
// Where mantissa and power of ten are exact in float64, one correctly rounded operation on the two gives the
// nearest float64 (W. D. Clinger, How to Read Floating Point Numbers Accurately, 1990); everything else goes
// to strconv.
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
	if digits == 0 || digits > 19 || mantissa > mostExact { // 19 digits cannot overflow the mantissa
		return 0, false
	}
	v := float64(mantissa) / powersOfTen[max(after, 0)]
	if negative {
		v = -v
	}
	return v, true
}

// parseWord reads a number of n bytes, 1 to 8, that stand lowest in x. decimals is the decimal mark in all eight
// places. It does what parseShort does, without a branch that depends on the digits: a wrongly foreseen one costs as
// much as the whole conversion.
func parseWord(x uint64, n uint, decimals uint64) (float64, bool) {
	negative := uint(0)
	if byte(x) == '-' {
		negative = 1
	}
	x >>= 8 * negative & 63
	n -= negative
	// the end of the cell is found where there is no mark; a shift by 64 is done by two
	at := uint(bits.TrailingZeros64(zeroBytes(x^decimals)|0x80<<(8*(n-1)&63)<<8)) &^ 7
	ahead := uint64(1)<<(at/2&63)<<(at/2&63) - 1
	x = x&ahead | x>>8&^ahead
	digits := n
	if at < 8*n {
		digits = n - 1
	}
	after := max(int(n)-1-int(at/8), 0)
	mantissa, ok := eightDigits((x ^ zeroDigits) << ((64 - 8*digits) & 63))
	v := math.Float64bits(float64(int64(mantissa)) / powersOfTen[after&7])
	return math.Float64frombits(v | uint64(negative)<<63), ok && digits > 0
}

// parseWords reads the number in row[i:end], more than eight bytes, whose decimal mark stands among the first
// eight. It does what parseShort does where that mark has at most eight digits behind it.
func parseWords(row []byte, i, end int, decimals uint64) (float64, bool) {
	negative := 0
	if row[i] == '-' {
		negative = 1
	}
	i += negative
	x := word(row, i)
	mark := zeroBytes(x ^ decimals)
	at := bits.TrailingZeros64(mark) / 8
	after := end - i - at - 1
	if mark == 0 || after > wordSize || after < 0 {
		return 0, false
	}
	whole, ok := digitsAtOnce(x, uint(at))
	fraction, fine := digitsAtOnce(word(row, i+at+1), uint(after))
	// 7 and 8 digits stay below 2^53, and a number without any is shorter
	v := math.Float64bits((float64(int64(whole))*powersOfTen[after] + float64(int64(fraction))) / powersOfTen[after])
	return math.Float64frombits(v | uint64(negative)<<63), ok && fine
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
