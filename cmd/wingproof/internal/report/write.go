package report

import (
	"bytes"
	"html/template"

	"wingproof/plots"
)

// Laid renders the content and returns the page.
func Laid(c Content) ([]byte, error) {
	var b bytes.Buffer
	err := Render(&b, c)
	return b.Bytes(), err
}

// WriteFigures writes a page of figures and nothing else, such as the three views of the geometry. The file is replaced as a whole: a
// reader sees the old page or the new one, and an error leaves the old one.
func WriteFigures(path, title string, figures []plots.Figure) error {
	if err := checkFigures(figures); err != nil {
		return err
	}
	style, err := styleSheet()
	if err != nil {
		return err
	}
	var b bytes.Buffer
	data := struct {
		Title   string
		Style   template.CSS
		Figures figureSection
	}{title, style, figureSection{figures, "Nothing to draw."}}
	if err := execute(&b, "figures.gohtml", data); err != nil {
		return err
	}
	return replace(path, &b)
}
