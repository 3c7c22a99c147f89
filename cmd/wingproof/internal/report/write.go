package report

import (
	"bytes"
	"html/template"
	"path/filepath"

	"wingproof/plots"
)

// Write renders the content to index.html in dir, which it makes when it is missing. The file is replaced
// as a whole: a reader sees the old page or the new one, and an error leaves the old one.
func Write(dir string, c Content) error {
	page, err := Laid(c)
	if err != nil {
		return err
	}
	return WritePage(filepath.Join(dir, "index.html"), page)
}

// Laid renders the content and returns the page, for WritePage.
func Laid(c Content) ([]byte, error) {
	var b bytes.Buffer
	err := Render(&b, c)
	return b.Bytes(), err
}

// WritePage writes a page that Laid gave, as Write does.
func WritePage(path string, page []byte) error { return replace(path, bytes.NewBuffer(page)) }

// WriteFigures writes a page of figures and nothing else, such as the three views of the geometry.
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
