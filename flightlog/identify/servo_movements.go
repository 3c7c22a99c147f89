package identify

// stickMovement is drawn apart from the rest of a command, so that its time can be moved.
type stickMovement struct {
	first, last int     // samples: the jumps from first−1 to first, up to that from last−1 to last
	later       float64 // s by which it is moved
}

// stickMovements joins jumps of a command in neighbouring samples, which are one movement of the hand.
func stickMovements(command []float64) []stickMovement {
	var out []stickMovement
	for _, at := range edgesOf(command) {
		if n := len(out); n > 0 && out[n-1].last == at-1 {
			out[n-1].last = at
			continue
		}
		out = append(out, stickMovement{first: at, last: at})
	}
	return out
}

// drawnApart draws a command out with its movements at times of their own. A jump of one sample was sharp, somewhere between both samples:
// it stands in the middle, where its expectation is, unless it is moved. A longer movement runs straight from sample to sample.
func drawnApart(command []float64, step float64, movements []stickMovement) drawing {
	rest := append([]float64(nil), command...)
	for _, m := range movements {
		size := command[m.last] - command[m.first-1]
		for k := m.first; k < len(rest); k++ {
			if k <= m.last {
				rest[k] -= command[k] - command[m.first-1]
			} else {
				rest[k] -= size
			}
		}
	}
	out := drawn(rest, step)
	for _, m := range movements {
		m.addTo(&out, command, step, 1)
	}
	return out
}

// addTo adds a movement to a drawing, times a factor.
func (m stickMovement) addTo(d *drawing, command []float64, step, factor float64) {
	for k := m.first; k <= m.last; k++ {
		from, to := float64(k-1)*step+m.later, float64(k)*step+m.later
		if m.first == m.last {
			from = (from + to) / 2
			to = from
		}
		d.addRamp(factor*(command[k]-command[k-1]), from, to)
	}
}

// addRamp adds what rises from zero to a size between two times, as the mean over each place.
func (d *drawing) addRamp(size, from, to float64) {
	area := func(t float64) float64 { // of a rise of one up to the time t
		switch {
		case t <= from:
			return 0
		case t < to:
			return (t - from) * (t - from) / (2 * (to - from))
		}
		return t - (from+to)/2
	}
	for i := max(0, int(from/d.step)); i < len(d.values); i++ {
		if start := float64(i) * d.step; start < to {
			d.values[i] += size * (area(start+d.step) - area(start)) / d.step
		} else {
			d.values[i] += size
		}
	}
}
