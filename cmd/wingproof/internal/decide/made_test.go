package decide

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Nobody mills a plug for what is cut on the bench or comes in a parcel.
func TestTheNextOperationFitsHowAPartIsMade(t *testing.T) {
	for _, c := range []struct{ made, stage, want string }{
		{"", "drawn", "mill the plug"},
		{"moulded", "drawn", "mill the plug"},
		{"moulded", "plug", "make the mould"},
		{"moulded", "mould", "lay up the part"},
		{"moulded", "laid_up", "trim and fit"},
		{"moulded", "fitted", ""},
		{"built", "drawn", "make the part"},
		{"built", "ready", "trim and fit"},
		{"bought", "drawn", "order the part"},
		{"bought", "ready", "trim and fit"},
		{"bought", "fitted", ""},
	} {
		p := testProblem()
		p.Draws = 200
		p.Parts = []Part{{Name: "cable duct", Made: c.made, Stage: c.stage, ShapedByStated: true, MustPassStated: true}}
		row := mustJudge(t, p).Board[0]
		require.Equal(t, Frozen, row.Status)
		require.Equal(t, c.want, row.Next, "%s, %s", c.made, c.stage)
	}
}

// A spar that exists without a stated strength is held against nothing: row and board say so, once for both sides.
func TestASparWithoutAStatedStrengthIsToldOf(t *testing.T) {
	const alarm = "nobody has stated what the laid-up box spar carries, so no size is judged against it: add [built.box_spar] with its bending_allowable to program.toml"
	const words = "nobody has stated what it carries, so its strength is not judged"
	p := testProblem()
	p.Draws = 200
	p.Parts = nil
	for _, side := range []string{"left", "right"} {
		p.Parts = append(p.Parts, Part{Name: "box spar", Side: side, Stage: "laid_up", ShapedByStated: true, MustPassStated: true})
	}
	v := mustJudge(t, p)
	told := 0
	for _, a := range v.Alarms {
		if a == alarm {
			told++
		}
	}
	require.Equal(t, 1, told, v.Alarms)
	for _, row := range v.Board {
		require.Contains(t, row.Reasons[0], words)
	}

	p.Built = []Built{{Part: "Box_Spar", Surface: "wing", Allowable: []BendingStation{{0, 60000}, {4, 1000}}, SD: 0.05}}
	v = mustJudge(t, p)
	require.NotContains(t, v.Alarms, alarm)
	require.NotContains(t, v.Board[0].Reasons[0], words)

	for _, other := range []string{"spark plugs", "spare wheel", "spar mould"} {
		p.Parts[0].Name, p.Parts[1].Name, p.Built = other, other, nil
		for _, a := range mustJudge(t, p).Alarms {
			require.NotContains(t, a, other)
		}
	}

	p.Parts[0].Name, p.Parts[1].Name = "box spar", "box spar"
	p.Parts[0].Stage, p.Parts[1].Stage = "drawn", "mould"
	v = mustJudge(t, p)
	require.NotContains(t, v.Alarms, alarm, "what does not exist can still be made stronger")
}
