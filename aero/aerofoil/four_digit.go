package aerofoil

import "fmt"

// FourDigit is a section of the four-digit family.
type FourDigit struct {
	Camber   float64 // largest height of the mean line, fraction of the chord
	Place    float64 // where, fraction of the chord from the leading edge
	Thick    float64 // largest thickness, fraction of the chord
	fullName string
}

// ParseFourDigit reads a name such as "2412", "naca 2412" or "NACA2412": camber in per cent, its
// place in tenths and thickness in per cent of the chord.
//
// An error says what is wrong with the name.
func ParseFourDigit(name string) (FourDigit, error) {
	digits := bareDigits(name)
	wrong := func(what string) (FourDigit, error) {
		return FourDigit{}, fmt.Errorf("aerofoil %q: %s; write four digits such as 2412, or give an outline", name, what)
	}
	if !allDigits(digits, 4) {
		return wrong("it is not a four-digit section")
	}
	at := func(i int) float64 { return float64(digits[i] - '0') }
	f := FourDigit{Camber: at(0) / 100, Place: at(1) / 10, Thick: (10*at(2) + at(3)) / 100, fullName: "NACA " + digits}
	if f.Camber > 0 && f.Place == 0 {
		return wrong("a cambered mean line cannot have its top at the leading edge")
	}
	return f, nil
}

// Name is the section's name in the usual writing.
func (f FourDigit) Name() string { return f.fullName }

// Thickness is the largest thickness, fraction of the chord.
func (f FourDigit) Thickness() float64 { return f.Thick }

// Height is z of the mean line at x: two parabolas that meet at its top (NACA Report 460).
func (f FourDigit) Height(x float64) float64 {
	m, p := f.Camber, f.Place
	switch {
	case m == 0:
		return 0
	case x < p:
		return m / (p * p) * (2*p*x - x*x)
	}
	return m / ((1 - p) * (1 - p)) * (1 - 2*p + 2*p*x - x*x)
}

// Slope is dz/dx of the mean line at x.
func (f FourDigit) Slope(x float64) float64 {
	m, p := f.Camber, f.Place
	switch {
	case m == 0:
		return 0
	case x < p:
		return 2 * m / (p * p) * (p - x)
	}
	return 2 * m / ((1 - p) * (1 - p)) * (p - x)
}
