package report

// PageSection is a part of a page that stands for itself: a heading, sentences, tables.
type PageSection struct {
	ID     string // of the heading, for links within the page
	Title  string
	Lead   string    // what it is about, in a sentence; may be empty
	Folded bool      // to be opened by the reader: what most do not look for
	Tables []Section // each with its title as caption
	None   string    // what is said instead where there is nothing
}

// Empty tells whether it holds neither a line nor a row.
func (s PageSection) Empty() bool {
	for _, t := range s.Tables {
		if len(t.Lines)+len(t.Rows) > 0 {
			return false
		}
	}
	return true
}

// labelledTable is a table with the name under which a reader who does not see it finds it.
type labelledTable struct {
	Section
	Label string
}

// labelled names a table by its title; one without is named by the heading above it and its first column, so that two under different
// headings never share a name.
func labelled(heading string, t Section) labelledTable {
	label := upperFirst(t.Title)
	if label == "" && len(t.Heads) > 0 {
		label = heading + ": table by " + t.Heads[0]
	}
	return labelledTable{t, label}
}
