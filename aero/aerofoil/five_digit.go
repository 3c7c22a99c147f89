package aerofoil

import "fmt"

// FiveDigit is a section of the five-digit family, whose mean line has its top far forward: a cubic that
// runs into a straight line (standard) or into a second cubic that turns up (reflexed), so that the
// moment about the quarter chord nearly vanishes. ParseFiveDigit makes one; the zero value is a flat plate.
//
// Source: E. N. Jacobs, R. M. Pinkerton, Tests in the Variable-Density Wind Tunnel of Related Airfoils
// Having the Maximum Camber Unusually Far Forward, NACA Report 537, 1935.
type FiveDigit struct {
	digits string
	lift   float64 // design lift coefficient
	place  float64 // of the top
	thick  float64
	line   fiveLine
}

// fiveLine is a mean line of design lift coefficient 0.3:
//
//	z″ = k (x − m) up to m, z″ = k·aft·(x − m) behind it, z = 0 at both ends
type fiveLine struct{ m, k, aft float64 }

// printedFiveLine is the constants of NACA Report 537 for the second and third digit. They are kept as
// printed, since sections are built from them; the tests say how far each lies from its defining condition.
func printedFiveLine(digits string) (line fiveLine, known bool) {
	switch digits {
	case "10":
		return fiveLine{0.0580, 361.400, 0}, true
	case "20":
		return fiveLine{0.1260, 51.640, 0}, true
	case "30":
		return fiveLine{0.2025, 15.957, 0}, true
	case "40":
		return fiveLine{0.2900, 6.643, 0}, true
	case "50":
		return fiveLine{0.3910, 3.230, 0}, true
	case "21":
		return fiveLine{0.1300, 51.990, 0.000764}, true
	case "31":
		return fiveLine{0.2170, 15.793, 0.00677}, true
	case "41":
		return fiveLine{0.3180, 6.520, 0.0303}, true
	case "51":
		return fiveLine{0.4410, 3.191, 0.1355}, true
	}
	return fiveLine{}, false
}

// ParseFiveDigit reads a name such as "23012", "naca 23112" or "NACA23015": design lift coefficient in
// units of 0.15, place of the top in twentieths of the chord, 0 standard or 1 reflexed, thickness in per cent.
// The report tabulates a first digit of 2; other first digits scale its mean lines.
//
// An error says what is wrong with the name.
func ParseFiveDigit(name string) (FiveDigit, error) {
	digits := bareDigits(name)
	wrong := func(what string) (FiveDigit, error) {
		return FiveDigit{}, fmt.Errorf("aerofoil %q: %s; write five digits such as 23012, or give an outline", name, what)
	}
	if !allDigits(digits, 5) {
		return wrong("it is not a five-digit section")
	}
	line, known := printedFiveLine(digits[1:3])
	switch {
	case digits[2] > '1':
		return wrong(fmt.Sprintf("the third digit is %c, but it says standard (0) or reflexed (1)", digits[2]))
	case digits[0] == '0':
		return wrong("the first digit gives the design lift and cannot be 0; a symmetric section has four digits, such as 0012")
	case digits[1:3] == "11":
		return wrong("the reflexed mean line with its top at 5 % of the chord is not tabulated")
	case !known:
		return wrong(fmt.Sprintf("the second digit is %c, but the top of the mean line is tabulated for 1 to 5", digits[1]))
	}
	at := func(i int) float64 { return float64(digits[i] - '0') }
	return FiveDigit{digits, 0.15 * at(0), at(1) / 20, (10*at(3) + at(4)) / 100, line}, nil
}

// Name is the section's name in the usual writing.
func (f FiveDigit) Name() string { return "NACA " + f.digits }

// DesignLift is the lift coefficient at the ideal angle that the first digit stands for.
func (f FiveDigit) DesignLift() float64 { return f.lift }

// Place is where the mean line has its top, fraction of the chord.
func (f FiveDigit) Place() float64 { return f.place }

// Reflexed tells whether the mean line turns up towards the trailing edge.
func (f FiveDigit) Reflexed() bool { return f.line.aft > 0 }

// Thickness is the largest thickness, fraction of the chord.
func (f FiveDigit) Thickness() float64 { return f.thick }

// Height is z of the mean line at x, fractions of the chord (NACA Report 537).
func (f FiveDigit) Height(x float64) float64 {
	l := f.line
	d := x - l.m
	cube := d * d * d
	if d > 0 {
		cube *= l.aft
	}
	return f.lift / 0.3 * l.k / 6 * (cube - l.tilt()*x + l.m*l.m*l.m)
}

// Slope is dz/dx of the mean line at x.
func (f FiveDigit) Slope(x float64) float64 {
	l := f.line
	d := x - l.m
	square := 3 * d * d
	if d > 0 {
		square *= l.aft
	}
	return f.lift / 0.3 * l.k / 6 * (square - l.tilt())
}

// tilt makes the mean line end on the chord.
func (l fiveLine) tilt() float64 {
	n := 1 - l.m
	return l.aft*n*n*n + l.m*l.m*l.m
}

// doubt warns of names that the six-series writes with the same digits.
func (f FiveDigit) doubt() string {
	if f.digits[0] != '6' || f.digits[1] < '3' {
		return ""
	}
	return fmt.Sprintf("read as a five-digit section of design lift %.2g; if the six-series section %s-%s is meant, give its outline", f.lift, f.digits[:2], f.digits[2:])
}
