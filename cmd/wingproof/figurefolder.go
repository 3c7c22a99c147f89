package main

import (
	"fmt"

	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/plots"
)

// figureMaker draws one kind of figure of a study, as many as it has data for.
type figureMaker struct {
	name string
	draw func(*study.Study) ([]plots.Figure, error)
}

// writeFigureFolder draws figures of a study into a folder, with a page that shows them, and names the page.
func writeFigureFolder(s streams, folder, page string, st *study.Study, makers []figureMaker) error {
	var named []report.NamedFigure
	for _, maker := range makers {
		figures, err := maker.draw(st)
		if err != nil {
			return err
		}
		for _, figure := range figures {
			named = append(named, report.NamedFigure{Name: maker.name, Figure: figure})
		}
	}
	if len(named) == 0 {
		fmt.Fprintln(s.Err, "no figure was drawn: no flight counts yet")
		return nil
	}
	path, err := report.WriteFigureFiles(folder, page, st.Program.Name+": "+page, named)
	if err != nil {
		return err
	}
	fmt.Fprintf(s.Err, "figures: open %s\n", path)
	return nil
}
