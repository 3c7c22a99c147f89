package program

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func someSheet() Sheet {
	return Sheet{Date: "2026-03-20", IssuedBy: "R. Vik", NewestFlight: "flight F14 of 2026-03-18", Board: []SheetRow{
		{"rib 3/4; \\outer", "left", "drawn", "wait"}, {"main spar", "", "laid_up", "stop and ask"}}}
}

func TestIssueRoundTrip(t *testing.T) {
	dir := build(t, sandreed())
	d, err := Settle(dir, settleMid())
	require.NoError(t, err)
	first, err := Issue(dir, someSheet(), Basis{})
	require.NoError(t, err)
	require.Equal(t, 1, first.Number)
	require.Equal(t, d.SHA256(), first.DecisionsSHA256)
	require.Equal(t, d.InputsSHA256, first.InputsSHA256, "neither decisions nor sheets are evidence")
	require.Empty(t, first.PreviousSHA256)
	second, err := Issue(dir, someSheet(), Basis{})
	require.NoError(t, err)
	require.Equal(t, first.SHA256(), second.PreviousSHA256)
	p, err := Load(dir)
	require.NoError(t, err)
	require.Equal(t, []Sheet{first, second}, p.Sheets)
	require.Empty(t, p.Alarms)

	older := someSheet()
	older.Date = "2026-03-19"
	_, err = Issue(dir, older, Basis{})
	require.EqualError(t, err, "sheet 2 is of 2026-03-20; a newer sheet cannot be dated 2026-03-19: leave --date out, or write 2026-03-20 or later")
	nobody := someSheet()
	nobody.IssuedBy = " "
	_, err = Issue(dir, nobody, Basis{})
	require.EqualError(t, err, "a sheet needs to say who issues it")
}

// Sheets issued at once get numbers of their own.
func TestIssueTogether(t *testing.T) {
	dir := build(t, sandreed())
	const writers = 6
	var wait sync.WaitGroup
	errs := make([]error, 2*writers)
	for i := range writers {
		wait.Go(func() { _, errs[2*i] = Issue(dir, someSheet(), Basis{}) })
		wait.Go(func() { _, errs[2*i+1] = Settle(dir, signed(fmt.Sprint("report ", i))) })
	}
	wait.Wait()
	for _, err := range errs {
		require.NoError(t, err)
	}
	p, err := Load(dir)
	require.NoError(t, err)
	require.Empty(t, p.Alarms)
	require.Len(t, p.Decisions, writers)
	for i, s := range p.Sheets {
		require.Equal(t, i+1, s.Number)
	}
}

func TestBoardCell(t *testing.T) {
	text := boardCell(someSheet().Board)
	require.Equal(t, `rib 3\/4\; \\outer/left/drawn/wait; main spar//laid_up/stop and ask`, text)
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.StringMatching(`[a-zä/;\\]{1,6}( [a-z/;\\]{1,4})?`)
		var rows []SheetRow
		for range rapid.IntRange(0, 4).Draw(t, "rows") {
			rows = append(rows, SheetRow{word.Draw(t, "part"), rapid.OneOf(rapid.Just(""), word).Draw(t, "side"), word.Draw(t, "stage"), word.Draw(t, "action")})
		}
		back, wrong := parseBoardCell(boardCell(rows))
		require.Empty(t, wrong)
		require.Equal(t, rows, back)
	})
	for text, want := range map[string]string{"spar/left/drawn": "spar/left/drawn", "a/b/c/d; x": "x", "/b/c/d": "/b/c/d"} {
		_, wrong := parseBoardCell(text)
		require.Equal(t, want, wrong)
	}
}

func TestChangesSince(t *testing.T) {
	sheet := Sheet{Board: []SheetRow{{"tank skin", "left", "drawn", "wait"}, {"spar", "both", "plug", "carry on"}, {"rib", "", "drawn", "start"}, {"duct", "", "drawn", "wait"}}}
	now := []SheetRow{{"Tank  Skin", "left", "drawn", "start"}, {"spar", "both", "mould", "stop and ask"}, {"cover", "", "drawn", "wait"}, {"duct", "", "drawn", "wait"}}
	got := sheet.ChangesSince(now)
	require.Equal(t, []SheetChange{
		{"Tank  Skin", "left", "wait", "start", "drawn", "drawn"},
		{"spar", "both", "carry on", "stop and ask", "plug", "mould"},
		{"cover", "", "", "wait", "", "drawn"},
		{"rib", "", "start", "", "drawn", ""},
	}, got)
	require.Equal(t, []bool{false, true, false, false}, []bool{got[0].Withdrawn(), got[1].Withdrawn(), got[2].Withdrawn(), got[3].Withdrawn()})
	require.Empty(t, sheet.ChangesSince(sheet.Board))
}

func TestOneMistakeInTheSheets(t *testing.T) {
	heads := strings.Join(sheetHeads(), ",") + "\n"
	for _, c := range []struct{ name, row, want string }{
		{"board", "1,2026-03-20,ab,,,,‸spar/both/drawn,", `"spar/both/drawn" is no row of a board; leave this cell as report --issue wrote it: part/side/stage/action; … (row 2, column G "board")`},
		{"date", "1,‸yesterday,ab,,,,,", `"yesterday" is not a date; write 2026-03-14 (row 2, column B "date")`},
		{"nobody", "1,2026-03-20,‸,,,,,", `issued_by is empty; write who issued the sheet (row 2, column C "issued_by")`},
		{"digest", "1,2026-03-20,ab,,,‸12,,", `"12" is no SHA-256 digest; leave this cell as settle wrote it: 64 digits from 0 to 9 and a to f (row 2, column F "decisions_sha256")`},
	} {
		t.Run(c.name, func(t *testing.T) {
			files := sandreed()
			text := heads + c.row + "\n"
			files[SheetsFile] = strings.Replace(text, pointer, "", 1)
			_, err := Load(build(t, files))
			require.EqualError(t, err, place(t, SheetsFile, text)+c.want)
		})
	}
}

func FuzzSheets(f *testing.F) {
	fuzzFile(f, SheetsFile, strings.Join(sheetHeads(), ",")+"\n1,2026-03-19,ab,flight f01,,,spar/both/drawn/wait; a\\/b//plug/start,\n2,19.3.2026,cd,,,,\\,\n")
}

// The list of files behind a fingerprint is kept, checks itself, and says what changed since.
func TestInputsAreRecalled(t *testing.T) {
	files := sandreed()
	files["logs/f01.csv"] = "t,wy\n0,0\n"
	dir := build(t, files)
	d, err := Settle(dir, settleMid())
	require.NoError(t, err)
	then, err := RecallInputs(dir, strings.ToUpper(d.InputsSHA256))
	require.NoError(t, err)
	now, err := ReadInputs(dir)
	require.NoError(t, err)
	require.Equal(t, now, then)
	require.True(t, now.Since(then).None())
	require.True(t, then.Has("logs/f01.csv"))
	require.False(t, then.Has("logs/f02.csv"), "named by flights.csv and not there")

	write := func(name, text string) {
		require.NoError(t, os.WriteFile(filepath.Join(dir, filepath.FromSlash(name)), []byte(text), 0o644))
	}
	write("logs/f01.csv", "t,wy\n0,1\n")
	write("logs/f02.csv", "t,wy\n0,0\n")
	require.NoError(t, os.Remove(filepath.Join(dir, "marks.csv")))
	now, err = ReadInputs(dir)
	require.NoError(t, err)
	require.Equal(t, InputChanges{Added: []string{"logs/f02.csv"}, Changed: []string{"logs/f01.csv"}, Gone: []string{"marks.csv"}}, now.Since(then))

	list := EvidenceFile(d.InputsSHA256)
	raw, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(list)))
	require.NoError(t, err)
	write(list, strings.ReplaceAll(string(raw), "\n", "\r\n"))
	_, err = RecallInputs(dir, d.InputsSHA256)
	require.NoError(t, err, "turned line ends")
	write(list, strings.Replace(string(raw), "logs/f01.csv 9", "logs/f01.csv 8", 1))
	_, err = RecallInputs(dir, d.InputsSHA256)
	require.ErrorIs(t, err, ErrEvidenceLost)
	require.NoError(t, os.Remove(filepath.Join(dir, filepath.FromSlash(list))))
	_, err = RecallInputs(dir, d.InputsSHA256)
	require.ErrorIs(t, err, ErrEvidenceLost)
}
