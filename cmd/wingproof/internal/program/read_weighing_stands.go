package program

import (
	"fmt"
	"math"
	"strings"

	"wingproof/aero/weighing"
)

// attitude reads a run of scales or a tilt.
func (r *sheetReader) attitude(run *sheetRun) {
	a := weighing.Attitude{Name: run.name, Tilted: run.what == "tilt"}
	complete := true
	for _, at := range run.rows {
		complete = r.support(run, &a, at) && complete
	}
	if a.Tilted {
		value, stated := r.one(run, "angle")
		if !stated && complete {
			r.lacks(run, "angle_deg is empty: how far is the nose up?")
			complete = false
		}
		a.Angle.Value = value
	}
	a.Angle.SD = r.spread(run, "angle_sd", defaultAngleSD, "angle_sd_deg 0.2")
	if complete {
		r.sheet.Session.Attitudes = append(r.sheet.Session.Attitudes, a)
	}
}

// support reads one row: what stands on a scale, or hangs from a hook. Rows of one point are repeated readings.
func (r *sheetReader) support(run *sheetRun, a *weighing.Attitude, at row) bool {
	name := r.t.need(at, r.c["point"], "the point that rests on the scale, such as nose, left or right")
	if name == "" {
		if r.c["point"].index < 0 {
			r.t.wrong(at, r.c["point"], "the table has no column point", "add a column headed point: nose, left, right …")
		}
		return false
	}
	key := folded(name)
	sd := defaultPositionSD
	if v, stated := r.t.number(at, r.c["position_sd"]); stated {
		sd = v
	} else if _, placed := r.points[key]; !placed {
		r.assumed["position_sd"] = "position_sd_mm 1"
	}
	if !r.point(run, at, name, sd) {
		return false
	}
	if a.Tilted && len(run.rows) == 1 { // a hook carries everything, whatever a scale in the line shows
		a.Readings = append(a.Readings, weighing.Reading{Point: r.pointNamed(key)})
		return true
	}
	return r.reading(run, a, at, name)
}

// reading adds what a scale showed to the readings of its point.
func (r *sheetReader) reading(run *sheetRun, a *weighing.Attitude, at row, name string) bool {
	reading, stated := r.t.number(at, r.c["reading"])
	tare, _ := r.t.number(at, r.c["tare"])
	spread, told := r.t.number(at, r.c["reading_sd"])
	switch {
	case !stated:
		r.lacks(run, "reading_g of "+quoted(name)+" is empty")
		return false
	case reading <= tare:
		r.t.wrong(at, r.c["tare"], "the tare is not less than the reading", "write what the scale shows with the model on it as reading, and what stands there beside the model as tare")
		return false
	case !told:
		spread = defaultReadingSD
		r.assumed["reading_sd"] = "reading_sd_g 3"
	}
	point := r.pointNamed(folded(name))
	for i := range a.Readings {
		old := &a.Readings[i]
		if old.Point != point {
			continue
		}
		if math.Abs(old.Tare.Value-tare) > 1e-9 {
			r.t.wrong(at, r.c["tare"], "the tare on "+quoted(name)+" differs within the run", "write the same tare in each row of the point")
			return false
		}
		old.Loads = append(old.Loads, reading)
		return true
	}
	a.Readings = append(a.Readings, weighing.Reading{Point: point, Loads: []float64{reading}, SD: spread, Tare: weighing.Figure{Value: tare}})
	return true
}

func (r *sheetReader) pointNamed(key string) string {
	return r.sheet.Session.Points[r.points[key]].Name
}

// point places a point where it is named first; later rows repeat the place or leave it empty.
func (r *sheetReader) point(run *sheetRun, at row, name string, sd float64) bool {
	key := folded(name)
	var place [3]*weighing.Figure
	for i, stem := range []string{"x", "y", "z"} {
		if v, stated := r.t.number(at, r.c[stem]); stated {
			place[i] = &weighing.Figure{Value: v, SD: sd}
		}
	}
	if _, placed := r.points[key]; placed {
		r.samePlace(at, key, name, place)
		return r.tall(run, key, name)
	}
	if place[0] == nil {
		r.lacks(run, "x_mm of "+quoted(name)+" is empty")
		return false
	}
	r.points[key], r.placeOf[key] = len(r.sheet.Session.Points), at
	r.sheet.Session.Points = append(r.sheet.Session.Points, weighing.Point{Name: strings.Join(strings.Fields(name), " "), X: *place[0], Y: place[1], Z: place[2]})
	return r.tall(run, key, name)
}

// samePlace compares a point with where it was placed before, and fills in what was not stated there.
func (r *sheetReader) samePlace(at row, key, name string, place [3]*weighing.Figure) {
	point := &r.sheet.Session.Points[r.points[key]]
	x := &point.X
	for i, old := range []**weighing.Figure{&x, &point.Y, &point.Z} {
		switch {
		case place[i] == nil:
		case *old == nil:
			*old = place[i]
		case math.Abs((*old).Value-place[i].Value) > 1e-9:
			stem := []string{"x", "y", "z"}[i]
			r.t.wrong(at, r.c[stem], fmt.Sprintf("%s of %s differs from that in row %d", r.c[stem].name(), quoted(name), r.placeOf[key].number), "correct one of the two, or give the point a name of its own")
		}
	}
}

// tall asks for the height of a point that a tilted run stands on.
func (r *sheetReader) tall(run *sheetRun, key, name string) bool {
	if run.what == "tilt" && r.sheet.Session.Points[r.points[key]].Z == nil {
		r.lacks(run, "z_mm of "+quoted(name)+" is empty: a tilt needs the height of each point (a wheel's axle, a hook)")
		return false
	}
	return true
}
