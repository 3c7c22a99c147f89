package reduce

import (
	"fmt"
	"math"
	"strings"

	"wingproof/flightlog"
	"wingproof/flightlog/manoeuvre"
	"wingproof/flightlog/statistic"
)

// Limits of the steady part of a sideslip; those of a test point serve beside. Common practice, no source: what is left of turning and
// rolling stands in the point, so that a fit can take its damping off.
const (
	longestSlip, shortestSlip = 8.0, 2.0     // s
	slipStep                  = 0.5          // s by which shorter ones are tried
	slipRollRate              = 2 * degree   // rad/s, mean
	slipYawRate               = 3.5 * degree // rad/s, mean, as in package manoeuvre
	slipBankDrift             = 4 * degree   // over the window
	slipRudderDrift           = 1.5 * degree
	slipRudderScatter         = 1 * degree
	zeroSpeed                 = 0.15 // relative: a level stretch at another speed is no zero of the slopes
)

// slipDraft is a point whose standard deviations wait for the other windows.
type slipDraft struct {
	SlipPoint
	rudder, aileron, side fit
}

// slips gives the steady part of each sideslip, and level stretches at the same speed for a zero.
func (m *measurement) slips(found []manoeuvre.Manoeuvre, points []TestPoint, seen []flightlog.Finding) ([]SlipPoint, []flightlog.Finding) {
	var drafts []slipDraft
	var listed []manoeuvre.Manoeuvre
	for _, s := range found {
		if s.Kind == manoeuvre.Sideslip {
			listed = append(listed, s)
		}
	}
	if len(listed) == 0 {
		return []SlipPoint{}, nil
	}
	if why := m.noSlips(); why != "" {
		return []SlipPoint{}, []flightlog.Finding{{Severity: flightlog.Note, Start: listed[0].Start, End: listed[len(listed)-1].End,
			What: fmt.Sprintf("%s of this flight cannot be used, because %s", counted(len(listed), "sideslip"), why), Consequence: "directional stiffness and dihedral effect get nothing from them"}}
	}
	lost := m.lostFor(seen, flightlog.RollRate, flightlog.YawRate, flightlog.RightAcceleration, flightlog.ForwardAcceleration, flightlog.DownAcceleration,
		flightlog.Airspeed, flightlog.Aileron, flightlog.RudderLeft, flightlog.RudderRight)
	for _, s := range listed {
		w, ok := m.steadiest(s, longestSlip, shortestSlip, slipStep, m.judgeSlip)
		if !ok {
			drafts = append(drafts, slipDraft{SlipPoint: SlipPoint{Flight: m.context.Flight, Start: s.Start, End: s.End, Mass: m.context.Mass,
				CG: m.context.CG.X, Power: m.powerOver(s.Start, s.End), Reason: "samples are missing, the model is on the ground, or the controls wander"}})
			continue
		}
		d := m.slipOver(w)
		d.verdict(w, lost, "steady for %.1f s")
		drafts = append(drafts, d)
	}
	drafts = append(drafts, m.zeros(points, drafts)...)
	return pooledSlips(drafts), nil
}

// noSlips says why no sideslip of the flight can be used; empty when they can.
func (m *measurement) noSlips() string {
	switch {
	case m.flown == nil:
		return "the path of the model through the air could not be reconstructed, so that nothing tells the sideslip"
	case m.g.get(flightlog.RudderLeft) == nil && m.g.get(flightlog.RudderRight) == nil:
		return "no rudder was recorded"
	case m.g.get(flightlog.Aileron) == nil:
		return "aileron was not recorded"
	case m.signals.throttle == nil:
		return "throttle was not recorded, so that the power state is not known"
	}
	return ""
}

// judgeSlip fills in score and faults of a window; false where samples are missing or the model is not in steady flight at all.
func (m *measurement) judgeSlip(w *stretch) bool {
	s := m.signals
	speed, ok := s.judgeSteady(w)
	if !ok {
		return false
	}
	bank := s.bank.over(w.i, w.j)
	w.check(bank.trend*w.seconds()/degree, slipBankDrift/degree, "bank drifts by %.1f°, over %g°")
	w.check(bank.scatter/degree, maxBankScatter/degree, "bank scatters by %.1f°, over %g°")
	w.check(speed.scatter/speed.mean*100, maxSpeedScatter*100, "airspeed scatters by %.1f %%, over %g %%")
	for _, c := range []struct {
		of    *sums
		limit float64
		fault string
	}{{s.rollRate, slipRollRate, "roll rate is %.1f°/s, over %g°/s"}, {s.yawRate, slipYawRate, "yaw rate is %.1f°/s, over %g°/s: the heading is not held"}} {
		if c.of == nil {
			return false
		}
		rate := c.of.over(w.i, w.j)
		if !rate.whole {
			return false
		}
		w.check(rate.mean/degree, c.limit/degree, c.fault)
	}
	for _, rudder := range []*sums{s.rudderLeft, s.rudderRight} {
		if rudder == nil {
			continue
		}
		r := rudder.over(w.i, w.j)
		w.check(r.trend*w.seconds()/degree, slipRudderDrift/degree, "the rudder drifts by %.1f°, over %g°")
		w.check(r.scatter/degree, slipRudderScatter/degree, "the rudder scatters by %.1f°, over %g°")
	}
	return true
}

// slipOver takes the means over a window.
func (m *measurement) slipOver(w stretch) slipDraft {
	d := slipDraft{SlipPoint: SlipPoint{Flight: m.context.Flight, Start: m.g.time(w.i), End: m.g.time(w.j - 1), Mass: m.context.Mass, CG: m.context.CG.X}}
	d.Power = m.powerOver(d.Start, d.End)
	d.Airspeed = mean(m.air.speed[w.i:w.j])
	flow, known := m.alphaByPath(d.Start, d.End)
	if !known {
		d.Reason = "the path of the model is not known there"
		return d
	}
	d.Sideslip, d.SideslipAbsoluteSD = flow.Beta, flow.BetaSD
	d.SideslipSD = math.Max(leastAlphaSD, math.Sqrt(math.Max(0, flow.BetaSD*flow.BetaSD-flow.BetaCommonSD*flow.BetaCommonSD)))
	d.rudder, d.aileron = meanFit(m.meanRudder(w)), meanFit(m.g.get(flightlog.Aileron)[w.i:w.j])
	d.Rudder, d.Aileron = d.rudder.value, d.aileron.value
	alpha := m.ofPath(m.flown.Alpha, w.i, w.j)
	_, lift := m.liftAlong(w.i, alpha)
	d.Lift = mean(lift)
	side := m.ofPath(m.flown.RightForce, w.i, w.j)
	for k := range side {
		side[k] *= m.context.Mass / (m.air.pressure[w.i+k] * m.context.WingArea)
	}
	d.side = meanFit(side)
	d.SideForce = d.side.value
	d.Bank = mean(m.ofPath(m.flown.Roll, w.i, w.j))
	d.RollRate, d.YawRate = mean(m.ofPath(m.flown.RollRate, w.i, w.j)), mean(m.ofPath(m.flown.YawRate, w.i, w.j))
	if !statistic.Finite(d.Sideslip, d.SideslipAbsoluteSD, d.SideslipSD, d.Rudder, d.Aileron, d.Lift, d.SideForce, d.Bank, d.RollRate, d.YawRate, d.Airspeed) {
		return slipDraft{SlipPoint: SlipPoint{Flight: d.Flight, Start: d.Start, End: d.End, Mass: d.Mass, CG: d.CG, Power: d.Power, Reason: "its samples give no finite numbers"}}
	}
	return d
}

// meanRudder is the mean of both rudders where both were logged, else the one that was.
func (m *measurement) meanRudder(w stretch) []float64 {
	left, right := m.g.get(flightlog.RudderLeft), m.g.get(flightlog.RudderRight)
	switch {
	case left == nil:
		return right[w.i:w.j]
	case right == nil:
		return left[w.i:w.j]
	}
	out := make([]float64, w.j-w.i)
	for k := range out {
		out[k] = (left[w.i+k] + right[w.i+k]) / 2
	}
	return out
}

// verdict keeps a point or says why not.
func (d *slipDraft) verdict(w stretch, lost []obstacle, kept string) {
	if d.Reason != "" {
		return
	}
	faults := append([]string(nil), w.faults...)
	for _, o := range lost {
		if o.start <= d.End && o.end >= d.Start {
			faults = append(faults, o.what)
		}
	}
	if len(faults) > 0 {
		d.Reason = strings.Join(faults, "; ")
		return
	}
	d.Kept, d.Reason = true, fmt.Sprintf(kept, w.seconds())
}

// zeros are the level test points near the speed of the sideslips: wings level and rudder free, they give the slopes their zero.
func (m *measurement) zeros(points []TestPoint, slips []slipDraft) []slipDraft {
	speed, n := 0.0, 0.0
	for _, d := range slips {
		if d.Kept {
			speed, n = speed+d.Airspeed, n+1
		}
	}
	var out []slipDraft
	for _, p := range points {
		if !p.Kept || p.Kind != "level" || !(math.Abs(p.Airspeed*n-speed) <= zeroSpeed*speed) || n == 0 {
			continue
		}
		w := stretch{i: m.index(p.Start), j: m.index(p.End) + 1}
		if !m.judgeSlip(&w) || len(w.faults) > 0 || !whole(m.meanRudder(w)) || !whole(m.g.get(flightlog.Aileron)[w.i:w.j]) {
			continue // it still turns or rolls
		}
		d := m.slipOver(w)
		d.verdict(w, nil, "wings level without sideslip for %.1f s: the zero of the slopes")
		out = append(out, d)
	}
	return out
}

// pooledSlips gives each point its standard deviations from the residuals of all kept ones, or of all when none is kept.
func pooledSlips(drafts []slipDraft) []SlipPoint {
	anyKept := false
	for _, d := range drafts {
		anyKept = anyKept || d.Kept
	}
	var rudder, aileron, side []fit
	for _, d := range drafts {
		if len(d.side.residuals) > 0 && (d.Kept || !anyKept) {
			rudder, aileron, side = append(rudder, d.rudder), append(aileron, d.aileron), append(side, d.side)
		}
	}
	rudderPool, aileronPool, sidePool := gridPool(rudder), gridPool(aileron), gridPool(side)
	out := make([]SlipPoint, len(drafts))
	for i := range drafts {
		d := &drafts[i]
		if len(d.side.residuals) > 0 {
			d.RudderSD = math.Max(rudderPool.sd(d.rudder), leastElevatorSD)
			d.AileronSD = math.Max(aileronPool.sd(d.aileron), leastElevatorSD)
			d.SideForceSD = sidePool.sd(d.side)
		}
		out[i] = d.SlipPoint
	}
	return out
}
