package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"

	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

// reportFiles makes every file of the report folder in memory, with the forecast of what to do next.
//
// The newest board, index.html, comes last: whoever writes the files in this order never shows a board before what it links to.
func reportFiles(ctx context.Context, st *study.Study, head boardHead, tell func(done, total int, what string)) ([]report.File, error) {
	m, err := makeReport(ctx, st, head, tell)
	if err != nil {
		return nil, err
	}
	return m.files, nil
}

// makeReport makes every file of a report that is written, with what they were made from. tell hears how far the forecast is.
func makeReport(ctx context.Context, st *study.Study, head boardHead, tell func(done, total int, what string)) (*maker, error) {
	next, err := forecastNext(ctx, st, tell)
	if err != nil {
		return nil, err
	}
	return makePages(ctx, st, head, next, false)
}

// makePages makes every file of a report with a forecast that may be still to come. live tells whether the pages are served and renew
// themselves.
func makePages(ctx context.Context, st *study.Study, head boardHead, next report.Next, live bool) (*maker, error) {
	defer st.Kept().Tidy()
	content, err := reportContent(ctx, st, head)
	if err != nil {
		return nil, err
	}
	content.Live, content.Next = live, next
	m := &maker{ctx: ctx, study: st, head: head, content: &content}
	for _, part := range []func() error{m.figures, m.flights, m.choices, m.tables, m.evidence, m.pages} {
		if err := part(); err != nil {
			return nil, err
		}
	}
	return m, nil
}

// firstFile is the whole board.
const firstFile = "index.html"

// maker gathers the files of a report.
type maker struct {
	ctx     context.Context
	study   *study.Study
	head    boardHead
	content *report.Content
	files   []report.File
}

func (m *maker) add(name string, body []byte) {
	m.files = append(m.files, report.File{Name: name, Body: body})
}

func (m *maker) link(kind, title, name string) {
	m.content.Pages = append(m.content.Pages, report.PageLink{Kind: kind, Title: title, Name: name})
}

// figures adds the figures of the board's page as files.
func (m *maker) figures() error {
	pictures, err := pictured(m.ctx, m.study, fileNamed(figureGroups(m.content.Figures)))
	for _, p := range pictures {
		m.files = append(m.files, p.files()...)
		m.link("figure", p.title, "figures/"+p.name+".svg")
	}
	return err
}

// flights adds a page for each flight.
func (m *maker) flights() error {
	pages, err := flightPages(m.ctx, m.study, m.head.sheet, m.content.Live)
	if err != nil {
		return err
	}
	return addPages(m, flightLinks(m.study), pages, nil)
}

// choices adds a page for each choice.
func (m *maker) choices() error {
	pages, pictures, err := choicePages(m.ctx, m.study, m.head, m.content.Figures, m.content.Live)
	if err != nil {
		return err
	}
	return addPages(m, choiceLinks(m.study), pages, pictures)
}

// addPages adds pages under the names of their links, and their pictures.
func addPages[P interface{ Render() ([]byte, error) }](m *maker, links []report.PageLink, pages []P, pictures []namedPicture) error {
	for i, link := range links {
		body, err := pages[i].Render()
		if err != nil {
			return err
		}
		m.add(link.Name, body)
		m.content.Pages = append(m.content.Pages, link)
	}
	for _, p := range pictures {
		m.files = append(m.files, p.files()...)
	}
	return nil
}

// pages adds the pages that link to all others: methods, the wall sheet and, last, the whole board.
func (m *maker) pages() error {
	m.link("board", "wall sheet", "board.html")
	m.link("methods", "methods", "methods.html")
	m.linkSheets()
	for _, page := range []struct {
		name string
		make func(report.Content) ([]byte, error)
	}{{"methods.html", report.MethodsPage}, {"board.html", report.BoardPage}, {firstFile, report.Laid}} {
		body, err := page.make(*m.content)
		if err != nil {
			return err
		}
		m.add(page.name, body)
	}
	return nil
}

// linkSheets links the issued sheets whose files are there, the newest first, and the one that is being issued.
func (m *maker) linkSheets() {
	if n := m.head.sheet.Number; n > 0 {
		m.link("sheet", fmt.Sprintf("sheet %d of %s", n, report.DateWords(m.head.sheet.Date)), sheetFile(n))
	}
	for _, s := range slices.Backward(m.study.Program.Sheets) {
		if _, err := os.Stat(filepath.Join(reportFolder(m.study.Program), sheetFile(s.Number))); err == nil {
			m.link("sheet", fmt.Sprintf("sheet %d of %s", s.Number, report.DateWords(s.Date)), sheetFile(s.Number))
		}
	}
}

// issued are the files that are kept of a numbered board: the sheet on the wall, and the whole board with its evidence. They link to
// nothing, since pages beside them will change.
func (m *maker) issued() ([]report.File, error) {
	content := *m.content
	content.Pages = nil
	sheet, err := report.BoardPage(content)
	if err != nil {
		return nil, err
	}
	whole, err := report.Laid(content)
	if err != nil {
		return nil, err
	}
	n := content.Sheet.Number
	return []report.File{{Name: sheetFile(n), Body: sheet}, {Name: sheetEvidenceFile(n), Body: whole}}, nil
}
