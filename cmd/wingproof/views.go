package main

import (
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/plots"
)

// threeViews draws the baseline, and over it each level that changes it.
func threeViews(p *program.Program) ([]plots.Figure, error) {
	all := p.Configurations()
	base, _, err := p.Airframe(all[0])
	if err != nil {
		return nil, err
	}
	data := plots.ThreeViewData{Title: "Baseline: " + evidence.Name(all[0]), Surfaces: outlines(base), Wheels: wheels(p)}
	first, err := plots.ThreeView(data)
	if err != nil {
		return nil, err
	}
	figures := []plots.Figure{first}
	for _, choice := range p.Choices {
		for _, level := range choice.Levels {
			if level.Name == choice.Baseline {
				continue
			}
			levels := map[string]string{}
			for name, value := range all[0] {
				levels[name] = value
			}
			levels[choice.Name] = level.Name
			changed, _, err := p.Airframe(levels)
			if err != nil {
				return nil, err
			}
			data.Title = choice.Name + " " + level.Name + " over the baseline"
			data.Name, data.Other, data.OtherName = "baseline", outlines(changed), choice.Name+" "+level.Name
			figure, err := plots.ThreeView(data)
			if err != nil {
				return nil, err
			}
			figures = append(figures, figure)
		}
	}
	return figures, nil
}

func outlines(a aero.Airframe) []plots.Outline {
	var out []plots.Outline
	for _, surface := range a.Surfaces {
		o := plots.Outline{Name: surface.Name, Mirrored: surface.Mirrored}
		for _, s := range surface.Stations {
			o.Stations = append(o.Stations, plots.Cut{LeadingEdge: position(s.LeadingEdge), TrailingEdge: position(s.TrailingEdge)})
		}
		out = append(out, o)
	}
	return out
}

func position(v r3.Vec) plots.Position { return plots.Position{v.X, v.Y, v.Z} }

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
