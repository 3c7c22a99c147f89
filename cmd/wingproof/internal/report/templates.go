package report

import (
	"bytes"
	"fmt"
	"html/template"
	"io"
	"strings"
	"sync"

	"wingproof/aero/similitude"
)

// helpers are what the templates call.
func helpers() template.FuncMap {
	return template.FuncMap{
		"date": DateWords, "stage": stageWords, "part": PartWords, "percent": percentWords, "hours": hoursWords,
		"cg": cgWords, "next": func(i int) int { return i + 1 }, "config": sizesWords, "upper": upperFirst, "join": func(s []string) string { return strings.Join(s, ", ") },
		"levels": levelWords, "quantity": quantityWords, "limit": limitWords, "limitRange": limitRange, "worst": worstLimit,
		"mark":   func(action string) template.HTML { return template.HTML(markOf(action)) },
		"inline": func(svg []byte) template.HTML { return template.HTML(svg) },
		"slug":   func(action string) string { return strings.ReplaceAll(action, " ", "-") },
		"sentences": func(s string) []string {
			return strings.SplitAfter(strings.TrimSpace(s), ". ")
		},
		"table": func(caption, head string, quantities bool, rows []pivotRow) pivotTable {
			return pivotTable{caption, head, quantities, rows}
		},
		"scale":  scaleRows,
		"speeds": func(s *similitude.Sheet) []speedWords { return speedRows(s) },
		"policy": policyOf, "script": script, "served": served, "parts": func(n int) string { return counted(n, "part") }, "points": pointLines, "kind": pagesOfKind, "mainPages": mainPages, "files": filePages, "flightPage": flightPage, "sizes": sizesWords, "formula": formula, "labelled": labelled,
		"find": func(m map[string]figureSection, key string) figureSection { return m[key] },
	}
}

// templates are parsed once: a report renders dozens of pages with them.
var templates = sync.OnceValues(func() (*template.Template, error) {
	return template.New("report").Funcs(helpers()).ParseFS(assets, "assets/*.gohtml")
})

func execute(w io.Writer, name string, data any) error {
	t, err := templates()
	if err != nil {
		return fmt.Errorf("report: %w", err)
	}
	var b bytes.Buffer
	if err := t.ExecuteTemplate(&b, name, data); err != nil {
		return fmt.Errorf("report: %w", err)
	}
	_, err = w.Write(b.Bytes())
	return err
}
