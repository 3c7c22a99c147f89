package identify

import "math"

// Edges of a command: where it moves by more than this share of its whole stroke between two samples, and by more than a trembling
// hand. Common practice, no source.
const (
	edgeShare = 0.25
	edgeLeast = 0.01 // rad
	mostEdges = 8
	edgeLater = 1e-3 // s: small beside a sample, so that a difference is a derivative
	edgeAhead = 0.3  // s before an edge from which its servo is followed, so that it is in motion as it was
	edgeLags  = 12.0 // time constants after which nothing is left of an edge
)

// edge is a jump of a command between two samples.
type edge struct {
	control int
	sample  int  // the first one behind it
	alone   bool // a step; else part of a slope over several samples
}

// edgesOf lists the samples at which a command has jumped.
func edgesOf(command []float64) []int {
	low, high := command[0], command[0]
	for _, c := range command {
		low, high = math.Min(low, c), math.Max(high, c)
	}
	least := math.Max(edgeLeast, edgeShare*(high-low))
	var out []int
	for k := 1; k < len(command) && len(out) < mostEdges; k++ {
		if math.Abs(command[k]-command[k-1]) >= least {
			out = append(out, k)
		}
	}
	return out
}

// addEdges takes up the edges of a control.
func (t *track) addEdges(number int, logged []float64) {
	jumps := edgesOf(logged)
	for i, k := range jumps {
		neighbour := i > 0 && jumps[i-1] == k-1 || i+1 < len(jumps) && jumps[i+1] == k+1
		t.edges = append(t.edges, edge{control: number, sample: k, alone: !neighbour})
	}
}

// movement is the change of a surface for a unit of a parameter: an edge of the command that came a second later, say.
type movement struct {
	surface int
	from    int       // first place on the grid of integration
	change  []float64 // at the places
	mean    []float64 // over the step behind each place
}

// at is the change at a place of the grid.
func (m *movement) at(k int) float64 { return m.read(m.change, k) }

// over is the mean change over the step behind a place.
func (m *movement) over(k int) float64 { return m.read(m.mean, k) }

func (m *movement) read(values []float64, k int) float64 {
	if k -= m.from; k < 0 || k >= len(values) {
		return 0
	}
	return values[k]
}

// movementOf turns a change on the fine grid, which begins at a place of the grid of integration, into a movement.
func (t *track) movementOf(surface, from int, fine []float64) movement {
	m := movement{surface: surface, from: from}
	for k := 0; k < len(fine); k += t.fine {
		m.change = append(m.change, fine[k])
		if k+t.fine < len(fine) {
			m.mean = append(m.mean, meanOver(fine[k:k+t.fine+1]))
		}
	}
	return m
}

// meanOver is the mean of a line between points.
func meanOver(points []float64) float64 {
	n := len(points) - 1
	sum := 0.5 * (points[0] + points[n])
	for _, v := range points[1:n] {
		sum += v
	}
	return sum / float64(n)
}

// differentiateSurfaces works out what each edge does to its surface when it comes later, and what a later servo does where nobody knows it.
func (t *track) differentiateSurfaces(shifts []float64, unknown []int) {
	t.moved = t.moved[:0]
	for i, e := range t.edges {
		t.moved = append(t.moved, t.differentiateEdge(e, i, shifts))
	}
	t.lag = t.lag[:0]
	for _, number := range unknown {
		t.lag = append(t.lag, t.slowed(number))
	}
}

// differentiateEdge follows the servo twice through the neighbourhood of an edge, the second time with the edge a little later.
func (t *track) differentiateEdge(e edge, number int, shifts []float64) movement {
	c := &t.controls[e.control]
	before := c.drawn
	step := t.step / float64(t.fine)
	ahead := int(math.Ceil(edgeAhead/t.step)) * t.fine
	behind := int(math.Ceil((c.servo.Delay+edgeLags*c.servo.Lag+edgeAhead)/t.step)) * t.fine
	at := (e.sample - 1) * t.parts * t.fine
	from, to := max(0, at-ahead), min(len(before), at+behind+1)
	later := append([]float64(nil), before[from:to]...)
	if jump := c.command[e.sample] - c.command[e.sample-1]; c.servo.instant() {
		shiftPoints(later, at-from, t.parts*t.fine, edgeLater*jump/t.segment.Step)
	} else {
		t.draw(later, from, e, -jump, shifts[number])
		t.draw(later, from, e, jump, shifts[number]+edgeLater)
	}
	late := c.servo.Surface(later, step, nil)
	was := c.servo.Surface(before[from:to], step, nil)
	for k := range late {
		late[k] = (late[k] - was[k]) / edgeLater
	}
	return t.movementOf(e.control, from/t.fine, late)
}

// shiftPoints takes a slope between two samples of a command that is given at points, not as means, to a later time.
func shiftPoints(points []float64, first, length int, change float64) {
	for k := first; k <= first+length && k < len(points); k++ {
		part := 1.0
		if k == first || k == first+length {
			part = 0.5
		}
		points[k] -= part * change
	}
}

// slowed is what a surface does per second of further delay: its slope, downwards.
func (t *track) slowed(number int) movement {
	surface := t.controls[number].surface
	slope := make([]float64, len(surface))
	for k := 1; k+1 < len(surface); k++ {
		slope[k] = -(surface[k+1] - surface[k-1]) / 2 * float64(t.fine) / t.step
	}
	return t.movementOf(number, 0, slope)
}
