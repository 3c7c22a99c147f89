package decide

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func standingOf(t *testing.T, rows ...Decision) standing {
	t.Helper()
	s, err := newSpace(testProblem())
	require.NoError(t, err)
	return readRecord(s, rows)
}

func event(number int, kind, choice string) Decision {
	return Decision{Number: number, Event: kind, Choice: choice}
}

func TestRecord(t *testing.T) {
	st := standingOf(t, settle(1, "winglet", "mid"), event(2, eventReopen, "winglet"))
	require.Empty(t, st.settled, "reopened")
	st = standingOf(t, settle(1, "winglet", "mid"), event(2, eventVoid, "1"))
	require.Empty(t, st.settled, "void")
	st = standingOf(t, settle(1, "winglet", "mid"), event(2, eventVoid, "1"), event(3, eventVoid, "2"))
	require.Equal(t, "mid", st.settled["winglet"].Level, "the void row is void itself")
	st = standingOf(t, settle(1, "winglet", "mid"), event(2, eventReopen, "winglet"), event(3, eventVoid, "2"))
	require.Equal(t, "mid", st.settled["winglet"].Level, "the reopening is void")
	st = standingOf(t, settle(1, "winglet", "mid"), settle(2, "winglet", "tall"))
	require.Equal(t, "tall", st.settled["winglet"].Level, "the newest counts")
	st = standingOf(t, settle(1, "tail", "mid"), settle(2, "winglet", "huge"), event(3, "bless", "winglet"), event(4, eventVoid, "9"))
	require.Empty(t, st.settled)
	require.Len(t, st.oddities, 4)
}

func TestSignoffLapses(t *testing.T) {
	sign := Decision{Number: 2, Event: eventSignoff, Choice: flutter}
	st := standingOf(t, settle(1, "winglet", "mid"), sign)
	_, found, lapsed := st.signoff("flutter and mass balance", Part{}, []string{"winglet"})
	require.True(t, found)
	require.Nil(t, lapsed)
	st = standingOf(t, settle(1, "winglet", "mid"), sign, event(3, eventReopen, "winglet"))
	_, _, lapsed = st.signoff(flutter, Part{}, []string{"winglet"})
	require.Equal(t, 3, lapsed.Number, "reopened since")
	_, _, lapsed = st.signoff(flutter, Part{}, []string{"foreplane"})
	require.Nil(t, lapsed, "another part is not concerned")
	st = standingOf(t, settle(1, "winglet", "mid"), sign, settle(3, "winglet", "tall"))
	_, _, lapsed = st.signoff(flutter, Part{}, []string{"winglet"})
	require.Equal(t, 3, lapsed.Number, "settled at another level since")
	st = standingOf(t, sign, settle(3, "winglet", "tall"))
	_, found, lapsed = st.signoff(flutter, Part{}, []string{"winglet"})
	require.True(t, found)
	require.Nil(t, lapsed, "signed for all sizes, settled later")
	st = standingOf(t, sign, event(3, eventVoid, "2"))
	_, found, _ = st.signoff(flutter, Part{}, nil)
	require.False(t, found, "void")
	st = standingOf(t, settle(1, "winglet", "mid"), sign, event(3, eventVoid, "1"))
	_, found, lapsed = st.signoff(flutter, Part{}, []string{"winglet"})
	require.True(t, found)
	require.Equal(t, 3, lapsed.Number, "what it was given on is taken back")
	_, _, lapsed = st.signoff(flutter, Part{}, []string{"foreplane"})
	require.Nil(t, lapsed)
	st = standingOf(t, settle(1, "winglet", "mid"), sign, event(3, eventReopen, "winglet"), event(4, eventVoid, "3"))
	_, _, lapsed = st.signoff(flutter, Part{}, []string{"winglet"})
	require.Nil(t, lapsed, "the reopening is void")
	sign.Number = 4
	st = standingOf(t, settle(1, "winglet", "mid"), event(2, eventReopen, "winglet"), event(3, eventVoid, "2"), sign, event(5, eventVoid, "3"), settle(6, "winglet", "tall"))
	_, _, lapsed = st.signoff(flutter, Part{}, []string{"winglet"})
	require.NotNil(t, lapsed, "a void of a void reopens what it was given on")
	require.Equal(t, "winglet", lapsed.Choice)
}

// A sign-off for one part serves no other.
func TestSignoffOfOnePart(t *testing.T) {
	one := Decision{Number: 1, Event: eventSignoff, Choice: flutter, Level: "Winglet, left"}
	for _, c := range []struct {
		part Part
		want bool
	}{{Part{Name: "winglet", Side: "left"}, true}, {Part{Name: "winglet", Side: "right"}, false}, {Part{Name: "rudder"}, false}} {
		_, found, _ := standingOf(t, one).signoff(flutter, c.part, nil)
		require.Equal(t, c.want, found, "%v", c.part)
	}
	one.Level = "winglet"
	_, found, _ := standingOf(t, one).signoff(flutter, Part{Name: "winglet", Side: "right"}, nil)
	require.True(t, found, "both sides")
	one.Level = ""
	_, found, _ = standingOf(t, one).signoff(flutter, Part{Name: "rudder"}, nil)
	require.True(t, found, "every part")
}

// A sign-off that has lapsed stops the part again and says after which row.
func TestLapsedSignoffOnTheBoard(t *testing.T) {
	v := judgeParts(t, func(p *Problem) {
		p.Decisions = []Decision{settle(1, "foreplane", "short"), {Number: 2, Event: eventSignoff, Choice: flutter, Who: "K. Ahlgren"}, settle(3, "foreplane", "long")}
	}, makePart("elevator", stageDrawn, "", "foreplane", "drag"))
	row := rowOf(t, v, "elevator")
	require.Equal(t, Wait, row.Action)
	require.Contains(t, strings.Join(row.Chain, "\n"), "decision 2, K. Ahlgren; since then foreplane was changed: decision 3, J. Hale")
	require.Contains(t, row.Reasons[0], "waits for a new sign-off: flutter and mass balance (decision 2) came before foreplane changed (decision 3)")
}
