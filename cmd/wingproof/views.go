package main

import (
	"maps"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
	"wingproof/aero/lattice"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/plots"
)

// threeViews draws the baseline with the panels of its lattice, and over it each level that changes it.
func threeViews(p *program.Program) ([]plots.Figure, error) {
	all := p.Configurations()
	base, _, err := p.Airframe(all[0])
	if err != nil {
		return nil, err
	}
	first, err := baselineView(p, base, "Baseline: "+plainConfiguration(evidence.Name(all[0])))
	if err != nil {
		return nil, err
	}
	figures := []plots.Figure{first}
	for _, choice := range p.Choices {
		for _, level := range choice.Levels {
			if level.Name == choice.Baseline {
				continue
			}
			levels := maps.Clone(all[0])
			levels[choice.Name] = level.Name
			changed, _, err := p.Airframe(levels)
			if err != nil {
				return nil, err
			}
			figure, err := overView(p, base, "the baseline", changed, choice.Name+" "+level.Name)
			if err != nil {
				return nil, err
			}
			figures = append(figures, figure)
		}
	}
	return figures, nil
}

// baselineView draws one geometry with panels, hinges, fuselage, wheels and the range of loadings. A geometry that the lattice
// cannot panel is drawn without panels: a wrong one is to be seen.
func baselineView(p *program.Program, a aero.Airframe, title string) (plots.Figure, error) {
	data := plots.ThreeViewData{Title: title, Surfaces: outlines(a), Body: sections(p), Wheels: wheels(p), Marks: loadedMarks(p)}
	if solution, err := lattice.Solve(a, lattice.Options{}); err == nil {
		addPanels(data.Surfaces, solution)
	}
	return plots.ThreeView(data)
}

// overView draws one geometry over another.
func overView(p *program.Program, base aero.Airframe, baseName string, changed aero.Airframe, name string) (plots.Figure, error) {
	return plots.ThreeView(plots.ThreeViewData{Title: capital(name) + " over " + baseName, Surfaces: outlines(base), Name: strings.TrimPrefix(baseName, "the "),
		Other: outlines(changed), OtherName: name, Body: sections(p), Wheels: wheels(p)})
}

// viewOf draws a solved configuration with its own panels and its neutral point.
func viewOf(p *program.Program, s *solved) (plots.Figure, error) {
	data := plots.ThreeViewData{Title: "Panels: " + plainConfiguration(s.name), Surfaces: outlines(s.airframe), Body: sections(p), Wheels: wheels(p), Marks: loadedMarks(p)}
	addPanels(data.Surfaces, s.Solution)
	data.Marks = append(data.Marks, plots.Mark{Kind: plots.NeutralPoint, Name: "neutral point", X: s.Value(evidence.NeutralPoint), Z: s.Derivatives.MomentZ})
	return plots.ThreeView(data)
}

// addPanels gives outlines the panels of a solution.
func addPanels(surfaces []plots.Outline, solution *lattice.Solution) {
	panels := map[string][][]plots.Position{}
	for _, panel := range solution.Outlines() {
		corners := make([]plots.Position, len(panel.Corners))
		for i, at := range panel.Corners {
			corners[i] = position(at)
		}
		panels[panel.Surface] = append(panels[panel.Surface], corners)
	}
	for i := range surfaces {
		surfaces[i].Panels = panels[surfaces[i].Name]
	}
}

func outlines(a aero.Airframe) []plots.Outline {
	var out []plots.Outline
	for _, surface := range a.Surfaces {
		o := plots.Outline{Name: surface.Name, Mirrored: surface.Mirrored}
		for _, s := range surface.Stations {
			o.Stations = append(o.Stations, plots.Cut{LeadingEdge: position(s.LeadingEdge), TrailingEdge: position(s.TrailingEdge)})
		}
		for _, h := range surface.Hinges {
			o.Hinges = append(o.Hinges, hingeLine(surface, h))
		}
		out = append(out, o)
	}
	return out
}

// hingeLine runs through the hinge stations of a surface.
func hingeLine(s aero.Surface, h aero.Hinge) plots.Hinge {
	out := plots.Hinge{Control: h.Control}
	for i := h.FromStation; i <= h.ToStation; i++ {
		if i < 1 || i > len(s.Stations) {
			continue
		}
		st := s.Stations[i-1]
		out.Line = append(out.Line, position(r3.Add(st.LeadingEdge, r3.Scale(h.HingeFraction, r3.Sub(st.TrailingEdge, st.LeadingEdge)))))
	}
	return out
}

func position(v r3.Vec) plots.Position { return plots.Position{v.X, v.Y, v.Z} }

// sections are the fuselage's; a fuselage of one cut cannot be drawn.
func sections(p *program.Program) []plots.BodySection {
	if len(p.Fuselage) < 2 {
		return nil
	}
	var out []plots.BodySection
	for _, f := range p.Fuselage {
		out = append(out, plots.BodySection{X: f.X, Width: f.Width, Height: f.Height, Z: f.Z})
	}
	return out
}

// loadedMarks are the CGs of the loadings that lie furthest forward and furthest aft.
func loadedMarks(p *program.Program) []plots.Mark {
	forward, aft, ok := prediction.LoadedRange(p)
	if !ok {
		return nil
	}
	z := p.FullSize.EmptyZ.Value
	marks := []plots.Mark{{Kind: plots.CentreOfGravity, Name: "foremost loading", X: forward, Z: z}}
	if aft > forward {
		marks = append(marks, plots.Mark{Kind: plots.CentreOfGravity, Name: "aftmost loading", X: aft, Z: z})
	}
	return marks
}

// wheels stand on the ground line; the table gives where they touch it.
func wheels(p *program.Program) []plots.Wheel {
	if p.Gear == nil {
		return nil
	}
	g := p.Gear
	return []plots.Wheel{
		{Name: "nose wheel", At: plots.Position{g.NoseX, 0, g.GroundZ}},
		{Name: "main wheel", At: plots.Position{g.MainX, g.Track / 2, g.GroundZ}},
		{Name: "main wheel", At: plots.Position{g.MainX, -g.Track / 2, g.GroundZ}},
	}
}
