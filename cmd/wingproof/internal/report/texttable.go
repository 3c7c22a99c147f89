package report

import (
	"fmt"
	"io"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"
)

// narrowest is the least width that a text table is laid out for.
const narrowest = 60

// textTable is a table for a terminal: no boxes, a rule below the heads, columns two spaces apart.
type textTable struct {
	heads []string
	rows  [][]string
	most  []int                                 // the most that a column may take; 0 shares out what is left
	apart bool                                  // a blank line between rows
	least int                                   // that a sharing column needs before others give way; 0 for the usual
	mark  func(w io.Writer, line string) string // marks what a line below the heads begins with; nil for nothing
}

func (t *textTable) add(cells ...string) { t.rows = append(t.rows, cells) }

// write lays the table out so that no line is longer than width.
func (t *textTable) write(w io.Writer, width int) error {
	widths := t.widths(max(columns(w, width), narrowest))
	out := table.NewWriter()
	out.SetStyle(plainStyle())
	out.AppendHeader(wrapped(t.heads, widths))
	configs := make([]table.ColumnConfig, len(widths))
	for i, n := range widths {
		configs[i] = table.ColumnConfig{Number: i + 1, WidthMin: n}
	}
	out.SetColumnConfigs(configs)
	for i, row := range t.rows {
		if i > 0 && t.apart {
			out.AppendRow(wrapped(make([]string, len(row)), widths))
		}
		out.AppendRow(wrapped(row, widths))
	}
	for _, line := range t.headed(w, strings.Split(out.Render(), "\n")) {
		if _, err := fmt.Fprintln(w, line); err != nil {
			return err
		}
	}
	return nil
}

// widths gives every column what it needs, at most its most; columns without one share the rest.
func (t *textTable) widths(width int) []int {
	need := make([]int, len(t.heads))
	for i, h := range t.heads {
		need[i] = text.StringWidth(h)
		for _, row := range t.rows {
			for line := range strings.SplitSeq(row[i], "\n") {
				need[i] = max(need[i], text.StringWidth(line))
			}
		}
	}
	left, sharing := width-2*len(t.heads), 0
	for i, most := range t.most {
		if most == 0 {
			sharing++
			continue
		}
		need[i] = min(need[i], most)
		left -= need[i]
	}
	least := t.least
	if least == 0 {
		least = 16
	}
	for left < least*sharing {
		i := t.widest(need)
		if i < 0 {
			break
		}
		need[i]--
		left++
	}
	for i, most := range t.most {
		if most == 0 {
			share := max(8, left/sharing)
			need[i] = min(need[i], share)
			left -= need[i]
			sharing--
		}
	}
	return need
}

// widest is the limited column that can best give a place to the sharing ones, −1 when none can.
func (t *textTable) widest(need []int) int {
	at := -1
	for i, most := range t.most {
		if most > 0 && need[i] > 8 && (at < 0 || need[i] > need[at]) {
			at = i
		}
	}
	return at
}

// wrapped breaks every line of every cell at the width of its column.
func wrapped(cells []string, widths []int) table.Row {
	row := make(table.Row, len(cells))
	for i, c := range cells {
		var lines []string
		for line := range strings.SplitSeq(c, "\n") {
			lines = append(lines, text.WrapSoft(line, widths[i]))
		}
		row[i] = strings.Join(lines, "\n")
	}
	return row
}

func plainStyle() table.Style {
	style := table.StyleDefault
	style.Box.PaddingLeft, style.Box.PaddingRight = "", "  "
	style.Box.MiddleHorizontal, style.Box.MiddleSeparator = "-", "-"
	style.Options = table.Options{SeparateHeader: true, SeparateColumns: false}
	style.Format.Header = text.FormatDefault
	style.Color = table.ColorOptions{}
	return style
}

// paragraph writes words wrapped to width, later lines indented.
func paragraph(w io.Writer, words string, width int) error {
	wrapped := text.WrapSoft(words, max(columns(w, width), narrowest)-2)
	for i, line := range strings.Split(wrapped, "\n") {
		line = strings.TrimRight(line, " ")
		if i == 0 {
			line = emphasised(w, line)
		} else {
			line = "  " + line
		}
		if _, err := fmt.Fprintln(w, line); err != nil {
			return err
		}
	}
	return nil
}
