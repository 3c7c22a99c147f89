package reduce

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
	"wingproof/flightlog/manoeuvre"
	"wingproof/flightlog/quality"
	"wingproof/flightlog/reconstruct"
)

// Reduce turns a recording into test points, in order of time.
//
// The error tells what is wrong with the context: mass, wing area and mean chord must be positive. What is
// wrong with the recording comes as findings instead: its own, those of quality.Inspect, and what the reduction had to
// assume or leave out. A recording that lacks a channel, or that Inspect refuses, gives no points.
func Reduce(rec *flightlog.Recording, c Context) (Reduction, error) {
	out := Reduction{Flight: c.Flight, Points: []TestPoint{}, Air: Air{Whiteness: []reconstruct.Whiteness{}}, Manoeuvres: []manoeuvre.Manoeuvre{},
		Stalls: []StallPoint{}, Slips: []SlipPoint{}, Loads: []LoadPoint{}, Findings: []flightlog.Finding{}}
	if err := c.valid(); err != nil {
		return out, err
	}
	if rec == nil {
		return out, errors.New("reduce: there is no recording")
	}
	needed, usable := out.inspect(rec, c)
	if !usable {
		return out, nil
	}
	rec = withoutLost(rec, out.Findings)
	if lack := Lacking(rec); len(lack) > 0 && lack[0].Severity == flightlog.Refusal {
		return out, nil // what was lost has been told
	}
	if found := withMarks(manoeuvre.Find(rec), c.Marks, rec); found != nil {
		out.Manoeuvres = found
	}
	m, findings := measure(rec, c, needed, out.Findings, breaksOf(out.Manoeuvres))
	out.Findings = append(out.Findings, findings...)
	if m == nil {
		return out, nil
	}
	m.flown, out.Air, findings = reconstructed(rec, c, out.Findings)
	m.lost = losses(findings)
	out.Findings = append(out.Findings, findings...)
	seen := slices.Clone(out.Findings) // of the log and of the path: what follows is about test points
	marked, unusable := m.marked()
	out.Findings = append(out.Findings, unusable...)
	out.Points = append(out.Points, m.points(m.signals.find(marked))...)
	out.tellNoPoints(m.g)
	out.addDynamic(m, seen)
	return out, nil
}

// addDynamic adds what manoeuvres gave that are no steady straight flight.
func (r *Reduction) addDynamic(m *measurement, seen []flightlog.Finding) {
	var findings [4][]flightlog.Finding
	r.Stalls, findings[0] = m.stalls(r.Manoeuvres, seen)
	r.Slips, findings[1] = m.slips(r.Manoeuvres, r.Points, seen)
	r.Loads, findings[2] = m.loads(r.Manoeuvres, seen)
	r.Segments, findings[3] = m.segments(r.Manoeuvres, seen)
	for _, more := range findings {
		r.Findings = append(r.Findings, more...)
	}
}

// inspect adds what the reader and the log's quality say, and what is lacking. usable is false after a refusal.
func (r *Reduction) inspect(rec *flightlog.Recording, c Context) (needed []flightlog.Quantity, usable bool) {
	r.Findings = append(r.Findings, rec.Findings...)
	if c.Aircraft.Mass > 0 {
		r.Findings = append(r.Findings, quality.InspectIn(rec, c.Aircraft)...)
	} else {
		r.Findings = append(r.Findings, quality.Inspect(rec)...)
	}
	needed, lack := neededChannels(rec)
	r.Findings = append(r.Findings, lack...)
	for _, f := range r.Findings {
		if f.Severity == flightlog.Refusal {
			return needed, false
		}
	}
	return needed, true
}

// tellNoPoints says why a flight gave no test point, when it gave none: nothing was steady, or every steady stretch was dropped.
func (r *Reduction) tellNoPoints(g *grid) {
	reasons := map[string]int{}
	most := ""
	for _, p := range r.Points {
		if p.Kept {
			return
		}
		reasons[p.Reason]++
		if n := reasons[p.Reason]; n > reasons[most] || n == reasons[most] && p.Reason < most {
			most = p.Reason
		}
	}
	f := flightlog.Finding{Severity: flightlog.Loss, Start: g.start, End: g.time(g.n - 1),
		What:        fmt.Sprintf(flightlog.NothingSteady+"of %g s or more was found", shortest),
		Consequence: "the flight gives no test points; fly straight at constant speed for 10 s with throttle and elevator held"}
	if n := len(r.Points); n > 0 {
		f.What = fmt.Sprintf(flightlog.NoneKept+"%d calm stretches could be kept (most often: %s)", n, most)
		f.Consequence = "the flight gives no test points; 'reduce' tells the reason for each"
	}
	r.Findings = append(r.Findings, f)
}

func (c Context) valid() error {
	var wrong []error
	for _, v := range []struct {
		name string
		x    float64
		unit string
	}{{"mass", c.Mass, "kg"}, {"wing area", c.WingArea, "m²"}, {"mean chord", c.MeanChord, "m"}} {
		if !(v.x > 0) || math.IsInf(v.x, 0) {
			wrong = append(wrong, fmt.Errorf("reduce flight %q: the %s of the model is %g %s; it must be positive", c.Flight, v.name, v.x, v.unit))
		}
	}
	return errors.Join(wrong...)
}

// Lacking lists what a recording lacks before test points can be formed: a Refusal for channels without which there is no
// point, a Loss for a throttle. It is empty when nothing is lacking.
func Lacking(rec *flightlog.Recording) []flightlog.Finding {
	_, findings := neededChannels(rec)
	return findings
}

// neededChannels lists the channels without which there is no point, and refuses a recording that lacks one.
func neededChannels(rec *flightlog.Recording) (needed []flightlog.Quantity, findings []flightlog.Finding) {
	has := func(q flightlog.Quantity) bool { return len(rec.Channels[q].Time) >= 2 }
	needed = neededBy(has)
	var missing []string
	for _, q := range needed {
		if !has(q) {
			missing = append(missing, string(q))
		}
	}
	if len(missing) > 0 {
		findings = append(findings, flightlog.Finding{Severity: flightlog.Refusal, Channel: flightlog.Quantity(missing[0]),
			What:        "the recording holds no samples of " + strings.Join(missing, ", "),
			Consequence: "test points cannot be formed; name the columns in the logger map"})
	}
	if !has(flightlog.Throttle) {
		findings = append(findings, flightlog.Finding{Severity: flightlog.Loss, Channel: flightlog.Throttle,
			What: "the recording holds no throttle", Consequence: "glides cannot be told from powered flight, so that no point is kept"})
	}
	return needed, findings
}

// measure brings a recording onto the grid. It gives nil when there is no flight in it.
func measure(rec *flightlog.Recording, c Context, needed []flightlog.Quantity, seen []flightlog.Finding, breaks []float64) (*measurement, []flightlog.Finding) {
	g := newGrid(rec, needed)
	if float64(g.n)*gridStep < shortest {
		return nil, []flightlog.Finding{{Severity: flightlog.Loss, What: fmt.Sprintf("the needed channels share only %.1f s", float64(g.n)*gridStep), Consequence: "there is no test point"}}
	}
	a, findings := airData(rec, g, c)
	load := make([]float64, g.n)
	for i, z := range g.get(flightlog.DownAcceleration) {
		load[i] = -z / atmosphere.Gravity
	}
	barred, flying := barredInstants(g, a, needed, seen)
	off := slices.Clone(barred)
	leaveOut(off, g, onlyLeaveOut(c.Marks))
	leaveOut(barred, g, c.Marks)
	if !flying {
		return nil, append(findings, flightlog.Finding{Severity: flightlog.Loss, Channel: flightlog.Airspeed, Start: g.start, End: g.time(g.n - 1),
			What: fmt.Sprintf("airspeed never stays above %g m/s", leastSpeed), Consequence: "the recording holds no flight"})
	}
	m := &measurement{context: c, g: g, air: a, load: load, signals: newSignals(g, a, load, barred, off, breaks), sensors: rec.Sensors}
	for _, t := range m.signals.breaks {
		findings = append(findings, flightlog.Finding{Severity: flightlog.Note, Channel: flightlog.PitchRate, Start: t, End: t + breakSpan,
			What: "the nose drops with the elevator held, near the lowest speed: a stall break", Consequence: fmt.Sprintf("no test point is taken within %g s of it", breakMargin)})
	}
	return m, findings
}

// barredInstants marks where no window may lie: on the ground, without samples, and where Inspect found a
// needed channel frozen or missing.
func barredInstants(g *grid, a air, needed []flightlog.Quantity, seen []flightlog.Finding) (barred []bool, flying bool) {
	barred = make([]bool, g.n)
	slow := make([]bool, g.n)
	for i, v := range a.speed {
		slow[i] = !(v >= leastSpeed)
	}
	usual := medianOf(a.speed, slow)
	for i, v := range a.speed {
		barred[i] = slow[i] || v < flyingShare*usual || math.IsNaN(a.height[i])
		for _, q := range needed {
			barred[i] = barred[i] || math.IsNaN(g.get(q)[i])
		}
		flying = flying || !barred[i]
	}
	for _, f := range seen {
		if f.Severity != flightlog.Loss || f.End <= f.Start || !spoils(f, needed) {
			continue
		}
		for i := max(int((f.Start-g.start)/gridStep), 0); i < g.n && g.time(i) <= f.End; i++ {
			barred[i] = true
		}
	}
	return barred, flying
}

// spoils tells whether a finding of Inspect takes a needed channel out over its time range. Findings of the reader
// have a line: they count rows left out, which need not lie close together.
func spoils(f flightlog.Finding, needed []flightlog.Quantity) bool {
	if f.Line > 0 {
		return false
	}
	for _, q := range needed {
		if f.Channel == q || f.Channel == "" {
			return true
		}
	}
	return false
}
