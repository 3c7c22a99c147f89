package program

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

func decided(number int, event, choice, level string) Decision {
	return Decision{Number: number, Event: event, Choice: choice, Level: level, Date: "2026-03-20", Who: "ab", Why: "so"}
}

// What a void means for each kind of row, worked by hand.
func TestRecord(t *testing.T) {
	settle, reopen, void, sign := decided(1, "settle", "winglet", "mid"), decided(2, "reopen", "winglet", ""), decided(3, "void", "1", ""), decided(2, "signoff", "flutter", "")
	of := func(rows ...Decision) []Entry { return Record(rows) }
	voiding := func(number int, target string) Decision { return decided(number, "void", target, "") }

	e := of(settle, reopen)
	require.Equal(t, 2, e[0].EndedBy)
	require.False(t, e[0].InForce)

	e = of(settle, sign, void)
	require.Equal(t, 3, e[0].VoidedBy)
	require.False(t, e[0].InForce)
	require.Equal(t, []Row{{3, "winglet"}}, e[1].Lapsed, "what it was signed for is taken back")

	e = of(settle, reopen, voiding(3, "2"))
	require.True(t, e[0].InForce, "a void reopen leaves the choice settled")
	require.Zero(t, e[0].EndedBy)

	e = of(settle, voiding(2, "1"), voiding(3, "2"))
	require.True(t, e[0].InForce, "a void row that is void itself")
	require.Equal(t, 3, e[1].VoidedBy)

	e = of(settle, sign, voiding(3, "2"))
	require.False(t, e[1].InForce, "a void sign-off")

	e = of(settle, sign, reopen, voiding(4, "9"))
	require.Equal(t, []Row{{2, "winglet"}}, e[1].Lapsed)
	e = of(settle, decided(2, "signoff", "flutter", ""), decided(3, "reopen", "winglet", ""), voiding(4, "3"))
	require.Empty(t, e[1].Lapsed, "the reopening never was")
	e = of(decided(1, "signoff", "flutter", ""), decided(2, "settle", "winglet", "mid"))
	require.Empty(t, e[0].Lapsed, "signed for every level, settled later")
	e = of(settle, sign, decided(3, "settle", "winglet", "tall"), decided(4, "settle", "winglet", "mid"))
	require.Equal(t, []Row{{3, "winglet"}}, e[1].Lapsed)
	require.Equal(t, []int{3, 0, 4, 0}, []int{e[0].EndedBy, e[1].EndedBy, e[2].EndedBy, e[3].EndedBy})

	e = of(sign, decided(3, "signoff", "Flutter", ""), decided(4, "signoff", "flutter", "rudder"))
	require.Equal(t, []int{3, 0, 0}, []int{e[0].EndedBy, e[1].EndedBy, e[2].EndedBy}, "given anew; one for a part alone replaces none")

	e = of(settle, reopen, decided(3, "signoff", "flutter", ""), voiding(4, "1"))
	require.Empty(t, e[2].Lapsed, "row 1 had ended before the sign-off, so that nothing changed")
	e = of(settle, reopen, decided(3, "signoff", "flutter", ""), voiding(4, "2"))
	require.Equal(t, []Row{{4, "winglet"}}, e[2].Lapsed, "signed while open, settled again by the void")
}

// The rows of a record fit one another, whoever was first.
func TestSettleKeepsTheRecordSound(t *testing.T) {
	dir := build(t, sandreed())
	add := func(d Decision, want string) {
		t.Helper()
		_, err := Settle(dir, d)
		if want == "" {
			require.NoError(t, err)
			return
		}
		var refused *Refused
		require.ErrorAs(t, err, &refused)
		require.ErrorContains(t, err, want)
	}
	add(settleMid(), "")
	tall := settleMid()
	tall.Level = "tall"
	add(tall, "winglet is settled on mid already (row 1, A. Börde, 2026-03-20); reopen it first")
	add(decided(0, "void", "2", ""), `there is no row number "2" to void; write the number of a row of decisions.csv, 1 to 1`)
	add(decided(0, "void", "1", ""), "")
	add(decided(0, "void", "1", ""), "row 1 is void already, by row 2; to put it back into force, void row 2")
	add(tall, "")
	add(decided(0, "reopen", "winglet", ""), "")
	add(decided(0, "void", "4", ""), "")
	add(settleMid(), "winglet is settled on tall already (row 3,")
	p, err := Load(dir)
	require.NoError(t, err)
	require.Len(t, p.Decisions, 5)
	require.Empty(t, p.Alarms)
}

// A row that was judged on a record that has grown since is not written.
func TestSettleOnWhatWasJudged(t *testing.T) {
	dir := build(t, sandreed())
	none := ""
	in, err := ReadInputs(dir)
	require.NoError(t, err)
	_, err = SettleOn(dir, signed("report 1"), Basis{Inputs: in, Decisions: &none})
	require.NoError(t, err)
	_, err = SettleOn(dir, settleMid(), Basis{Inputs: in, Decisions: &none})
	var overtaken *Overtaken
	require.ErrorAs(t, err, &overtaken)
	require.EqualError(t, err, `decisions.csv: row 1 (2026-03-20 signoff report 1 by A. Börde "because of report 1") was recorded while the evidence was judged; nothing was recorded, repeat`)

	p, err := Load(dir)
	require.NoError(t, err)
	last := LastDigest(p.Decisions)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "marks.csv"), []byte("flight,start_s,end_s,manoeuvre\n"), 0o644))
	_, err = SettleOn(dir, settleMid(), Basis{Inputs: in, Decisions: &last})
	require.EqualError(t, err, "marks.csv changed while the evidence was judged; nothing was recorded, repeat")
}
