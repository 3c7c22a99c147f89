package program

import (
	"wingproof/aero/aerofoil"
	"wingproof/flightlog/unit"
)

func (l *loader) readAerofoils(all []*scope) {
	for _, s := range all {
		name, at := s.text("name", true)
		if _, twice := l.aerofoils[name]; twice {
			s.wrong(at, "the aerofoil "+quoted(name)+" is there twice", "give each aerofoil a name of its own")
		}
		data := l.readSection(s, name)
		data.Name = name
		s.readSource("aerofoil " + quoted(name))
		if file, polarAt := s.text("polar", false); file != "" {
			data.PolarFile, data.Polar = l.readPolar(s, polarAt, file)
		}
		s.done()
		if name != "" {
			l.aerofoils[name] = data
			l.p.Aerofoils = append(l.p.Aerofoils, data)
		}
	}
}

func (l *loader) aerofoilNames() []string { return sortedKeys(l.aerofoils) }

// thickness is the key that a mean line alone needs beside it.
func thickness() measure {
	m := percent("thickness", 0, 40)
	m.open = true
	return m
}

// readSection reads mean line and thickness from whichever of the three ways is written.
func (l *loader) readSection(s *scope, name string) AerofoilData {
	digits, digitsAt := s.text("naca", false)
	outline, outlineAt := s.text("outline", false)
	line, lineAt := s.text("mean_line", false)
	thick, thickStated := s.number(thickness())
	ways := 0
	for _, key := range []string{"naca", "outline", "mean_line"} {
		if s.v.get(key) != nil {
			ways++
		}
	}
	if ways != 1 {
		s.wrong(s.v.at, "aerofoil "+quoted(name)+" needs exactly one of naca, outline and mean_line",
			`write naca = "2412", or outline = "shape/name.csv", or mean_line = "shape/name.csv" with thickness_percent = 12`)
		return AerofoilData{}
	}
	if at := s.placeOf(thickness()); at != nil && s.v.get("mean_line") == nil {
		s.wrong(*at, "thickness_percent stands beside a section that has its own thickness", "take it out; it belongs beside mean_line alone")
	}
	switch {
	case digits != "":
		section, err := aerofoil.ParseNACA(digits)
		if err != nil {
			s.wrong(digitsAt, err.Error(), "")
			return AerofoilData{}
		}
		return l.sectionData(ProgramFile, name, section)
	case outline != "":
		return l.readPoints(s, name, outlineAt, outline, aerofoil.FromOutline)
	case line != "":
		if !thickStated && s.placeOf(thickness()) == nil {
			s.wrong(lineAt, "a mean line alone does not say how thick the section is", "add thickness_percent = 12, the largest thickness in percent of the chord")
		}
		data := l.readPoints(s, name, lineAt, line, aerofoil.MeanLineFromPoints)
		data.Thickness = thick
		return data
	}
	for _, key := range []string{"naca", "outline", "mean_line"} {
		if k := s.v.get(key); k != nil && k.value.form == textForm {
			s.wrong(k.value.at, key+" is empty", "write "+key+` = "..."`)
		}
	}
	return AerofoilData{}
}

// readPoints reads x and y as fractions of the chord, or in any unit of length, and makes a section of them.
func (l *loader) readPoints(s *scope, name string, at spot, file string, read func(string, []aerofoil.Point) (aerofoil.Section, error)) AerofoilData {
	path, raw, ok := l.open(s, at, file)
	if !ok {
		return AerofoilData{}
	}
	t := l.readTable(path, raw)
	if t == nil {
		return AerofoilData{}
	}
	before := len(l.mistakes)
	x, y := t.coordinate("x"), t.coordinate("y")
	t.done()
	var points []aerofoil.Point
	for _, r := range t.rows {
		px, okX := t.needNumber(r, x)
		py, okY := t.needNumber(r, y)
		if okX && okY {
			points = append(points, aerofoil.Point{X: px, Y: py})
		}
	}
	if len(l.mistakes) > before {
		return AerofoilData{}
	}
	section, err := read(name, points)
	if err != nil {
		l.wrong(path, t.headSpot, "", err.Error(), "")
		return AerofoilData{}
	}
	return l.sectionData(path, name, section)
}

// sectionData keeps what a station takes from a section, and warns of what the points or the digits leave in doubt.
func (l *loader) sectionData(file, name string, s aerofoil.Section) AerofoilData {
	if s.Doubt != "" {
		l.warn("%s: aerofoil %s: %s", file, quoted(name), s.Doubt)
	}
	return AerofoilData{Line: s.Line, Thickness: s.Thickness}
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
