package report

import (
	"bytes"
	"fmt"
	"path/filepath"
	"strings"
	"unicode"

	"wingproof/plots"
)

// NamedFigure is a figure with the name of its file, without ending.
type NamedFigure struct {
	Name string
	plots.Figure
}

// WriteFigureFiles writes each figure to a folder, as a drawing for desk and paper and one for a phone, and a page that
// shows them all. The folder is made when it is missing. page is the name of the page's file without ending, and heads
// those of the drawings.
//
// It returns the path of the page.
func WriteFigureFiles(dir, page, title string, named []NamedFigure) (string, error) {
	figures := make([]plots.Figure, len(named))
	for i, f := range named {
		figures[i] = f.Figure
	}
	if err := checkFigures(figures); err != nil {
		return "", err
	}
	used := map[string]int{}
	for _, f := range named {
		name := page + "-" + FileName(f.Name)
		if used[name]++; used[name] > 1 {
			name += fmt.Sprintf("-%d", used[name])
		}
		if err := replace(filepath.Join(dir, name+".svg"), bytes.NewBuffer(bytes.Clone(f.SVG))); err != nil {
			return "", err
		}
		if err := replace(filepath.Join(dir, name+"-narrow.svg"), bytes.NewBuffer(bytes.Clone(f.Narrow))); err != nil {
			return "", err
		}
	}
	path := filepath.Join(dir, page+".html")
	return path, WriteFigures(path, title, figures)
}

// FileName turns words into a name that every system takes.
func FileName(title string) string {
	words := strings.FieldsFunc(strings.ToLower(title), func(r rune) bool { return r > unicode.MaxASCII || !(unicode.IsLetter(r) || unicode.IsDigit(r)) })
	name := strings.Join(words, "-")
	if len(name) > 60 {
		name = strings.TrimRight(name[:60], "-")
	}
	if name == "" {
		return "figure"
	}
	return name
}
