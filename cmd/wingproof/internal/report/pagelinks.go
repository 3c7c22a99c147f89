package report

import "slices"

// pagesOfKind are the other pages of a kind, in their order.
func pagesOfKind(pages []PageLink, kinds ...string) []PageLink {
	var out []PageLink
	for _, p := range pages {
		if slices.Contains(kinds, p.Kind) {
			out = append(out, p)
		}
	}
	return out
}

// mainPages are those that a page links to at its head: wall sheet, choices, methods. Flights stand in their table, files at the end.
func mainPages(pages []PageLink) []PageLink { return pagesOfKind(pages, "board", "choice", "methods") }

// filePages are tables, figures and numbers as files.
func filePages(pages []PageLink) []PageLink { return pagesOfKind(pages, "table", "figure", "data") }

// flightPage is the name of the page of a flight; empty when there is none.
func flightPage(pages []PageLink, flight string) string {
	for _, p := range pagesOfKind(pages, "flight") {
		if p.Title == flight {
			return p.Name
		}
	}
	return ""
}
