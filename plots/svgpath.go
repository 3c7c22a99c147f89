package plots

import (
	"bytes"
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/plot/vg"
)

// tenths writes a length rounded to a tenth, hundredths to a hundredth.
func tenths(v vg.Length) string { return short(inTenths(v), 1) }

func hundredths(v vg.Length) string { return short(int(math.Round(float64(v)*100)), 2) }

// inTenths is a length in whole tenths; a tie that a processor may compute to either side goes up.
func inTenths(v vg.Length) int { return int(math.Round(10 * toTenth(v))) }

// short writes a whole number of tenths or hundredths without what may be left out: 5 tenths are ".5".
func short(n, decimals int) string {
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	s := strconv.Itoa(n)
	for len(s) <= decimals {
		s = "0" + s
	}
	whole, rest := strings.TrimLeft(s[:len(s)-decimals], "0"), strings.TrimRight(s[len(s)-decimals:], "0")
	switch {
	case rest != "":
		return sign + whole + "." + rest
	case whole == "":
		return "0"
	}
	return sign + whole
}

// pathWriter writes path data with steps from the last point, in tenths, y down.
type pathWriter struct {
	out     *bytes.Buffer
	height  vg.Length
	x, y    int  // the last point
	command byte // the last command, which need not be said again
	begun   bool // the last point is that of this path
	earlier bool // there is a last point at all
	small   bool // lines from their start, so that small shapes are alike wherever they stand
	start   vg.Point
	x0, y0  int
}

// write puts down one path behind those before it. Arcs become arcs, a full circle two of them.
func (w *pathWriter) write(path vg.Path) {
	w.small, w.begun = isSmall(path), false
	for _, step := range path {
		switch step.Type {
		case vg.MoveComp:
			w.move(step.Pos)
		case vg.LineComp:
			w.line(step.Pos)
		case vg.ArcComp:
			w.arc(step)
		case vg.CurveComp:
			w.curve(step)
		case vg.CloseComp:
			w.out.WriteByte('z')
			w.x, w.y, w.command = w.x0, w.y0, 'z'
		}
	}
}

// at is a point in tenths, y down.
func (w *pathWriter) at(p vg.Point) (x, y int) {
	if w.small && w.begun {
		return w.x0 + inTenths(p.X-w.start.X), w.y0 - inTenths(p.Y-w.start.Y)
	}
	return inTenths(p.X), inTenths(w.height - p.Y)
}

func (w *pathWriter) say(command byte) {
	if w.command != command {
		w.out.WriteByte(command)
		w.command = command
		return
	}
	w.out.WriteByte(' ')
}

// numbers writes whole tenths; a minus sign parts two numbers as well as a space.
func (w *pathWriter) numbers(values ...int) {
	for i, v := range values {
		if i > 0 && v >= 0 {
			w.out.WriteByte(' ')
		}
		w.out.WriteString(short(v, 1))
	}
}

// pair is two numbers as numbers writes them.
func pair(x, y int) string {
	if y < 0 {
		return short(x, 1) + short(y, 1)
	}
	return short(x, 1) + " " + short(y, 1)
}

// move starts a line at a point, said from the edge of the sheet or from the last point, whichever is shorter.
func (w *pathWriter) move(p vg.Point) {
	w.begun = false
	x, y := w.at(p)
	command, across, down := byte('M'), x, y
	if w.earlier && len(pair(x-w.x, y-w.y)) < len(pair(x, y)) {
		command, across, down = 'm', x-w.x, y-w.y
	}
	w.out.WriteByte(command)
	w.numbers(across, down)
	w.x, w.y, w.x0, w.y0, w.start, w.begun, w.earlier = x, y, x, y, p, true, true
	w.command = command
}

// dot is a line of next to no length; what follows starts from the edge of the sheet.
func (w *pathWriter) dot(p vg.Point) {
	w.earlier, w.command = false, 'h'
	w.out.WriteString("M" + pair(inTenths(p.X), inTenths(w.height-p.Y)) + "h.01")
}

func (w *pathWriter) line(p vg.Point) {
	x, y := w.at(p)
	dx, dy := x-w.x, y-w.y
	w.x, w.y = x, y
	switch {
	case dx == 0 && dy == 0:
	case dy == 0:
		w.say('h')
		w.numbers(dx)
	case dx == 0:
		w.say('v')
		w.numbers(dy)
	default:
		w.say('l')
		w.numbers(dx, dy)
	}
}

// arc runs from its start, which a line reaches, in pieces of half a turn at most.
func (w *pathWriter) arc(step vg.PathComp) {
	on := func(angle float64) vg.Point {
		sin, cos := math.Sincos(angle)
		return vg.Point{X: step.Pos.X + step.Radius*vg.Length(cos), Y: step.Pos.Y + step.Radius*vg.Length(sin)}
	}
	if !w.begun {
		w.move(on(step.Start))
	}
	w.line(on(step.Start))
	pieces := math.Ceil(math.Abs(step.Angle)/math.Pi - 1e-9)
	sweep := 0 // anticlockwise with y up is anticlockwise on the screen
	if step.Angle < 0 {
		sweep = 1
	}
	for k := 1.0; k <= pieces; k++ {
		x, y := w.at(on(step.Start + step.Angle*k/pieces))
		r := inTenths(step.Radius)
		w.say('a')
		w.numbers(r, r)
		w.out.WriteString(" 0 0 " + strconv.Itoa(sweep))
		if x >= w.x {
			w.out.WriteByte(' ')
		}
		w.numbers(x-w.x, y-w.y)
		w.x, w.y = x, y
	}
}

// curve is a parabola or a cubic.
func (w *pathWriter) curve(step vg.PathComp) {
	points := append(append([]vg.Point{}, step.Control...), step.Pos)
	command := byte('q')
	if len(points) == 3 {
		command = 'c'
	}
	w.say(command)
	var all []int
	var x, y int
	for _, p := range points {
		x, y = w.at(p)
		all = append(all, x-w.x, y-w.y)
	}
	w.numbers(all...)
	w.x, w.y = x, y
}
