package reduce

import (
	"math"
	"slices"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
)

// ofPath is a series of the reconstructed path under the low-pass of the grid, from one instant up to another; NaN where the path
// is not known.
func (m *measurement) ofPath(series []float64, from, to int) []float64 {
	const beside = 1.0 // s: more than the Gaussian reaches
	p := m.flown
	i, _ := slices.BinarySearch(p.Time, m.g.time(from)-beside)
	j, _ := slices.BinarySearch(p.Time, m.g.time(to)+beside)
	var c flightlog.Channel
	for ; i < j; i++ {
		if !math.IsNaN(series[i]) {
			c.Time, c.Value = append(c.Time, p.Time[i]), append(c.Value, series[i])
		}
	}
	if len(c.Time) == 0 {
		out := make([]float64, to-from)
		for i := range out {
			out[i] = math.NaN()
		}
		return out
	}
	return m.g.smoothOver(c, m.g.width, from, to)
}

// instants gives the place of a time on the grid, from one index up to another: three instants at least, however short it is and wherever it lies.
func (m *measurement) instants(start, end float64) (from, to int) {
	from = max(min(m.index(start), m.g.n-3), 0)
	return from, min(max(m.index(end)+1, from+3), m.g.n)
}

// pathLost tells whether the path is no good somewhere from one instant up to another.
func (m *measurement) pathLost(start, end float64) bool {
	return slices.ContainsFunc(m.lost, func(f flightlog.Finding) bool { return f.Start <= end && f.End >= start })
}

// alphaAlong is the angle of attack from one instant up to another: of the path, else of a vane, else attitude less path angle.
func (m *measurement) alphaAlong(from, to int) []float64 {
	if m.flown != nil && !m.pathLost(m.g.time(from), m.g.time(to-1)) {
		return m.ofPath(m.flown.Alpha, from, to)
	}
	if vane := m.g.get(flightlog.AngleOfAttack); vane != nil {
		return vane[from:to]
	}
	const half = 5 // instants over which height gives a path angle
	theta, out := m.g.get(flightlog.PitchAngle), make([]float64, to-from)
	for k := range out {
		i := from + k
		low, high := max(i-half, 0), min(i+half, m.g.n-1)
		climb := (m.air.height[high] - m.air.height[low]) / (float64(high-low) * gridStep)
		out[k] = theta[i] - math.Asin(clamp(climb/m.air.speed[i]))
	}
	return out
}

// liftAlong is lift over weight and the lift coefficient from one instant on, at the angles of attack given.
func (m *measurement) liftAlong(from int, alpha []float64) (load, coefficient []float64) {
	forward, down := m.g.get(flightlog.ForwardAcceleration), m.g.get(flightlog.DownAcceleration)
	load, coefficient = make([]float64, len(alpha)), make([]float64, len(alpha))
	for k, a := range alpha {
		sin, cos := math.Sincos(a)
		f := forward[from+k]*sin - down[from+k]*cos
		load[k] = f / atmosphere.Gravity
		coefficient[k] = m.context.Mass * f / (m.air.pressure[from+k] * m.context.WingArea)
	}
	return load, coefficient
}
