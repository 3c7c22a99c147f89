package reduce

import (
	"fmt"
	"math"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
	"wingproof/flightlog/manoeuvre"
)

// How the held step of a pull-up is read. It is too short for the low-pass of the grid, so that samples are taken as they come. Common
// practice, no source.
const (
	pullSettles   = 0.6         // s behind the step: half a short period of a model, in which the load factor comes up
	pullLetsGo    = 0.06        // s ahead of its end: the servo of a hand that lets go early
	pullLeast     = 8           // samples of the path
	pullPitchRate = 12 * degree // rad/s² that the pitch rate may still change by: more, and inertia holds the nose
	pullBank      = 15 * degree
)

// pullUp takes the means over the part of a pull-up in which the load factor stands.
func (m *measurement) pullUp(t manoeuvre.Manoeuvre, lost []obstacle) loadDraft {
	start, end := math.Max(t.Start+pullSettles, (t.Start+t.End)/2), t.End-pullLetsGo
	d := loadDraft{LoadPoint: m.plainLoad(t.Kind, start, end)}
	p := m.flown
	i, j := firstAt(p, start), firstAt(p, end)
	if j-i < pullLeast {
		d.Start, d.End = t.Start, t.End
		d.Reason = fmt.Sprintf("the step is held for %.1f s only, at least %.1f s are needed", t.End-t.Start, pullSettles+pullLetsGo+float64(pullLeast)*m.pathStep())
		return d
	}
	start, end = p.Time[i]-m.pathStep()/2, p.Time[j-1]+m.pathStep()/2 // of the samples taken
	d.Start, d.End = start, end
	flow, known := m.alphaByPath(start, end)
	if !known {
		d.Reason = "the path of the model is not known there"
		return d
	}
	d.Alpha, d.AlphaSD = flow.Alpha, math.Max(leastAlphaSD, math.Sqrt(math.Max(0, flow.AlphaSD*flow.AlphaSD-flow.AlphaCommonSD*flow.AlphaCommonSD)))
	d.Airspeed = m.trueOver(start, end)
	from, to := m.instants(start, end)
	density := mean(m.air.density[from:to])
	d.readPull(m, i, j, density*d.Airspeed*d.Airspeed/2)
	elevator := between(m.g.clean[flightlog.Elevator], start, end).Value
	if len(elevator) == 0 {
		elevator = []float64{m.g.get(flightlog.Elevator)[from]}
	}
	d.Elevator, d.ElevatorSD = mean(elevator), leastElevatorSD
	if d = d.sound(); d.Reason != "" {
		return d
	}
	w := stretch{i: from, j: to - 1}
	rate := slopeFit(p.Time[i:j], p.PitchRate[i:j])
	w.check(rate.value/degree, pullPitchRate/degree, "pitch rate still changes by %.0f°/s², over %g°/s²")
	w.check(mean(p.Roll[i:j])/degree, pullBank/degree, "bank is %.0f°, over %g°")
	d.verdict(w, lost)
	return d
}

// readPull averages load factor, lift and pitch rate over instants of the path, with the scatter of the means as of white noise.
func (d *loadDraft) readPull(m *measurement, i, j int, pressure float64) {
	p := m.flown
	load := make([]float64, j-i)
	for k := range load {
		sin, cos := math.Sincos(p.Alpha[i+k])
		load[k] = (p.ForwardForce[i+k]*sin - p.DownForce[i+k]*cos) / atmosphere.Gravity
	}
	f := meanFit(load)
	n := float64(len(load))
	d.LoadFactor = f.value
	d.LoadFactorSD = math.Sqrt(dot(f.residuals, f.residuals) / (n - 2) / n)
	perLoad := m.context.Mass * atmosphere.Gravity / (pressure * m.context.WingArea)
	d.Lift = d.LoadFactor * perLoad
	d.LiftSD = math.Hypot(d.LoadFactorSD*perLoad, d.Lift*m.pressureNoise(d.Start, d.End))
	d.PitchRate = mean(p.PitchRate[i:j])
}

// trueOver is the mean true airspeed of the samples over a time, which the low-pass of the grid would mix with what is beside.
func (m *measurement) trueOver(start, end float64) float64 {
	i, j := m.instants(start, end)
	calibrated := m.g.get(flightlog.Airspeed)[i:j]
	c := readings(between(m.g.clean[flightlog.Airspeed], start, end))
	if len(c.Value) < pullLeast {
		return mean(m.air.speed[i:j])
	}
	return mean(c.Value) * mean(m.air.speed[i:j]) / mean(calibrated)
}

// pressureNoise is the relative standard deviation that the noise of the airspeed leaves in the mean dynamic pressure over a time.
func (m *measurement) pressureNoise(start, end float64) float64 {
	c := readings(between(m.g.clean[flightlog.Airspeed], start, end))
	if len(c.Value) < 5 {
		return 0
	}
	return 2 * scatter(c) / (mean(c.Value) * math.Sqrt(float64(len(c.Value))))
}
