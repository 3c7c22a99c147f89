package weighing

import "math"

// lump is one point mass of an invented body, x aft, y right, z up.
type lump struct{ m, x, y, z float64 }

func cgOf(body []lump) (mass float64, cg lump) {
	for _, l := range body {
		mass += l.m
		cg.x, cg.y, cg.z = cg.x+l.m*l.x, cg.y+l.m*l.y, cg.z+l.m*l.z
	}
	return mass, lump{mass, cg.x / mass, cg.y / mass, cg.z / mass}
}

// turned puts the body nose up by an angle: aft along the ground, right, up.
func turned(body []lump, angle float64) []lump {
	sin, cos := math.Sincos(angle)
	out := make([]lump, len(body))
	for i, l := range body {
		out[i] = lump{l.m, l.x*cos + l.z*sin, l.y, l.z*cos - l.x*sin}
	}
	return out
}

// about sums m r² about an axis through the CG: 'x', 'y' or 'z' of the ground.
func about(body []lump, axis byte) float64 {
	_, cg := cgOf(body)
	var sum float64
	for _, l := range body {
		x, y, z := l.x-cg.x, l.y-cg.y, l.z-cg.z
		switch axis {
		case 'x':
			sum += l.m * (y*y + z*z)
		case 'y':
			sum += l.m * (x*x + z*z)
		default:
			sum += l.m * (x*x + y*y)
		}
	}
	return sum
}

// scalesUnder are the loads on three supports that hold the body in balance: two wheels at one x share by y.
func scalesUnder(body []lump, nose, left, right lump) []float64 {
	mass, cg := cgOf(body)
	w := mass * (left.x - cg.x) / (left.x - nose.x)
	rest := mass - w
	r := (mass*cg.y - w*nose.y - rest*left.y) / (right.y - left.y)
	return []float64{w, rest - r, r}
}

type draws func(name string, low, high float64) float64

// inventedBody is symmetric, about the size of a quarter-scale model.
func inventedBody(draw draws) []lump {
	var body []lump
	for i := 0; i < 4; i++ {
		l := lump{draw("m", 0.3, 3), draw("x", 0.1, 1.6), draw("y", 0.02, 1.1), draw("z", -0.1, 0.3)}
		body = append(body, l, lump{l.m, l.x, -l.y, l.z})
	}
	return append(body, lump{4, draw("x", 0.8, 1.2), 0, draw("z", 0, 0.1)})
}

// sessionOf reads scales and watches on an invented body: everything that a bench would see, without error.
func sessionOf(body []lump, draw draws) Session {
	nose, left, right := lump{0, 0.05, 0, -0.25}, lump{0, 1.65, -0.3, -0.2}, lump{0, 1.65, 0.3, -0.2}
	mass, cg := cgOf(body)
	up := draw("tilt", 0.15, 0.5)
	figure := func(v float64) *Figure { return &Figure{Value: v} }
	stand := func(name string, angle float64) Attitude {
		supports := turned([]lump{nose, left, right}, angle)
		a := Attitude{Name: name, Tilted: angle != 0, Angle: Figure{Value: angle}}
		for i, w := range scalesUnder(turned(body, angle), supports[0], supports[1], supports[2]) {
			a.Readings = append(a.Readings, Reading{Point: []string{"nose", "left", "right"}[i], Loads: []float64{w + 0.2}, Tare: Figure{Value: 0.2}})
		}
		return a
	}
	point := func(name string, l lump) Point {
		return Point{Name: name, X: Figure{Value: l.x}, Y: figure(l.y), Z: figure(l.z)}
	}
	bifilar := func(name string, axis Axis, angle, inertia float64) Swing {
		d, line := draw("spacing", 0.4, 1), draw("line", 1.5, 3)
		period := 2 * math.Pi * math.Sqrt(inertia/(mass*g0*d*d/(4*line)))
		return Swing{Name: name, Axis: axis, Angle: Figure{Value: angle}, Spacing: Figure{Value: d}, Length: Figure{Value: line}, Timings: []Timing{{20, 20 * period}}}
	}
	arm, slope := draw("arm", 0.2, 0.6), draw("slope", 0.4, 1)
	compound := func(inertia, arm float64) []Timing {
		return []Timing{{30, 30 * 2 * math.Pi * math.Sqrt((inertia+mass*arm*arm)/(mass*g0*arm))}}
	}
	return Session{
		Gravity: Figure{Value: g0}, Points: []Point{point("nose", nose), point("left", left), point("right", right)},
		Attitudes: []Attitude{stand("level", 0), stand("nose up", up)},
		Swings: []Swing{
			bifilar("yaw", Yaw, 0, about(body, 'z')),
			bifilar("hung by the tail", Roll, 0, about(body, 'x')),
			bifilar("inclined", Inclined, slope, about(turned(body, slope), 'z')),
			{Name: "inclined pendulum", Rig: CompoundRig, Axis: Inclined, Angle: Figure{Value: -slope}, Pivot: figure(arm), Timings: compound(about(turned(body, -slope), 'x'), arm)},
			{Name: "pitch", Rig: CompoundRig, Axis: Pitch, PivotX: figure(cg.x + 0.1), PivotZ: figure(cg.z + arm), Timings: compound(about(body, 'y'), math.Hypot(0.1, arm))},
			{Name: "roll", Rig: CompoundRig, Axis: Roll, PivotZ: figure(cg.z + arm), Timings: compound(about(body, 'x'), arm)},
		},
	}
}
