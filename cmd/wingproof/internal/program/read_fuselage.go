package program

import "fmt"

// readFuselage reads [fuselage]: cuts through the body from the nose aft.
func (l *loader) readFuselage(s *scope) {
	if s == nil {
		return
	}
	if file, at := s.text("stations", true); file != "" {
		l.p.Fuselage = l.readFuselageStations(s, at, file)
	}
	s.done()
}

func (l *loader) readFuselageStations(s *scope, at spot, file string) []FuselageStation {
	path, raw, ok := l.open(s, at, file)
	if !ok {
		return nil
	}
	t := l.readTable(path, raw)
	if t == nil {
		return nil
	}
	count := t.measured(number("station", 1, 1000).required())
	x := t.measured(length("x").in("mm").required())
	width := t.measured(length("width").in("mm").atLeast(0).required())
	height := t.measured(length("height").in("mm").atLeast(0).required())
	z := t.measured(length("z").in("mm").required())
	t.done()
	var out []FuselageStation
	for i, r := range t.rows {
		if n, ok := t.needNumber(r, count); ok && n != float64(i+1) {
			t.wrong(r, count, fmt.Sprintf("station %g stands in the place of station %d", n, i+1), "number the stations 1, 2, 3 from the nose aft")
		}
		var f FuselageStation
		var okX, okW, okH bool
		f.X, okX = t.needNumber(r, x)
		f.Width, okW = t.needNumber(r, width)
		f.Height, okH = t.needNumber(r, height)
		f.Z, _ = t.needNumber(r, z)
		if n := len(out); okX && n > 0 && f.X <= out[n-1].X {
			t.wrong(r, x, fmt.Sprintf("x = %s m does not rise", short(f.X)), "order the rows from the nose aft, each x once")
		}
		if okW && okH {
			t.section(r, width, height, f, i > 0 && i < len(t.rows)-1)
		}
		out = append(out, f)
	}
	if len(t.rows) < 2 {
		l.wrong(path, t.headSpot, "", "a fuselage needs two stations or more", "add a row for each cut through the body, from the nose aft")
	}
	return out
}

// section reports a cut that has no area where the body must have one.
func (t *table) section(r row, width, height column, f FuselageStation, inside bool) {
	switch {
	case f.Width == 0 && f.Height > 0:
		t.wrong(r, width, "the cut has a height and no width", "write both, or 0 for both at a pointed end")
	case f.Height == 0 && f.Width > 0:
		t.wrong(r, height, "the cut has a width and no height", "write both, or 0 for both at a pointed end")
	case f.Width == 0 && inside:
		t.wrong(r, width, "the body vanishes between its ends", "write width and height of the cut; 0 stands only at a pointed nose or tail")
	}
}
