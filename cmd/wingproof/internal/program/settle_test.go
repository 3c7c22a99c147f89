package program

import (
	"encoding/binary"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
)

func settleMid() Decision {
	return Decision{Event: "settle", Date: "2026-03-20", Choice: "Winglet", Level: "mid", Who: "A. Börde", Why: "best climb; \"tall\" is too heavy"}
}

// signed is the sign-off of a name of its own.
func signed(name string) Decision {
	return Decision{Event: "signoff", Date: "2026-03-20", Choice: name, Who: "A. Börde", Why: "because of " + name}
}

func TestSettleRoundTrip(t *testing.T) {
	dir := build(t, sandreed())
	first, err := Settle(dir, settleMid())
	require.NoError(t, err)
	require.Equal(t, 1, first.Number)
	require.Equal(t, "winglet", first.Choice)
	require.Empty(t, first.PreviousSHA256)
	require.Len(t, first.InputsSHA256, 64)
	second, err := Settle(dir, Decision{Event: "signoff", Date: "2026-03-21", Choice: "flutter_and_mass_balance", Who: "cd", Why: "tests of 12 March"})
	require.NoError(t, err)
	require.Equal(t, first.SHA256(), second.PreviousSHA256)

	p, err := Load(dir)
	require.NoError(t, err)
	require.Equal(t, []Decision{first, second}, p.Decisions)
	require.Empty(t, p.Alarms)
	info, err := os.Stat(filepath.Join(dir, "decisions.csv"))
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o644), info.Mode().Perm())
}

// The table as three kinds of spreadsheet save it: what stands there keeps every byte.
func TestSettleKeepsTheDialect(t *testing.T) {
	heads := "event;number;date;choice;level;who;why;inputs_sha256;previous_sha256"
	utf16 := func(text string) string {
		out := []byte{0xff, 0xfe}
		for _, r := range text {
			out = binary.LittleEndian.AppendUint16(out, uint16(r))
		}
		return string(out)
	}
	row := "settle;1;20.3.2026;foreplane;large;ab;why not;;"
	for _, c := range []struct{ name, before, want string }{
		{"semicolons and CRLF", heads + "\r\n" + row + "\r\n;;;;;;;;\r\n\r\n", heads + "\r\n" + row + "\r\nsettle;2;2026-03-20;winglet;mid;A. Börde;"},
		{"no end of the last line", heads + "\n" + row, heads + "\n" + row + "\nsettle;2;"},
		{"byte-order mark", "\xef\xbb\xbf" + heads + "\r\n" + row + "\r\n", "\xef\xbb\xbf" + heads + "\r\n" + row + "\r\nsettle;2;"},
		{"Windows-1252", heads + "\n" + strings.Replace(row, "ab", "B\xf6rde", 1) + "\n", "settle;2;2026-03-20;winglet;mid;A. B\xf6rde;"},
		{"UTF-16", utf16(heads + "\r\n" + row + "\r\n"), utf16(heads + "\r\n" + row + "\r\nsettle;2;2026-03-20;winglet;mid;A. Börde;")},
		{"separator line", "sep=;\r\n" + heads + "\r\n" + row + "\r\n", "sep=;\r\n" + heads + "\r\n" + row + "\r\nsettle;2;"},
		{"line ends of old", strings.ReplaceAll(heads+"\n"+row+"\n", "\n", "\r"), "\rsettle;2;"},
		{"all quoted", `"` + strings.ReplaceAll(heads, ";", `","`) + `"` + "\n" + strings.ReplaceAll(row, ";", ",") + "\n", `"settle","2","2026-03-20"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			files := sandreed()
			files["decisions.csv"] = c.before
			dir := build(t, files)
			require.NoError(t, os.Chmod(filepath.Join(dir, "decisions.csv"), 0o660))
			done, err := Settle(dir, settleMid())
			require.NoError(t, err)
			raw, err := os.ReadFile(filepath.Join(dir, "decisions.csv"))
			require.NoError(t, err)
			require.Contains(t, string(raw), c.want)
			p, err := Load(dir)
			require.NoError(t, err)
			require.Empty(t, p.Alarms)
			require.Len(t, p.Decisions, 2)
			require.Equal(t, done, p.Decisions[1])
			info, err := os.Stat(filepath.Join(dir, "decisions.csv"))
			require.NoError(t, err)
			require.Equal(t, os.FileMode(0o660), info.Mode().Perm())
		})
	}
}

func TestSettleRefuses(t *testing.T) {
	with := func(change func(*Decision)) Decision { d := settleMid(); change(&d); return d }
	for _, c := range []struct {
		name string
		d    Decision
		want string
	}{
		{"unknown choice", with(func(d *Decision) { d.Choice = "wiglet" }), `there is no choice "wiglet"; did you mean "winglet"?`},
		{"unknown level", with(func(d *Decision) { d.Level = "huge" }), `choice winglet has no level "huge"; write "mid", "small" or "tall"`},
		{"no name", with(func(d *Decision) { d.Who = " " }), "needs to say who decided"},
		{"no reason", with(func(d *Decision) { d.Why = "" }), "needs to say why"},
		{"no day", with(func(d *Decision) { d.Date = "20.3.2026" }), "write it as 2026-03-14"},
		{"unknown event", with(func(d *Decision) { d.Event = "decide" }), `the event "decide" is not known`},
		{"void of nothing", with(func(d *Decision) { d.Event, d.Choice = "void", "1" }), `there is no row number "1" to void: nothing is recorded yet`},
		{"reopen an open one", with(func(d *Decision) { d.Event, d.Level = "reopen", "" }), "winglet is not settled, so there is nothing to reopen"},
		{"a formula", with(func(d *Decision) { d.Why = "+2 % margin" }), `why begins with "+", which a spreadsheet takes for a formula; begin with a word`},
		{"a date", with(func(d *Decision) { d.Why = "12/3" }), `why is "12/3", which a spreadsheet takes for a number or a date; write a word or initials`},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := build(t, sandreed())
			_, err := Settle(dir, c.d)
			require.ErrorContains(t, err, c.want)
			require.NoFileExists(t, filepath.Join(dir, "decisions.csv"))
		})
	}
}

func TestSettleRefusesATableThatIsOpen(t *testing.T) {
	dir := build(t, sandreed())
	_, err := Settle(dir, settleMid())
	require.NoError(t, err)
	before, err := os.ReadFile(filepath.Join(dir, "decisions.csv"))
	require.NoError(t, err)
	mark := filepath.Join(dir, ".~lock.decisions.csv#")
	require.NoError(t, os.WriteFile(mark, []byte("ab"), 0o644))
	_, err = Settle(dir, signed("report 12"))
	var inUse *InUse
	require.ErrorAs(t, err, &inUse)
	require.ErrorContains(t, err, "close it and repeat")
	after, err := os.ReadFile(filepath.Join(dir, "decisions.csv"))
	require.NoError(t, err)
	require.Equal(t, string(before), string(after))

	require.ErrorAs(t, replace(filepath.Join(dir, "decisions.csv"), DecisionsFile, []byte("what was read before"), []byte("new"), false), &inUse)
	require.ErrorAs(t, replace(filepath.Join(dir, "decisions.csv"), DecisionsFile, nil, []byte("new"), true), &inUse)
}

// A letter that the file cannot hold is refused, not turned into a question mark.
func TestSettleRefusesALetterThatDoesNotFit(t *testing.T) {
	files := sandreed()
	files["decisions.csv"] = strings.Join(decisionHeads(), ";") + "\n1;settle;2026-03-19;foreplane;large;B\xf6rde;so;;\n"
	d := settleMid()
	d.Who = "Łucja"
	_, err := Settle(build(t, files), d)
	require.ErrorContains(t, err, "save the file as UTF-8 and repeat")
}

func TestSettleTogether(t *testing.T) {
	dir := build(t, sandreed())
	const writers = 8
	var wait sync.WaitGroup
	errs := make([]error, writers)
	for i := range writers {
		wait.Go(func() { _, errs[i] = Settle(dir, signed(fmt.Sprintf("report %d", i))) })
	}
	wait.Wait()
	for _, err := range errs {
		require.NoError(t, err)
	}
	p, err := Load(dir)
	require.NoError(t, err)
	require.Len(t, p.Decisions, writers)
	require.Empty(t, p.Alarms)
}

func TestABrokenChainShowsBothRows(t *testing.T) {
	three := func(t *testing.T) (dir string, lines []string) {
		dir = build(t, sandreed())
		for _, name := range []string{"mid", "small", "tall"} {
			_, err := Settle(dir, signed(name))
			require.NoError(t, err)
		}
		raw, err := os.ReadFile(filepath.Join(dir, "decisions.csv"))
		require.NoError(t, err)
		return dir, strings.SplitAfter(string(raw), "\n")
	}
	for _, c := range []struct {
		name string
		harm func(lines []string) []string
		want []string // words of each alarm
	}{
		{"nothing", func(l []string) []string { return l }, nil},
		{"changed", func(l []string) []string { l[2] = strings.Replace(l[2], "small", "mid", 1); return l }, []string{"row 2 (2026-03-20 signoff mid by A. Börde \"because of small\") and row 3 (2026-03-20 signoff tall"}},
		{"removed", func(l []string) []string { return append(l[:2:2], l[3:]...) }, []string{"row 1 (2026-03-20 signoff mid by A. Börde \"because of mid\") and row 3 ("}},
		{"first removed", func(l []string) []string { return append(l[:1:1], l[2:]...) }, []string{"the beginning of the table and row 2 ("}},
		{"inserted", func(l []string) []string {
			return append(l[:2:2], "2,signoff,2026-03-20,forged,,X. Y.,so,,"+strings.Repeat("0", 64)+"\n", l[2], l[3])
		}, []string{"row 2 (2026-03-20 signoff forged by X. Y. \"so\"): row 1 was changed, or one of the two put in, after row 2 was written", "row 2 (2026-03-20 signoff forged by X. Y. \"so\") and row 2 (2026-03-20 signoff small by A. Börde \"because of small\"): two rows carry the same number"}},
		{"another order", func(l []string) []string { return []string{l[0], l[3], l[1], l[2]} },
			[]string{"the rows were put in another order: row 3 (2026-03-20 signoff tall by A. Börde \"because of tall\") stands before row 1 (2026-03-20 signoff mid by A. Börde"}},
		{"exchanged numbers", func(l []string) []string {
			return []string{l[0], "1" + l[2][1:], "2" + l[1][1:], l[3]}
		}, []string{"the beginning of the table and row 1 (2026-03-20 signoff small", "row 1 (2026-03-20 signoff small by A. Börde \"because of small\") and row 2 (2026-03-20 signoff mid", "row 2 (2026-03-20 signoff mid by A. Börde \"because of mid\") and row 3 ("}},
		{"other dates", func(l []string) []string {
			for i := range l {
				l[i] = strings.Replace(l[i], "2026-03-20", "20.3.2026", 1)
			}
			return l
		}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir, lines := three(t)
			require.NoError(t, os.WriteFile(filepath.Join(dir, "decisions.csv"), []byte(strings.Join(c.harm(lines), "")), 0o644))
			p, err := Load(dir)
			require.NoError(t, err)
			require.Len(t, p.Alarms, len(c.want))
			for i, want := range c.want {
				require.Contains(t, p.Alarms[i], want)
			}
		})
	}
}

func TestFingerprintFollowsTheInputs(t *testing.T) {
	dir := build(t, sandreed())
	seen := map[string]string{}
	add := func(what string) {
		t.Helper()
		print, err := Fingerprint(dir)
		require.NoError(t, err)
		require.Empty(t, seen[print], "same fingerprint after: %s", what)
		seen[print] = what
	}
	write := func(name, text string) {
		t.Helper()
		path := filepath.Join(dir, filepath.FromSlash(name))
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	}
	add("nothing")
	write("logs/f01.csv", "t,wy\n0,0\n")
	add("a log")
	write("shape/thin-12.csv", sandreed()["shape/thin-12.csv"]+"\n")
	add("an outline")
	require.NoError(t, os.Remove(filepath.Join(dir, "marks.csv")))
	add("a table gone")

	before, err := Fingerprint(dir)
	require.NoError(t, err)
	_, err = Settle(dir, settleMid())
	require.NoError(t, err)
	write("notes.txt", "not an input")
	after, err := Fingerprint(dir)
	require.NoError(t, err)
	require.Equal(t, before, after)
}
