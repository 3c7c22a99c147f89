package main

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"maps"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/keep"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/plots"
)

// namedPicture is a figure as files: its name without ending, the drawing, and the same as a picture.
type namedPicture struct {
	name, title  string
	svg, picture []byte
}

// files are the drawing and the picture in the folder of figures.
func (p namedPicture) files() []report.File {
	return []report.File{{Name: "figures/" + p.name + ".png", Body: p.picture}, {Name: "figures/" + p.name + ".svg", Body: p.svg}}
}

// pictured gives each figure its picture, which is kept by what the drawing holds.
func pictured(ctx context.Context, st *study.Study, named []report.NamedFigure) ([]namedPicture, error) {
	out := make([]namedPicture, len(named))
	err := study.Each(ctx, len(named), func(i int) error {
		picture, err := pictureOf(st.Kept(), named[i].Figure)
		out[i] = namedPicture{named[i].Name, named[i].Title, named[i].SVG, picture}
		return err
	})
	return out, err
}

func pictureOf(store *keep.Store, f plots.Figure) ([]byte, error) {
	sum := sha256.Sum256(f.SVG)
	return keep.Result(store, keep.Work[[]byte]{Kind: "picture", Inputs: hex.EncodeToString(sum[:]), Compute: f.Picture})
}

// figureGroup is the figures of one section of the board's page.
type figureGroup struct {
	name    string
	figures []plots.Figure
}

// figureGroups are all figures of the board's page, in its order.
func figureGroups(f report.Figures) []figureGroup {
	groups := []figureGroup{{"timeline", f.Timeline}, {"margin", f.Margin}, {"trim", f.Trim}, {"lift", f.Lift}, {"drag", f.Drag}, {"envelope", f.Envelope}, {"motions", f.Motions},
		{"modes", f.ModesPlane}, {"sizes", f.Levels}, {"span-load", f.SpanLoad}, {"stall", f.Stall}, {"spar", f.Spar}, {"geometry", f.Geometry}}
	for _, choice := range slices.Sorted(maps.Keys(f.Contrasts)) {
		groups = append(groups, figureGroup{"contrasts", f.Contrasts[choice]})
	}
	return groups
}

// fileNamed names figures for their files: the section that they belong to, then their titles. Names that meet get a number.
func fileNamed(groups []figureGroup) []report.NamedFigure {
	var out []report.NamedFigure
	used := map[string]bool{}
	for _, g := range groups {
		for _, f := range g.figures {
			name := report.FileName(f.Title)
			if !strings.Contains(name, g.name) {
				name = g.name + "-" + name
			}
			out = append(out, report.NamedFigure{Name: unused(used, name), Figure: f})
		}
	}
	return out
}

// unused is a name with the least number behind it that makes it one of its own, none for the first.
func unused(used map[string]bool, name string) string {
	out := name
	for n := 2; used[out]; n++ {
		out = fmt.Sprintf("%s-%d", name, n)
	}
	used[out] = true
	return out
}

func trimEnding(file string) string {
	name, _, _ := strings.Cut(file, ".")
	return name
}
