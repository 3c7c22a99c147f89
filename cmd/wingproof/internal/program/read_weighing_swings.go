package program

import (
	"math"

	"wingproof/aero/weighing"
	"wingproof/flightlog/unit"
)

// timing is a measure of the watch.
func timing(stem string) measure {
	return measure{stem: stem, dimension: unit.Time, usual: "s", low: 0, high: longestTiming}
}

// swing reads a run of a bifilar or a compound pendulum.
func (r *sheetReader) swing(run *sheetRun) {
	s := weighing.Swing{Name: run.name}
	before := len(r.l.mistakes)
	axis := r.axis(run)
	s.Axis = axisOf(axis)
	lacking := r.hung(run, &s, axis)
	r.timings(run, &s)
	s.Hanger = r.hanger(run, &s)
	switch {
	case axis == "" || len(r.l.mistakes) > before:
	case lacking != "":
		r.lacks(run, lacking)
	case len(s.Timings) == 0:
		r.lacks(run, "no timing of the model: fill in periods and time_s")
	case s.Hanger != nil && len(s.Hanger.Timings) == 0:
		r.lacks(run, "the hanger has not been swung alone: add a row with load = hanger, periods and time_s")
	case s.Hanger != nil && s.Rig == weighing.CompoundRig && s.Hanger.Depth == nil:
		r.lacks(run, "hanger_cg_mm is empty: how far below the axis does the hanger balance by itself?")
	default:
		r.sheet.Session.Swings = append(r.sheet.Session.Swings, s)
	}
}

// axis reads which axis the run turns about; its rows must not contradict one another.
func (r *sheetReader) axis(run *sheetRun) string {
	axis := ""
	for _, at := range run.rows {
		word := r.t.named(at, r.c["axis"], axesOfSwings(), "axis")
		if axis != "" && word != "" && word != axis {
			r.t.wrong(at, r.c["axis"], "the axis is "+word+" here and "+axis+" above, and one run has one", "give the row a run of its own")
		}
		if word != "" {
			axis = word
		}
	}
	if axis == "" && run.rows[0].cell(r.c["axis"]).text == "" {
		r.t.wrong(run.rows[0], r.c["axis"], "the run does not say which axis of the model it swings about", "write "+oneOf(axesOfSwings())+" under axis")
	}
	return axis
}

// hung reads how the model hangs, and says what is missing.
func (r *sheetReader) hung(run *sheetRun, s *weighing.Swing, axis string) (lacking string) {
	value, stated := r.one(run, "angle")
	switch {
	case axis == "inclined" && !stated:
		lacking = "angle_deg is empty: how far is the nose up while it swings?"
	case axis != "inclined" && stated && axis != "":
		r.t.wrong(r.stating(run, "angle"), r.c["angle"], "angle_deg goes with an inclined axis only", "empty the cell: "+axis+" says how the model hangs")
	}
	s.Angle = weighing.Figure{Value: value, SD: r.spread(run, "angle_sd", defaultAngleSD, "angle_sd_deg 0.2")}
	if run.what == "bifilar" {
		distance := r.spread(run, "distance_sd", defaultDistanceSD, "distance_sd_mm 1")
		for _, one := range []struct {
			stem string
			to   *weighing.Figure
		}{{"spacing", &s.Spacing}, {"length", &s.Length}} {
			v, ok := r.one(run, one.stem)
			if !ok {
				lacking = one.stem + "_mm is empty"
			}
			*one.to = weighing.Figure{Value: v, SD: distance}
		}
		return lacking
	}
	s.Rig = weighing.CompoundRig
	r.pivot(run, s)
	return lacking
}

// pivot reads where the axis of a compound pendulum is.
func (r *sheetReader) pivot(run *sheetRun, s *weighing.Swing) {
	if v, ok := r.one(run, "pivot"); ok {
		s.Pivot = &weighing.Figure{Value: v, SD: r.spread(run, "distance_sd", defaultDistanceSD, "distance_sd_mm 1")}
	}
	for _, one := range []struct {
		stem string
		to   **weighing.Figure
	}{{"x", &s.PivotX}, {"z", &s.PivotZ}} {
		if v, ok := r.one(run, one.stem); ok {
			*one.to = &weighing.Figure{Value: v, SD: r.spread(run, "position_sd", defaultPositionSD, "position_sd_mm 1")}
		}
	}
}

// stating is the first row of the run that fills a cell.
func (r *sheetReader) stating(run *sheetRun, stem string) row {
	for _, at := range run.rows {
		if at.cell(r.c[stem]).text != "" {
			return at
		}
	}
	return run.rows[0]
}

// timings reads the watch of the run, with the model or with the hanger alone.
func (r *sheetReader) timings(run *sheetRun, s *weighing.Swing) {
	s.TimingSD = r.spread(run, "time_sd", defaultTimingSD, "time_sd_s 0.15")
	amplitude, stated := r.one(run, "amplitude")
	s.Amplitude = weighing.Figure{Value: amplitude, SD: statedAmplitudeSD * amplitude}
	if !stated {
		s.Amplitude = weighing.Figure{Value: defaultAmplitude, SD: amplitudeSpread * defaultAmplitude}
		r.assumed["amplitude"] = "amplitude_deg 6 ± 3"
	}
	for _, at := range run.rows {
		if r.load(at) == "model" {
			s.Timings = r.timed(at, s.Timings)
		}
	}
}

func (r *sheetReader) load(at row) string {
	if load := r.t.named(at, r.c["load"], []string{"model", "hanger"}, "load"); load != "" {
		return load
	}
	return "model"
}

// timed adds the timing of a row, when it holds one.
func (r *sheetReader) timed(at row, timings []weighing.Timing) []weighing.Timing {
	n, counted := r.t.number(at, r.c["periods"])
	seconds, watched := r.t.number(at, r.c["time"])
	switch {
	case counted && n != math.Trunc(n):
		r.t.wrong(at, r.c["periods"], "periods = "+short(n)+" is not a whole number", "write whole swings, forth and back, such as 20")
	case counted && watched:
		return append(timings, weighing.Timing{Periods: n, Seconds: seconds})
	case watched && at.cell(r.c["periods"]).text == "":
		r.t.wrong(at, r.c["periods"], "periods is empty beside a time", "write how many whole swings, forth and back, the time is of, such as 20")
	}
	return timings
}

// hanger reads what swings with the model; nil when nothing does.
func (r *sheetReader) hanger(run *sheetRun, s *weighing.Swing) *weighing.Hanger {
	h := weighing.Hanger{TimingSD: s.TimingSD}
	var alone row
	for _, at := range run.rows {
		if r.load(at) == "hanger" {
			h.Timings, alone = r.timed(at, h.Timings), at
		}
	}
	weight, stated := r.one(run, "hanger")
	if !stated {
		if len(h.Timings) > 0 {
			r.t.wrong(alone, r.c["hanger"], "the hanger was swung and its mass is not stated", "write hanger_g in a row of the run")
		}
		return nil
	}
	h.Mass = weighing.Figure{Value: weight, SD: defaultReadingSD}
	if v, ok := r.one(run, "hanger_cg"); ok {
		h.Depth = &weighing.Figure{Value: v, SD: r.spread(run, "distance_sd", defaultDistanceSD, "distance_sd_mm 1")}
	}
	return &h
}
