package program

import (
	"errors"
	"fmt"
	"io/fs"
	"math"
	"path"
	"sort"
	"strings"

	"wingproof/aero"
	"wingproof/flightlog/unit"
)

// How far figures may lie apart before somebody is told. Common practice, no source: wide enough for an odd
// design, narrow enough for a wrong unit.
const (
	strangeMass    = 10.0 // model mass over that of a model to scale: a wrong unit
	doubtfulMass   = 1.6  // the same, from which it is said
	doubtfulSpread = 0.3  // of the model's mass: how far one weighing may lie from the others
	doubtfulNose   = 0.25 // of the length over the surfaces: how far ahead or behind something may be carried
	doubtfulShare  = 0.01 // a figure in percent below which a fraction may have been meant
)

// extent is how far the lifting surfaces reach along x, full-size m; false when there are none.
func (l *loader) extent() (front, back float64, ok bool) {
	front, back = math.Inf(1), math.Inf(-1)
	for _, s := range l.p.Surfaces {
		for _, station := range s.Stations {
			front = math.Min(front, station.LeadingEdge.X)
			back = math.Max(back, station.TrailingEdge.X)
		}
	}
	return front, back, front < back && finite(front) && finite(back)
}

// checkModelCG reports a CG of the model (full-size m by now) that lies outside the aircraft: metres, or the
// millimetres of the full-size aircraft, under a head that wants those of the model.
func (l *loader) checkModelCG(t *table, r row, c column, cg float64) {
	front, back, ok := l.extent()
	ratio := l.p.Model.LengthRatio
	if !ok || !(ratio > 0) || c.index < 0 || r.cell(c).text == "" || t.mistaken(r, c) || cg >= front && cg <= back {
		return
	}
	right := "write what was measured on the model, aft of its datum"
	if thousand := 1000 * cg; thousand > front && thousand < back {
		right += "; in metres the number would fit, but the head says " + c.unit.Name
	} else if inner := cg * ratio; inner > front && inner < back {
		right += fmt.Sprintf("; %.4g m fits the full-size aircraft, and on the model that is %.4g mm", inner, inner*ratio*1000)
	}
	t.wrong(r, c, fmt.Sprintf("%s %s puts the centre of gravity at %.2f m of the full-size aircraft, whose surfaces reach from %.2f to %.2f m",
		t.heads[c.index].text, quoted(r.cell(c).text), cg, front, back), right)
}

// checkModelMass reports a mass of the model that only a wrong unit explains, and warns of one that a model
// to scale would not have.
func (l *loader) checkModelMass(t *table, r row, c column, mass float64) {
	full := l.p.FullSize
	ratio := l.p.Model.LengthRatio
	if !(full.Mass.Value > 0) || !(ratio > 0) || !(mass > 0) || c.index < 0 || r.cell(c).text == "" || t.mistaken(r, c) {
		return
	}
	cube := ratio * ratio * ratio
	heaviest, lightest := full.Mass.Value*cube, full.Mass.Value*cube
	if full.EmptyMass.Value > 0 {
		lightest = full.EmptyMass.Value * cube
	}
	to := fmt.Sprintf("a model to scale weighs %.3g to %.3g kg", lightest, heaviest)
	switch {
	case mass > strangeMass*heaviest || mass < lightest/strangeMass:
		t.wrong(r, c, fmt.Sprintf("%s %s is %.4g kg, and %s", t.heads[c.index].text, quoted(r.cell(c).text), mass, to), "write the mass of the model in the unit of the head, or correct length_ratio")
	case mass > doubtfulMass*heaviest || mass < lightest/doubtfulMass:
		l.warn("%s: %s is %.3g kg, and %s; look at the unit", t.file, t.place(r, c), mass, to)
	}
}

// doubtWeighings warns of a weighing that lies far from the others: it is the same model.
func (l *loader) doubtWeighings() {
	var masses []float64
	for _, w := range l.p.Weighings {
		masses = append(masses, w.Mass)
	}
	if len(masses) < 3 {
		return
	}
	sort.Float64s(masses)
	middle := masses[len(masses)/2]
	for _, w := range l.p.Weighings {
		if math.Abs(w.Mass-middle) > doubtfulSpread*middle {
			l.warn("%s: weighing %s says %.4g kg, and the others lie about %.4g kg; it is the same model, so look at the unit", l.weighings, quoted(w.Name), w.Mass, middle)
		}
	}
}

// doubt warns of figures of program.toml that are fair numbers but hardly meant.
func (l *loader) doubt() {
	l.doubtFullSize()
	l.doubtLoadings()
	l.doubtSurfaces()
	l.doubtMasses()
	l.doubtFuselage()
	l.doubtPolars()
	l.doubtWeighings()
	l.doubtBays()
	for _, limit := range l.p.Limits {
		for _, bound := range []*float64{limit.AtLeast, limit.AtMost} {
			if bound != nil && limitDimension(limit.Quantity) == unit.Share && *bound != 0 && math.Abs(*bound) < 100*doubtfulShare {
				l.warn("program.toml: limit %s asks for %.3g %%; if %.3g %% is meant, write that", quoted(limit.Name), *bound, 100**bound)
			}
		}
	}
	if scale := l.p.Model.Errors.AirspeedScale; scale > 0 && scale < 0.1*doubtfulShare {
		l.warn("program.toml: airspeed_scale_percent = %.3g claims an airspeed better than 0.1 %%; it is in percent", 100*scale)
	}
}

func (l *loader) doubtFullSize() {
	full := l.p.FullSize
	front, back, ok := l.extent()
	if ok && full.EmptyX.Status != "" && (full.EmptyX.Value < front || full.EmptyX.Value > back) {
		l.warn("program.toml: empty_cg_x puts the empty aircraft's centre of gravity at %.2f m, and its surfaces reach from %.2f to %.2f m; look at the unit", full.EmptyX.Value, front, back)
	}
	if full.EmptyMass.Value > full.Mass.Value && full.Mass.Value > 0 {
		l.warn("program.toml: empty_mass (%.4g kg) is more than mass (%.4g kg)", full.EmptyMass.Value, full.Mass.Value)
	}
	if full.CruiseSpeed > 150 {
		l.warn("program.toml: cruise speed is %.0f m/s (%.0f km/h); look at the unit", full.CruiseSpeed, 3.6*full.CruiseSpeed)
	}
	if cruise := full.equivalentCruise(); cruise > 0 && full.ManoeuvreSpeed > cruise {
		l.warn("program.toml: the manoeuvre speed of %.4g kt lies above the cruise, which is %.4g kt of equivalent airspeed; it need not", full.ManoeuvreSpeed/knot, cruise/knot)
	}
	if gear := l.p.Gear; gear != nil && full.EmptyZ.Status != "" && gear.GroundZ >= full.EmptyZ.Value {
		l.warn("program.toml: ground_z puts the ground %.2f m above the empty aircraft's centre of gravity; z is up, so the ground has a negative z", gear.GroundZ-full.EmptyZ.Value)
	}
}

func (l *loader) doubtLoadings() {
	full := l.p.FullSize
	front, back, ok := l.extent()
	for _, loading := range l.p.Loadings {
		total := full.EmptyMass.Value
		for _, item := range loading.Items {
			total += item.Mass
			reach := doubtfulNose * (back - front)
			if ok && (item.X < front-reach || item.X > back+reach) {
				l.warn("program.toml: loading %s carries %s at %.2f m, and the surfaces reach from %.2f to %.2f m; x counts aft of the datum", quoted(loading.Name), item.What, item.X, front, back)
			}
		}
		if allowed := full.Mass.Value + 2*full.Mass.SD; full.EmptyMass.Value > 0 && full.Mass.Value > 0 && total > 1.02*allowed {
			l.warn("program.toml: loading %s weighs %.4g kg with the empty aircraft, more than the gross mass of %.4g kg", quoted(loading.Name), total, full.Mass.Value)
		}
	}
}

func (l *loader) doubtSurfaces() {
	l.doubtPlaces()
	for _, s := range l.p.Surfaces {
		for _, h := range s.Hinges {
			if h.HingeFraction > 0 && h.HingeFraction < doubtfulShare {
				l.warn("program.toml: surface %s hinges its %s at %.3g %% of the chord; if %.3g %% is meant, write that", quoted(s.Name), h.Control, 100*h.HingeFraction, 1e4*h.HingeFraction)
			}
			if travel := (h.TravelMax - h.TravelMin) * 180 / math.Pi; travel > 0 && travel < 3 {
				l.warn("program.toml: %s on surface %s travels %.2g° in all; travel_deg is in degrees", h.Control, quoted(s.Name), travel)
			}
		}
	}
}

// doubtPlaces warns of a wing of a strange size and of a foreplane that is no foreplane.
func (l *loader) doubtPlaces() {
	reach := func(s aero.Surface) (front, tip float64) {
		front = math.Inf(1)
		for _, station := range s.Stations {
			front = math.Min(front, station.LeadingEdge.X)
			tip = math.Max(tip, station.LeadingEdge.Y)
		}
		return front, tip
	}
	wingFront, wingTip := math.Inf(-1), 0.0
	for _, s := range l.p.Surfaces {
		if s.Role == aero.RoleWing {
			wingFront, wingTip = reach(s)
		}
	}
	if span := 2 * wingTip; span > 0 && (span < 2 || span > 60) {
		l.warn("program.toml: the wing has a span of %.3g m; the tables hold the full-size aircraft, so look at the unit in the heads", span)
	}
	for _, s := range l.p.Surfaces {
		if size := extent(s); wingTip > 0 && size < wingTip/50 {
			l.warn("program.toml: surface %s is only %.3g m from end to end and the wing reaches %.3g m out; look at the unit in the heads", quoted(s.Name), size, wingTip)
		}
	}
	for _, s := range l.p.Surfaces {
		front, tip := reach(s)
		if s.Role != aero.RoleForeplane || wingTip == 0 {
			continue
		}
		if tip > 1.2*wingTip {
			l.warn("program.toml: surface %s has a span of %.3g m and the wing %.3g m; look at the unit in the heads", quoted(s.Name), 2*tip, 2*wingTip)
		}
		if front >= wingFront {
			l.warn("program.toml: surface %s begins %.2f m aft of datum and the wing %.2f m; x counts aft, and a foreplane stands ahead of the wing", quoted(s.Name), front, wingFront)
		}
	}
}

// extent is the distance in the y–z plane between the ends of a surface, m.
func extent(s aero.Surface) float64 {
	a, b := s.Stations[0].LeadingEdge, s.Stations[len(s.Stations)-1].LeadingEdge
	return math.Hypot(b.Y-a.Y, b.Z-a.Z)
}

// missingLogs lists the flights in use whose log is not in the folder.
func (l *loader) missingLogs() {
	for _, f := range l.p.Flights {
		if !f.Use || f.Log == "" {
			continue
		}
		if _, err := fs.Stat(l.files, f.Log); errors.Is(err, fs.ErrNotExist) {
			l.p.Missing = append(l.p.Missing, fmt.Sprintf("%s is not there; it is the log of flight %s, which is left out%s", f.Log, f.Name, l.likeLog(f.Log)))
		}
	}
}

// likeLog names a log of the folder that may be the one that was meant: the same name in logs or at the top, whatever its capitals.
func (l *loader) likeLog(log string) string {
	for _, dir := range []string{"logs", "."} {
		entries, _ := fs.ReadDir(l.files, dir)
		for _, e := range entries {
			if !e.IsDir() && strings.EqualFold(e.Name(), path.Base(log)) {
				return "; did you mean " + path.Join(dir, e.Name()) + "?"
			}
		}
	}
	return ""
}
