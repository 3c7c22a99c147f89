package identify

import (
	"math"
	"slices"

	"wingproof/flightlog"
)

// unknownServo stands in where nobody has said how a surface follows: a usual hobby servo. Its time is then estimated with
// unknownLag about it. Common practice, no source.
func unknownServo() Servo { return Servo{Delay: 0.03, Lag: 0.04} }

const unknownLag = 0.05 // s

// finestServo is the step on which servos are followed, s: a small part of any lag, so that where an edge lies within a step of the
// integration does not matter. Derived: with steps of 10 ms it moved dampings by a fifth of a standard deviation.
const finestServo = 0.0034

// control is one surface of a segment with what moves it.
type control struct {
	command []float64 // at the samples, as scaled
	servo   Servo
	drawn   []float64 // on the fine grid
	surface []float64 // on the fine grid
}

// addControl takes up one surface and finds the edges of its command.
func (t *track) addControl(name flightlog.Quantity, setup *Setup, e *shifted) {
	servo, known := setup.Servos[name]
	if !known {
		servo = unknownServo()
	}
	servo.Lag = math.Max(0, servo.Lag+e.slow[name])
	logged := t.segment.command(name)
	scale := e.scale(name)
	t.controls = append(t.controls, control{command: mapped(logged, func(c float64) float64 { return c * scale }), servo: servo})
	t.addEdges(len(t.controls)-1, logged)
}

func (e *shifted) scale(control flightlog.Quantity) float64 {
	switch control {
	case flightlog.Elevator:
		return e.elevator
	case flightlog.Aileron:
		return e.aileron
	}
	return e.rudder
}

// drawCommand gives the command on the fine grid as Surface wants it, held from each place to the next: the mean over that time of
// the straight line between samples. A step lies somewhere between the last sample before and the first after it; it is put in the
// middle, where it has its expectation, and shifted from there [s]. A slope over several samples is shifted as a whole. A surface without
// lag is where its command is, so that there the line itself is wanted, and its steps are slopes.
func (t *track) drawCommand(number int, shifts []float64) {
	c := &t.controls[number]
	if c.servo.instant() {
		c.drawn = t.line(c.command, 0, c.drawn)
		return
	}
	smooth := append([]float64(nil), c.command...) // without its steps
	for _, e := range t.edges {
		if e.control == number && e.alone {
			jump := c.command[e.sample] - c.command[e.sample-1]
			for k := e.sample; k < len(smooth); k++ {
				smooth[k] -= jump
			}
		}
	}
	c.drawn = t.line(smooth, 0.5, c.drawn)
	for i, e := range t.edges {
		if e.control == number {
			t.draw(c.drawn, 0, e, c.command[e.sample]-c.command[e.sample-1], shifts[i])
		}
	}
}

// line is the straight line between samples, at a part of each step of the fine grid.
func (t *track) line(command []float64, part float64, out []float64) []float64 {
	n := (len(t.inputs)-1)*t.fine + 1
	if cap(out) < n {
		out = make([]float64, n)
	}
	out = out[:n]
	for k := range out {
		out[k] = between(command, (float64(k)+part)/float64(t.parts*t.fine))
	}
	return out
}

// instant tells whether nothing smooths the way of a command.
func (s Servo) instant() bool { return !(s.Lag > 0) && !(s.Rate > 0) }

// draw adds one edge to a command that begins at a place of the fine grid, later than the middle of its samples by a time. A slope over
// several samples is there already, so that only its shift is added.
func (t *track) draw(command []float64, from int, e edge, jump, shift float64) {
	length := t.parts * t.fine
	first := (e.sample-1)*length - from
	if !e.alone {
		for k := first; k < first+length && k < len(command); k++ {
			command[k] -= shift * jump / t.segment.Step
		}
		return
	}
	at := float64(first) + 0.5*float64(length) + shift/t.step*float64(t.fine)
	for k := max(0, int(math.Floor(at))); k < len(command); k++ {
		command[k] += jump * math.Min(1, float64(k+1)-at)
	}
}

// placeSurfaces puts the surfaces where the edges of their commands, shifted by the segment's own estimates, leave them. In the middle of
// a step of integration stands what gives the step's mean by Simpson's rule, by which the Runge–Kutta rule adds up inputs.
func (t *track) placeSurfaces(shifts []float64) {
	by := append([]float64(nil), shifts...)
	for i := range t.controls {
		by = append(by, t.controls[i].servo.Delay)
	}
	if slices.Equal(by, t.placed) {
		return
	}
	t.placed = by
	step := t.step / float64(t.fine)
	for i := range t.controls {
		t.drawCommand(i, shifts)
		c := &t.controls[i]
		c.surface = c.servo.Surface(c.drawn, step, c.surface)
		for k := range t.inputs {
			at := k * t.fine
			t.inputs[k][i] = c.surface[at]
			if k+1 < len(t.inputs) {
				t.middles[k][i] = (6*meanOver(c.surface[at:at+t.fine+1]) - c.surface[at] - c.surface[at+t.fine]) / 4
			}
		}
	}
}
