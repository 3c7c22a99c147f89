package main

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"wingproof/aero"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/plots"
)

// latticeFigures are three views of the first configuration with its panels, and the load along the span: of it alone, or by
// choice with the levels over the baseline.
func latticeFigures(p *program.Program, c condition, all []solved) ([]report.NamedFigure, error) {
	view, err := viewOf(p, &all[0])
	if err != nil {
		return nil, err
	}
	out := []report.NamedFigure{{Name: "three-view", Figure: view}}
	if len(all) == 1 {
		data := plots.SpanLoadData{Title: "Load along the span: " + all[0].name, Condition: c.words(&all[0]), MeanChord: all[0].airframe.Reference.MeanChord}
		data.Series = []plots.SpanLoadSeries{seriesOf(all[0].name, all[0].airframe, all[0].Solution.StripsAbout(all[0].State, c.setup.CG))}
		load, err := plots.SpanLoad(data)
		return append(out, report.NamedFigure{Name: "span-load", Figure: load}), err
	}
	for _, choice := range p.Choices {
		data := plots.SpanLoadData{Title: "Load along the span, by " + choice.Name, Condition: c.words(&all[0]), MeanChord: all[0].airframe.Reference.MeanChord}
		for _, level := range baselineFirst(choice) {
			levels := maps.Clone(all[0].levels)
			levels[choice.Name] = level
			if i := slices.IndexFunc(all, func(s solved) bool { return maps.Equal(s.levels, levels) }); i >= 0 {
				data.Series = append(data.Series, levelSeries(choice, level, all[i].airframe, all[i].Solution.StripsAbout(all[i].State, c.setup.CG)))
			}
		}
		load, err := plots.SpanLoad(data)
		if err != nil {
			return nil, err
		}
		out = append(out, report.NamedFigure{Name: "span-load-" + choice.Name, Figure: load})
	}
	return out, nil
}

// levelSeries is the load of one level of a choice.
func levelSeries(choice program.Choice, level string, a aero.Airframe, strips []aero.StripLoad) plots.SpanLoadSeries {
	series := seriesOf(level, a, strips)
	series.Baseline = level == choice.Baseline
	return series
}

// words says the condition for the note of a figure.
func (c condition) words(s *solved) string {
	air := ""
	switch {
	case c.ground > 0:
		air = fmt.Sprintf(", datum %.2f m over the ground", c.ground)
	case c.alongFlow:
		air = ", wakes along the stream"
	}
	if m := c.setup.Lattice.Mach; m > 0 {
		air += fmt.Sprintf(", Mach %g", m)
	}
	switch {
	case c.setup.Alpha != nil:
		return fmt.Sprintf("angle of attack %.2f°, not trimmed%s", *c.setup.Alpha*180/math.Pi, air)
	case s.Trimmed:
		return fmt.Sprintf("lift coefficient %g, trimmed about %.3f m%s", clean(prediction.Number{Value: c.setup.Lift}).Value, c.setup.CG.X, air)
	}
	return fmt.Sprintf("lift coefficient %g, not trimmed%s", clean(prediction.Number{Value: c.setup.Lift}).Value, air)
}

// seriesOf is the load along the surfaces of one configuration. What stands up has its own length; what stands alone on the
// plane of symmetry carries no load in symmetric flight and is left out.
func seriesOf(name string, a aero.Airframe, strips []aero.StripLoad) plots.SpanLoadSeries {
	out := plots.SpanLoadSeries{Configuration: name}
	for _, surface := range a.Surfaces {
		if surface.Role == aero.RoleForeplane && surface.Mirrored {
			for _, st := range surface.Stations {
				out.ForeplaneTip = math.Max(out.ForeplaneTip, st.LeadingEdge.Y)
			}
		}
		if !surface.Mirrored {
			continue
		}
		own := surface.Role == aero.RoleWinglet || surface.Role == aero.RoleFin
		load := plots.SurfaceLoad{Surface: surface.Name, OwnLength: own}
		along := 0.0
		for _, s := range strips {
			if s.Surface != surface.Name {
				continue
			}
			station := s.Centre.Y
			if own {
				station = along + s.Width/2
			}
			along += s.Width
			load.Station, load.Chord, load.SectionLift = append(load.Station, station), append(load.Chord, s.Chord), append(load.SectionLift, s.SectionLift)
		}
		if len(load.Station) > 0 {
			out.Surfaces = append(out.Surfaces, load)
		}
	}
	return out
}

// spanLoadFigures draws, for each choice, the load along the span of its levels over that of the baseline, the other choices
// at their settled or baseline level.
func spanLoadFigures(st *study.Study) ([]plots.Figure, error) {
	var out []plots.Figure
	for _, choice := range st.Program.Choices {
		data := plots.SpanLoadData{Title: "Load along the span, by " + choice.Name,
			Condition: fmt.Sprintf("predicted at lift coefficient %g, trimmed where an elevator allows it", study.PredictionLift)}
		for _, level := range baselineFirst(choice) {
			c, ok := configurationNamed(st, configurationWith(st, choice.Name, level))
			if !ok || len(c.SpanLoad) == 0 {
				continue
			}
			data.MeanChord = c.Airframe.Reference.MeanChord
			data.Series = append(data.Series, levelSeries(choice, level, c.Airframe, c.SpanLoad))
		}
		if len(data.Series) == 0 {
			continue
		}
		figure, err := plots.SpanLoad(data)
		if err != nil {
			return nil, err
		}
		out = append(out, figure)
	}
	return out, nil
}

// baselineFirst lists the levels of a choice, its baseline ahead of the others.
func baselineFirst(c program.Choice) []string {
	out := []string{c.Baseline}
	for _, level := range c.Levels {
		if level.Name != c.Baseline {
			out = append(out, level.Name)
		}
	}
	return out
}

// sweepFigures draws each quantity against the first size, a line for each value of the second.
func sweepFigures(p *program.Program, c condition, r *sweepResult) ([]report.NamedFigure, error) {
	var out []report.NamedFigure
	for _, quantity := range sweptQuantities() {
		first := numberOf(r.numbers(p, c, 0), quantity)
		if math.IsNaN(first.Value) {
			continue
		}
		unit, factor := drawn(first.Unit)
		size := r.sweep.ranges[0].size
		data := plots.SweepData{Quantity: quantityName(quantity), Unit: unit, Size: sizeName(size), SizeUnit: strings.Replace(size.Unit, "deg", "°", 1)}
		data.Title = capital(data.Quantity) + " against " + data.Size
		for k := range r.sweep.second() {
			data.Lines = append(data.Lines, r.line(p, c, quantity, factor, k))
		}
		if now := r.sweep.now; !slices.ContainsFunc(now, math.IsNaN) {
			data.Baseline = &plots.SweepBaseline{Size: now[0], Value: factor * numberOf(r.numbers(p, c, -1), quantity).Value}
		}
		figure, err := plots.Sweep(data)
		if err != nil {
			return nil, err
		}
		out = append(out, report.NamedFigure{Name: quantity, Figure: figure})
	}
	return out, nil
}

// line is a quantity over the first size at value k of the second, with the error of the grid carried between the ends, where
// it was estimated.
func (r *sweepResult) line(p *program.Program, c condition, quantity string, factor float64, k int) plots.SweepLine {
	l := plots.SweepLine{}
	if len(r.sweep.ranges) > 1 {
		size, value := r.sweep.ranges[1].size, strings.Replace(short(r.sweep.ranges[1].at(k)), "-", "−", 1)
		l.Level = strings.TrimSpace(sizeName(size) + " " + value + " " + size.Unit)
		if size.Surface == r.sweep.ranges[0].size.Surface {
			l.Level = strings.TrimPrefix(l.Level, size.Surface+" ")
		}
		if size.Unit == "deg" {
			l.Level = strings.TrimSuffix(l.Level, " deg") + "°"
		}
	}
	n, step := r.sweep.ranges[0].count, r.sweep.second()
	from := numberOf(r.numbers(p, c, k), quantity).Grid
	to := numberOf(r.numbers(p, c, (n-1)*step+k), quantity).Grid
	for i := range n {
		v := numberOf(r.numbers(p, c, i*step+k), quantity).Value
		l.Curve.X, l.Curve.Y = append(l.Curve.X, r.sweep.ranges[0].at(i)), append(l.Curve.Y, factor*v)
		if math.IsNaN(from) || math.IsNaN(to) {
			continue
		}
		t := float64(i) / float64(n-1)
		half := math.Abs(factor) * ((1-t)*from + t*to)
		l.Curve.Low, l.Curve.High = append(l.Curve.Low, factor*v-half), append(l.Curve.High, factor*v+half)
	}
	return l
}

// drawn turns an SI unit into the one that figures show, with its factor.
func drawn(unit string) (words string, factor float64) {
	switch unit {
	case "1", "":
		return "-", 1
	case "rad":
		return "°", 180 / math.Pi
	case "1/rad":
		return "per radian", 1
	case "%":
		return "% of the mean chord", 1
	case "N·m":
		return "kN·m", 1e-3
	}
	return unit, 1
}

// sizeName is a size in words, such as "winglet height".
func sizeName(s program.Size) string {
	return s.Surface + " " + strings.ReplaceAll(s.Name, "_", " ")
}

// quantityName is a quantity in words for figures.
func quantityName(quantity string) string {
	switch quantity {
	case evidence.DirectionalStiffness:
		return "directional stiffness Cn_β"
	case prediction.DihedralEffect:
		return "dihedral effect Cl_β"
	case evidence.LiftCurveSlope:
		return "lift curve slope CL_α"
	case evidence.NeutralPoint:
		return "neutral point aft of datum"
	case evidence.RootBendingMoment:
		return "bending in the plane of symmetry"
	case prediction.BestSpanEfficiency:
		return "best span efficiency of the trace"
	}
	return strings.ReplaceAll(quantity, "_", " ")
}

// capital writes the first letter large.
func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// compareFigures are the differences to the baseline, the load along the span and three views of each level over the baseline.
func compareFigures(r *comparison) ([]report.NamedFigure, error) {
	var out []report.NamedFigure
	if len(r.levels) > 1 {
		differences, err := plots.LevelDifferences(r.differencesData())
		if err != nil {
			return nil, err
		}
		out = append(out, report.NamedFigure{Name: "differences", Figure: differences})
	}
	base := &r.levels[0]
	data := plots.SpanLoadData{Title: "Load along the span, by " + r.choice.Name, Condition: r.condition.words(&base.solved), MeanChord: base.airframe.Reference.MeanChord}
	for i := range r.levels {
		l := &r.levels[i]
		data.Series = append(data.Series, levelSeries(r.choice, l.level, l.airframe, l.Solution.StripsAbout(l.State, r.condition.setup.CG)))
	}
	load, err := plots.SpanLoad(data)
	if err != nil {
		return nil, err
	}
	out = append(out, report.NamedFigure{Name: "span-load", Figure: load})
	for i := range r.levels[1:] {
		l := &r.levels[1+i]
		view, err := overView(r.study.Program, base.airframe, r.choice.Name+" "+base.level, l.airframe, r.choice.Name+" "+l.level)
		if err != nil {
			return nil, err
		}
		out = append(out, report.NamedFigure{Name: "three-view-" + l.level, Figure: view})
	}
	return out, nil
}

// differencesData turns the differences into what is drawn: stations in percent of the mean chord, all else in percent of
// the baseline's value or as they are. A bar is the error of the theory that the levels do not share, together with that of the
// grid; the grid's alone would promise too much.
func (r *comparison) differencesData() plots.LevelDifferencesData {
	data := plots.LevelDifferencesData{Choice: r.choice.Name, Baseline: r.choice.Name + " " + r.choice.Baseline}
	stated := false
	for j, n := range r.levels[0].numbers {
		if !slices.Contains(differenceQuantities(), n.Quantity) || strings.HasPrefix(n.note, "about") || math.IsNaN(n.Value) {
			continue
		}
		unit, factor := "% of the baseline's value", 100/math.Abs(n.Value)
		switch n.Quantity {
		case evidence.NeutralPoint:
			unit, factor = "% of the mean chord", 100/r.levels[0].airframe.Reference.MeanChord
		case evidence.DirectionalStiffness, prediction.DihedralEffect: // a winglet may double them
			unit, factor = "per radian", 1
		}
		q := plots.QuantityDifference{Quantity: quantityName(n.Quantity), Unit: unit}
		known := false
		for i := range r.levels[1:] {
			l := &r.levels[1+i]
			d := l.differences[j]
			if math.IsNaN(d.value) {
				continue
			}
			half := 0.0
			if !math.IsNaN(d.high) {
				half, known = math.Hypot((d.high-d.low)/2, zeroIfUnknown(d.grid)), true
			}
			v := factor * d.value
			q.Rows = append(q.Rows, plots.Row{Label: l.level, Predicted: &plots.Interval{Value: v, Low: v - factor*half, High: v + factor*half}})
		}
		if len(q.Rows) > 0 {
			data.Quantities = append(data.Quantities, q)
		}
		stated = stated || known
	}
	data.Condition = r.condition.words(&r.levels[0].solved)
	if stated {
		data.Condition += "; where there is no bar, no error of theory is stated"
	} else {
		data.Condition += "; no error of theory is stated, so there are no bars"
	}
	return data
}

// zeroIfUnknown is an error, 0 where it was not estimated.
func zeroIfUnknown(e float64) float64 {
	if math.IsNaN(e) {
		return 0
	}
	return e
}

func differenceQuantities() []string {
	return []string{evidence.NeutralPoint, evidence.LiftCurveSlope, prediction.InducedDrag, prediction.SpanEfficiency, prediction.BestSpanEfficiency,
		evidence.DirectionalStiffness, prediction.DihedralEffect, evidence.RootBendingMoment}
}
