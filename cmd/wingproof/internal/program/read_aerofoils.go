package program

import (
	"fmt"

	"wingproof/aero"
	"wingproof/flightlog/unit"
)

// aerofoilData is what a station takes from an aerofoil.
type aerofoilData struct {
	line      aero.MeanLine
	thickness float64
}

func (l *loader) readAerofoils(all []*scope) {
	for _, s := range all {
		name, at := s.text("name", true)
		if _, twice := l.aerofoils[name]; twice {
			s.wrong(at, "the aerofoil "+quoted(name)+" is there twice", "give each aerofoil a name of its own")
		}
		digits, digitsAt := s.text("naca", false)
		outline, outlineAt := s.text("outline", false)
		s.done()
		var data aerofoilData
		var err error
		switch {
		case (digits == "") == (outline == ""):
			s.wrong(s.v.at, fmt.Sprintf("aerofoil %s needs either naca or outline", quoted(name)), `write naca = "2412", or outline = "shape/name.csv"`)
		case digits != "":
			if data, err = fourDigit(digits); err != nil {
				s.wrong(digitsAt, err.Error(), "")
			}
		default:
			data = l.readOutline(s, name, outlineAt, outline)
		}
		if name != "" {
			l.aerofoils[name] = data
		}
	}
}

func (l *loader) aerofoilNames() []string { return sortedKeys(l.aerofoils) }

// readOutline reads the points of an outline: x and y as fractions of the chord, or in any unit of length.
func (l *loader) readOutline(s *scope, name string, at spot, file string) aerofoilData {
	path, raw, ok := l.open(s, at, file)
	if !ok {
		return aerofoilData{}
	}
	t := l.readTable(path, raw)
	if t == nil {
		return aerofoilData{}
	}
	before := len(l.mistakes)
	x, y := t.coordinate("x"), t.coordinate("y")
	t.done()
	var xs, ys []float64
	for _, r := range t.rows {
		px, okX := t.needNumber(r, x)
		py, okY := t.needNumber(r, y)
		if okX && okY {
			xs, ys = append(xs, px), append(ys, py)
		}
	}
	if len(l.mistakes) > before {
		return aerofoilData{}
	}
	data, err := fromOutline(name, xs, ys)
	if err != nil {
		l.wrong(path, t.headSpot, "", err.Error(), "")
	}
	return data
}

// coordinate asks for a column that may or may not carry a unit of length.
func (t *table) coordinate(stem string) column {
	for _, h := range t.heads {
		if _, _, ok := unit.Suffix(h.name, unit.Length); ok {
			return t.measured(length(stem).in("mm").required())
		}
	}
	return t.measured(number(stem, -1e6, 1e6).required())
}
