package reduce

import (
	"math"
	"slices"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
	"wingproof/flightlog/reconstruct"
)

const (
	ByAttitude = "pitch attitude minus path angle, wings level"
	byVane     = "vane"
	byPath     = "path reconstruction"
	// leastElevatorSD stands for the dead band of a servo, which a constant command hides. Common practice, no source.
	leastElevatorSD = 0.05 * degree
	// unknownVaneBias stands for the mounting of a vane that nothing else checks. Common practice, no source.
	unknownVaneBias = 1 * degree
	// What is believed where the context states nothing, and of the attitude solution of a small unit. Common practice, no source.
	usualBoresight   = 0.2 * degree
	usualVerticalAir = 0.2 // m/s
	attitudeBias     = 0.3 * degree
	// leastAlphaSD stands for the wander of an attitude solution over seconds. Common practice, no source.
	leastAlphaSD = 0.05 * degree
)

// driftShare is by how much a least-squares slope scatters more than the mean of its increments, where what adds up to the
// height is white: √(6/5), a property of the random walk.
const driftShare = 1.0954451150103321

// measurement is one flight on the grid, with what a point is computed from.
type measurement struct {
	context Context
	g       *grid
	air     air
	load    []float64
	signals *signals
	sensors flightlog.Sensors
	flown   *reconstruct.Path   // nil when it could not be reconstructed
	lost    []flightlog.Finding // where it lost itself
}

// draft is a point whose standard deviations wait for the other windows.
type draft struct {
	TestPoint
	alpha, elevator, lift, energy fit
	alphaBlocks                   fit     // slopes of seconds; empty with a vane
	pathSD                        float64 // random part of a reconstructed angle of attack
	dragScale                     float64
}

// points averages the stretches and gives each mean its standard deviation, from the residuals of all kept ones, or of
// all when none is kept.
func (m *measurement) points(stretches []stretch) []TestPoint {
	drafts := make([]draft, len(stretches))
	var alpha, blocks, elevator, lift, energy []fit
	for i, w := range stretches {
		drafts[i] = m.average(w)
	}
	anyKept := slices.ContainsFunc(drafts, func(d draft) bool { return d.Kept })
	for _, d := range drafts {
		if d.Kept || !anyKept {
			elevator, lift = append(elevator, d.elevator), append(lift, d.lift)
			if d.AlphaMethod != byPath {
				alpha = append(alpha, d.alpha)
			}
			blocks = append(blocks, d.alphaBlocks)
			if d.HasDrag {
				energy = append(energy, d.energy)
			}
		}
	}
	alphaPool, elevatorPool, liftPool, energyPool := gridPool(alpha), gridPool(elevator), gridPool(lift), gridPool(energy)
	blockPool := newPool(blocks, 1, 0)
	out := make([]TestPoint, len(drafts))
	for i := range drafts {
		d := &drafts[i]
		d.AlphaSD = leastAlphaSD
		if len(d.alpha.residuals) > 0 {
			d.AlphaSD = math.Max(alphaPool.sd(d.alpha), leastAlphaSD)
		}
		d.AlphaSD = math.Max(d.AlphaSD, d.pathSD)
		if len(d.alphaBlocks.residuals) > 0 {
			d.AlphaSD = math.Max(d.AlphaSD, driftShare*blockPool.sd(d.alphaBlocks))
		}
		if d.AlphaMethod == ByAttitude {
			d.AlphaAbsoluteSD = m.attitudeDoubt(d.AlphaSD, d.Airspeed)
		}
		d.ElevatorSD = math.Max(elevatorPool.sd(d.elevator), leastElevatorSD)
		d.LiftSD = liftPool.sd(d.lift)
		if d.HasDrag {
			d.DragSD = energyPool.sd(d.energy) * d.dragScale
		}
		out[i] = d.TestPoint
	}
	return out
}

// attitudeDoubt is the absolute standard deviation of an angle of attack that is attitude less path angle: to the scatter come the mounting
// of the inertial unit, the bias of its attitude, and steady vertical air, which tilts the path.
func (m *measurement) attitudeDoubt(random, speed float64) float64 {
	boresight, air := m.context.BoresightSD, m.context.VerticalAirSD
	if boresight == 0 {
		boresight = usualBoresight
	}
	if air == 0 {
		air = usualVerticalAir
	}
	return math.Hypot(math.Hypot(random, boresight), math.Hypot(attitudeBias, air/speed))
}

// average is one stretch without its standard deviations.
func (m *measurement) average(w stretch) draft {
	p := draft{TestPoint: TestPoint{Flight: m.context.Flight, Start: m.g.time(w.i), End: m.g.time(w.j - 1)}}
	p.Mass, p.CG = m.context.Mass, m.context.CG.X
	p.Airspeed = mean(m.air.speed[w.i:w.j])
	p.AirspeedSD = m.signals.speed.over(w.i, w.j).scatter
	p.DynamicPressure = mean(m.air.pressure[w.i:w.j])
	p.Density = mean(m.air.density[w.i:w.j])
	p.Reynolds = p.Density * p.Airspeed * m.context.MeanChord / mean(m.air.viscosity[w.i:w.j])
	p.Bank = mean(m.g.get(flightlog.RollAngle)[w.i:w.j])
	p.elevator = meanFit(m.g.get(flightlog.Elevator)[w.i:w.j])
	p.Elevator = p.elevator.value
	path := m.path(w)
	p.PathAngle = math.Asin(clamp(slopeFit(path, m.air.height[w.i:w.j]).value))
	m.findAlpha(&p, w)
	m.findLift(&p, w)
	m.classify(&p.TestPoint, w)
	if p.Kind == "glide" {
		m.findDrag(&p, w, path)
	}
	m.verdict(&p.TestPoint, w)
	return p
}

// path is the way through the air [m] since the start of the stretch.
func (m *measurement) path(w stretch) []float64 {
	out := make([]float64, w.j-w.i)
	for k := 1; k < len(out); k++ {
		out[k] = out[k-1] + gridStep*(m.air.speed[w.i+k]+m.air.speed[w.i+k-1])/2
	}
	return out
}

// findAlpha takes the reconstructed path where there is one, else the vane's mean, else the angle that carries the attitude to the measured height: with
// A = ∫V·sin θ dt and B = ∫V·cos φ·cos θ dt, h = A·cos α − B·sin α. It is solved by repeating the straight fit of
// A·cos α − h on B, which converges in a few rounds at flying angles.
func (m *measurement) findAlpha(p *draft, w stretch) {
	if reconstructed, ok := m.alphaByPath(p.Start, p.End); ok {
		r := reconstructed
		p.Alpha, p.AlphaMethod, p.AlphaAbsoluteSD = r.Alpha, byPath, r.AlphaSD
		p.pathSD = math.Sqrt(math.Max(0, r.AlphaSD*r.AlphaSD-r.AlphaCommonSD*r.AlphaCommonSD))
		p.Sideslip, p.SideslipSD, p.HasSideslip = r.Beta, r.BetaSD, true
		return
	}
	if vane := m.g.get(flightlog.AngleOfAttack); vane != nil && whole(vane[w.i:w.j]) {
		p.alpha = meanFit(vane[w.i:w.j])
		p.Alpha, p.AlphaMethod = p.alpha.value, byVane
		m.sideslipByVane(p, w)
		return
	}
	p.AlphaMethod = ByAttitude
	m.sideslipByVane(p, w)
	theta, phi := m.g.get(flightlog.PitchAngle), m.g.get(flightlog.RollAngle)
	n := w.j - w.i
	up, along, missing := make([]float64, n), make([]float64, n), make([]float64, n)
	for k := 1; k < n; k++ {
		up[k], along[k] = up[k-1], along[k-1]
		for _, i := range [2]int{w.i + k - 1, w.i + k} {
			half := gridStep / 2 * m.air.speed[i]
			up[k] += half * math.Sin(theta[i])
			along[k] += half * math.Cos(phi[i]) * math.Cos(theta[i])
		}
	}
	for range 4 {
		for k := range missing {
			missing[k] = up[k]*math.Cos(p.Alpha) - m.air.height[w.i+k]
		}
		p.alpha = slopeFit(along, missing)
		p.Alpha = math.Asin(clamp(p.alpha.value))
	}
	p.alphaBlocks = blockSlopes(along, missing)
}

// sideslipByVane takes the mean of a sideslip vane as it was logged, for want of a reconstructed path.
func (m *measurement) sideslipByVane(p *draft, w stretch) {
	if vane := m.g.get(flightlog.Sideslip); vane != nil && whole(vane[w.i:w.j]) {
		p.Sideslip, p.SideslipSD, p.HasSideslip = mean(vane[w.i:w.j]), unknownVaneBias, true
	}
}

// findLift averages m·(X·sin α − Z·cos α)/(q·S) over the instants, and the load factor that goes with it. The error of α
// enters through X, which is a tenth of Z.
func (m *measurement) findLift(p *draft, w stretch) {
	forward, down := m.g.get(flightlog.ForwardAcceleration), m.g.get(flightlog.DownAcceleration)
	sin, cos := math.Sincos(p.Alpha)
	n := w.j - w.i
	coefficient, load := make([]float64, n), make([]float64, n)
	for k := range n {
		i := w.i + k
		f := forward[i]*sin - down[i]*cos
		coefficient[k] = m.context.Mass * f / (m.air.pressure[i] * m.context.WingArea)
		load[k] = f / atmosphere.Gravity
	}
	p.lift = meanFit(coefficient)
	p.Lift = p.lift.value
	p.LoadFactor = mean(load)
}

// findDrag is −m·dE/ds over q·S, with the energy E = g·h + V²/2 along the path s through the air.
func (m *measurement) findDrag(p *draft, w stretch, path []float64) {
	energy := make([]float64, w.j-w.i)
	for k := range energy {
		v := m.air.speed[w.i+k]
		energy[k] = atmosphere.Gravity*m.air.height[w.i+k] + v*v/2
	}
	p.energy = slopeFit(path, energy)
	p.dragScale = m.context.Mass / (p.DynamicPressure * m.context.WingArea)
	p.Drag, p.HasDrag = -p.energy.value*p.dragScale, true
}

func whole(values []float64) bool {
	for _, v := range values {
		if math.IsNaN(v) {
			return false
		}
	}
	return true
}

func clamp(x float64) float64 { return math.Min(math.Max(x, -1), 1) }
