package program

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// resave writes a table again as another spreadsheet would: its separator, line ends, mark, quotation marks and style of dates.
func resave(t *testing.T, file string, separator rune, crlf, mark, quotes bool, cell func(string) string) {
	t.Helper()
	raw, err := os.ReadFile(file)
	require.NoError(t, err)
	rows, err := csv.NewReader(strings.NewReader(string(raw))).ReadAll()
	require.NoError(t, err)
	style := dialect{separator: separator, end: "\n", quotesAll: quotes}
	if crlf {
		style.end = "\r\n"
	}
	text := ""
	if mark {
		text = "\xef\xbb\xbf"
	}
	for _, r := range rows {
		for i := range r {
			r[i] = cell(r[i])
		}
		text += style.line(r)
	}
	require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
}

// The chains are over meanings: saving a table again in another dialect raises no alarm, changing a word does, in every dialect.
func TestResavedTablesKeepTheirChain(t *testing.T) {
	same := func(s string) string { return s }
	dates := func(s string) string { return strings.ReplaceAll(s, "2026-03-20", "20.3.2026") }
	for _, c := range []struct {
		name                string
		separator           rune
		crlf, mark, quoting bool
		cell                func(string) string
	}{
		{"as written", ',', false, false, false, same},
		{"semicolons, CRLF, mark, dates", ';', true, true, false, dates},
		{"tabs, all quoted", '\t', false, true, true, same},
		{"capitals in digests, blanks at the ends", ',', true, false, true, func(s string) string {
			if len(s) == 64 {
				return strings.ToUpper(s)
			}
			return " " + s + "  "
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := build(t, sandreed())
			for _, d := range []Decision{settleMid(), signed("report 1"), decided(0, "reopen", "winglet", "")} {
				d.Date = "2026-03-20"
				_, err := Settle(dir, d)
				require.NoError(t, err)
			}
			for range 2 {
				_, err := Issue(dir, someSheet(), Basis{})
				require.NoError(t, err)
			}
			for _, name := range []string{DecisionsFile, SheetsFile} {
				resave(t, filepath.Join(dir, name), c.separator, c.crlf, c.mark, c.quoting, c.cell)
			}
			p, err := Load(dir)
			require.NoError(t, err)
			require.Empty(t, p.Alarms)
			_, err = Settle(dir, signed("report 2"))
			require.NoError(t, err, "the record goes on in the new dialect")
			p, err = Load(dir)
			require.NoError(t, err)
			require.Empty(t, p.Alarms)
			require.Len(t, p.Decisions, 4)

			harm := func(name, old, fresh string) {
				raw, err := os.ReadFile(filepath.Join(dir, name))
				require.NoError(t, err)
				require.Contains(t, string(raw), old)
				require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(strings.Replace(string(raw), old, fresh, 1)), 0o644))
			}
			harm(DecisionsFile, "best climb", "good climb")
			harm(SheetsFile, "drawn/wait", "drawn/start")
			p, err = Load(dir)
			require.NoError(t, err)
			require.Len(t, p.Alarms, 2)
			require.Contains(t, p.Alarms[0], "decisions.csv: the chain is broken between row 1 (")
			require.Contains(t, p.Alarms[1], "sheets.csv: the chain is broken between row 1 (2026-03-20, issued by R. Vik, flight F14 of 2026-03-18) and row 2 (")
		})
	}
}

// What the chain of decisions alone cannot see, a sheet that was issued behind it can: newest rows cut off or changed.
func TestASheetKeepsTheNewestDecision(t *testing.T) {
	dir := build(t, sandreed())
	file := filepath.Join(dir, DecisionsFile)
	for _, name := range []string{"report 1", "report 2"} {
		_, err := Settle(dir, signed(name))
		require.NoError(t, err)
	}
	whole, err := os.ReadFile(file)
	require.NoError(t, err)
	_, err = Issue(dir, someSheet(), Basis{})
	require.NoError(t, err)
	lines := strings.SplitAfter(string(whole), "\n")
	for name, text := range map[string]string{
		"cut off": lines[0] + lines[1], "changed": strings.Replace(string(whole), "because of report 2", "because of nothing", 1), "all gone": lines[0],
	} {
		require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
		p, err := Load(dir)
		require.NoError(t, err)
		require.Len(t, p.Alarms, 1, name)
		require.Contains(t, p.Alarms[0], "the decision that sheet 1 (2026-03-20, issued by R. Vik, flight F14 of 2026-03-18) rested on is not in it any more", name)
	}
	require.NoError(t, os.WriteFile(file, whole, 0o644))
	p, err := Load(dir)
	require.NoError(t, err)
	require.Empty(t, p.Alarms)
}
