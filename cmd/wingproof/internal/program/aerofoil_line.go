package program

import "wingproof/aero/aerofoil"

// fourDigit is the mean line and thickness that a four-digit name stands for; a symmetric section has no
// mean line.
func fourDigit(name string) (aerofoilData, error) {
	f, err := aerofoil.ParseFourDigit(name)
	if err != nil {
		return aerofoilData{}, err
	}
	if f.Camber == 0 {
		return aerofoilData{thickness: f.Thickness()}, nil
	}
	return aerofoilData{f, f.Thickness()}, nil
}

// fromOutline is the mean line and thickness of a closed outline.
func fromOutline(name string, x, y []float64) (aerofoilData, error) {
	points := make([]aerofoil.Point, len(x))
	for i := range x {
		points[i] = aerofoil.Point{X: x[i], Y: y[i]}
	}
	s, err := aerofoil.FromOutline(name, points)
	if err != nil {
		return aerofoilData{}, err
	}
	return aerofoilData{s.Line, s.Thickness}, nil
}
