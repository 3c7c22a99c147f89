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
