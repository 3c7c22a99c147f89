package reduce

import (
	"fmt"
	"math"
	"strings"

	"wingproof/flightlog"
	"wingproof/flightlog/manoeuvre"
	"wingproof/flightlog/statistic"
)

// Limits of the steady part of a turn; those of a test point serve beside. Common practice, no source.
const (
	longestLoad, shortestLoad = 8.0, 3.0 // s
	loadStep                  = 1.0      // s by which shorter ones are tried
	leastLoad                 = 1.1      // load factor: less is level flight
	turnBankScatter           = 5 * degree
	turnPitchRateTrend        = 2 * degree // rad/s²
)

// loadDraft is a point whose standard deviations wait for the other windows.
type loadDraft struct {
	LoadPoint
	elevator, lift, load fit
}

// loads gives the steady parts of turns and circles, and the held parts of pull-ups.
func (m *measurement) loads(found []manoeuvre.Manoeuvre, seen []flightlog.Finding) ([]LoadPoint, []flightlog.Finding) {
	var listed []manoeuvre.Manoeuvre
	for _, t := range found {
		if t.Kind == manoeuvre.Turn || t.Kind == manoeuvre.Circle || t.Kind == manoeuvre.PullUp {
			listed = append(listed, t)
		}
	}
	if len(listed) == 0 {
		return []LoadPoint{}, nil
	}
	if m.flown == nil {
		return []LoadPoint{}, noPullUps(listed)
	}
	lost := m.lostFor(seen, flightlog.PitchRate, flightlog.ForwardAcceleration, flightlog.DownAcceleration, flightlog.Airspeed, flightlog.Elevator)
	var drafts []loadDraft
	for _, t := range listed {
		if t.Kind == manoeuvre.PullUp {
			drafts = append(drafts, m.pullUp(t, lost))
			continue
		}
		for _, w := range m.turnWindows(t) {
			d := m.loadOver(w, t.Kind)
			d.verdict(w, lost)
			drafts = append(drafts, d)
		}
	}
	return pooledLoads(drafts), nil
}

// noPullUps says that pull-ups give nothing without a path. Of turns nothing is said: a flight without a path is full of them.
func noPullUps(listed []manoeuvre.Manoeuvre) (out []flightlog.Finding) {
	for _, t := range listed {
		if t.Kind == manoeuvre.PullUp {
			out = append(out, flightlog.Finding{Severity: flightlog.Note, Start: t.Start, End: t.End,
				What:        "this pull-up cannot be used, because the path of the model through the air could not be reconstructed",
				Consequence: "the manoeuvre point gets nothing from it: attitude alone does not tell the angle of attack there"})
		}
	}
	return out
}

// turnWindows gives the steady windows of a turn, longest first; when there is none, the steadiest with what is wrong with it.
func (m *measurement) turnWindows(t manoeuvre.Manoeuvre) []stretch {
	from, to := m.index(t.Start), min(m.index(t.End)+1, m.g.n)
	var out []stretch
	for seconds := longestLoad; seconds >= shortestLoad-1e-9; seconds -= loadStep {
		for {
			w, ok := m.steadiestOf(from, to, int(math.Round(seconds/gridStep)), out, m.judgeTurn)
			if !ok || len(w.faults) > 0 {
				break
			}
			out = append(out, w)
		}
	}
	if len(out) == 0 {
		if w, ok := m.steadiestOf(from, to, int(math.Round(shortestLoad/gridStep)), nil, m.judgeTurn); ok {
			out = append(out, w)
		}
	}
	return out
}

// judgeTurn fills in score and faults of a window in a turn; false where samples are missing or nothing is steady.
func (m *measurement) judgeTurn(w *stretch) bool {
	s := m.signals
	speed, ok := s.judgeSteady(w)
	if !ok {
		return false
	}
	load, bank, elevator := s.load.over(w.i, w.j), s.bank.over(w.i, w.j), s.elevator.over(w.i, w.j)
	w.check(speed.scatter/speed.mean*100, maxSpeedScatter*100, "airspeed scatters by %.1f %%, over %g %%")
	w.check(load.scatter, maxLoadScatter, "load factor scatters by %.2f, over %g")
	w.check(bank.scatter/degree, turnBankScatter/degree, "bank scatters by %.1f°, over %g°")
	w.check(elevator.trend/degree, maxElevatorTrend/degree, "elevator moves by %.2f° a second, over %g°")
	w.check(elevator.scatter/degree, maxElevatorScatter/degree, "elevator scatters by %.1f°, over %g°")
	if s.pitchRate != nil {
		w.check(s.pitchRate.over(w.i, w.j).trend/degree, turnPitchRateTrend/degree, "pitch rate drifts by %.2f°/s², over %g°/s²: not in trim")
	}
	return true
}

// loadOver takes the means over a window.
func (m *measurement) loadOver(w stretch, kind manoeuvre.Kind) loadDraft {
	d := loadDraft{LoadPoint: m.plainLoad(kind, m.g.time(w.i), m.g.time(w.j-1))}
	d.Airspeed = mean(m.air.speed[w.i:w.j])
	flow, known := m.alphaByPath(d.Start, d.End)
	if !known {
		d.Reason = "the path of the model is not known there"
		return d
	}
	d.Alpha, d.AlphaSD = flow.Alpha, math.Max(leastAlphaSD, math.Sqrt(math.Max(0, flow.AlphaSD*flow.AlphaSD-flow.AlphaCommonSD*flow.AlphaCommonSD)))
	load, lift := m.liftAlong(w.i, m.ofPath(m.flown.Alpha, w.i, w.j))
	d.load, d.lift, d.elevator = meanFit(load), meanFit(lift), meanFit(m.g.get(flightlog.Elevator)[w.i:w.j])
	d.LoadFactor, d.Lift, d.Elevator = d.load.value, d.lift.value, d.elevator.value
	d.PitchRate = mean(m.ofPath(m.flown.PitchRate, w.i, w.j))
	return d.sound()
}

// plainLoad is a point without its measures.
func (m *measurement) plainLoad(kind manoeuvre.Kind, start, end float64) LoadPoint {
	return LoadPoint{Flight: m.context.Flight, Start: start, End: end, Kind: string(kind), Mass: m.context.Mass, CG: m.context.CG.X, Power: m.powerOver(start, end)}
}

// sound empties a point that holds a number which is none.
func (d loadDraft) sound() loadDraft {
	if statistic.Finite(d.Airspeed, d.LoadFactor, d.Lift, d.Alpha, d.AlphaSD, d.PitchRate, d.Elevator, d.LoadFactorSD, d.LiftSD, d.ElevatorSD) {
		return d
	}
	return loadDraft{LoadPoint: LoadPoint{Flight: d.Flight, Start: d.Start, End: d.End, Kind: d.Kind, Mass: d.Mass, CG: d.CG, Power: d.Power,
		Reason: "its samples give no finite numbers"}}
}

// verdict keeps a point or says why not.
func (d *loadDraft) verdict(w stretch, lost []obstacle) {
	if d.Reason != "" {
		return
	}
	faults := append([]string(nil), w.faults...)
	if d.LoadFactor < leastLoad {
		faults = append(faults, fmt.Sprintf("the load factor is %.2f, under %g: nearly level flight", d.LoadFactor, leastLoad))
	}
	for _, o := range lost {
		if o.start <= d.End && o.end >= d.Start {
			faults = append(faults, o.what)
		}
	}
	if len(faults) > 0 {
		d.Reason = strings.Join(faults, "; ")
		return
	}
	d.Kept, d.Reason = true, fmt.Sprintf("steady for %.1f s at %.2f times the weight", w.seconds(), d.LoadFactor)
}

// pooledLoads gives each point of a turn its standard deviations from the residuals of all kept ones, or of all when none is kept.
func pooledLoads(drafts []loadDraft) []LoadPoint {
	anyKept := false
	for _, d := range drafts {
		anyKept = anyKept || d.Kept && len(d.lift.residuals) > 0
	}
	var elevator, lift, load []fit
	for _, d := range drafts {
		if len(d.lift.residuals) > 0 && (d.Kept || !anyKept) {
			elevator, lift, load = append(elevator, d.elevator), append(lift, d.lift), append(load, d.load)
		}
	}
	elevatorPool, liftPool, loadPool := gridPool(elevator), gridPool(lift), gridPool(load)
	out := make([]LoadPoint, len(drafts))
	for i := range drafts {
		d := &drafts[i]
		if len(d.lift.residuals) > 0 {
			d.ElevatorSD = math.Max(elevatorPool.sd(d.elevator), leastElevatorSD)
			d.LiftSD, d.LoadFactorSD = liftPool.sd(d.lift), loadPool.sd(d.load)
		}
		out[i] = d.LoadPoint
	}
	return out
}
