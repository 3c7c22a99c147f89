package main

import (
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog"
	"wingproof/flightlog/identify"
	"wingproof/flightlog/manoeuvre"
	"wingproof/flightlog/reduce"
)

// flownStudy is an invented program of three flights: in one the wing let go first, and it does not count.
func flownStudy() *study.Study {
	flight := func(name, level string, used bool, r reduce.Reduction) study.Flight {
		f := study.Flight{Flight: program.Flight{Name: name, Levels: map[string]string{"winglet": level}}, Used: used}
		f.Reduction = r
		return f
	}
	inputs := func(controls ...flightlog.Quantity) (out []identify.Segment) {
		for _, control := range controls {
			out = append(out, identify.Segment{Control: control})
		}
		return out
	}
	all := inputs(flightlog.Elevator, flightlog.Aileron, flightlog.RudderLeft)
	return &study.Study{Flights: []study.Flight{
		flight("F1", "mid", true, reduce.Reduction{Segments: all}),
		flight("F2", "tall", true, reduce.Reduction{Segments: all[:2], Stalls: []reduce.StallPoint{{Kept: true, First: reduce.FirstForeplane}}}),
		flight("F3", "tall", false, reduce.Reduction{Stalls: []reduce.StallPoint{{Time: 412, First: reduce.FirstWing, Sign: "a wing drops"}}}),
	}}
}

// A danger is told of a flight that does not count, too, and of the configurations asked for only.
func TestDangersOfAStudy(t *testing.T) {
	found := dangersOf(flownStudy(), everyLevel)
	require.Len(t, found, 1)
	require.Equal(t, "F3", found[0].Flight)
	require.Equal(t, "winglet=tall", found[0].Configuration)
	require.InDelta(t, 412, found[0].Time, 0)
	require.Empty(t, dangersOf(flownStudy(), func(levels map[string]string) bool { return levels["winglet"] == "mid" }))
}

// What no flight holds is told once, for the program; what one configuration lacks stands with it.
func TestMissingFlyingOfAStudy(t *testing.T) {
	found := missingOf(flownStudy(), everyLevel)
	told := map[string][]string{}
	for _, one := range found {
		told[one.Configuration] = append(told[one.Configuration], one.What)
	}
	require.Contains(t, strings.Join(told[""], "\n"), "pull-up")
	require.NotContains(t, strings.Join(told[""], "\n"), "rudder can be used: directional")
	require.Len(t, told["winglet=mid"], 1)
	require.Contains(t, told["winglet=mid"][0], "maximum lift is not determined")
	require.Len(t, told["winglet=tall"], 1, "the flight that does not count adds nothing")
	require.Contains(t, told["winglet=tall"][0], "on the rudder can be used")
	require.Empty(t, missingOf(&study.Study{}, everyLevel), "without flights there is nothing to compare")
}

// Every number keeps its columns, a source has one for all rows, and what does not apply is empty.
func TestEstimatesAsCSV(t *testing.T) {
	one := evidence.Estimate{Configuration: "winglet=mid", Quantity: "roll_damping", Unit: "1/rad", Scale: evidence.ModelScale, Origin: evidence.Measured, State: evidence.Determined,
		Value: evidence.Pointer(-0.42), SD: evidence.Pointer(0.03), SDOwn: evidence.Pointer(0.02), Low: evidence.Pointer(-0.49), High: evidence.Pointer(-0.34), Points: evidence.Pointer(12),
		Common: map[string]float64{"inertia_x": 0.01}, Flights: []string{"F1", "F2"}, Warnings: []string{"a", "b, c"}}
	none := evidence.Estimate{Configuration: "winglet=mid", Quantity: "stall_alpha", State: evidence.NotDetermined, Common: map[string]float64{"alpha": 0}}
	var b strings.Builder
	require.NoError(t, estimatesCSV(&b, []evidence.Estimate{one, none}))
	rows, err := csv.NewReader(strings.NewReader(b.String())).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 3)
	cell := func(row int, head string) string {
		for i, h := range rows[0] {
			if h == head {
				return rows[row][i]
			}
		}
		t.Fatalf("no column %s", head)
		return ""
	}
	require.Equal(t, "-0.42", cell(1, "value"))
	require.Equal(t, "-0.49", cell(1, "low"))
	require.Equal(t, "12", cell(1, "points"))
	require.Equal(t, "F1 F2", cell(1, "flights"))
	require.Equal(t, "a; b, c", cell(1, "warnings"))
	require.Equal(t, "0.01", cell(1, "common_inertia_x"))
	for _, head := range []string{"common_alpha", "cg_m", "reynolds", "method", "power"} {
		require.Empty(t, cell(1, head), head)
	}
	for _, head := range []string{"value", "sd", "low", "high", "points", "common_inertia_x"} {
		require.Empty(t, cell(2, head), head)
	}
	require.Equal(t, "0", cell(2, "common_alpha"))
}

// The middling history stands for the others: neither the best nor the worst.
func TestMiddlingHistory(t *testing.T) {
	history := func(flight string, off float64) identify.History {
		return identify.History{Flight: flight, Signals: []identify.Signal{{Measured: []float64{0, 1, 0, -1}, Fitted: []float64{0 + off, 1 + off, 0 + off, -1 + off}}}}
	}
	all := []identify.History{history("worst", 0.9), history("best", 0.01), history("middle", 0.3)}
	require.Equal(t, "middle", middling(all)[0].Flight)
	require.Equal(t, "one", middling([]identify.History{history("one", 0.1)})[0].Flight)
	require.Len(t, middling([]identify.History{history("a", 0.1), history("b", 0.1)}), 1, "equals")
	require.Empty(t, middling(nil))
}

// A pull-up, a sideslip or a deceleration that the reduction dropped is of no use, and says why; a turn serves the wind all the same.
func TestDroppedManoeuvresAreOfNoUse(t *testing.T) {
	r := reduce.Reduction{
		Manoeuvres: []manoeuvre.Manoeuvre{
			{Kind: manoeuvre.PullUp, Start: 10, End: 12}, {Kind: manoeuvre.PullUp, Start: 20, End: 22},
			{Kind: manoeuvre.Sideslip, Start: 30, End: 40}, {Kind: manoeuvre.Deceleration, Start: 50, End: 60}, {Kind: manoeuvre.Turn, Start: 70, End: 80}},
		Loads:  []reduce.LoadPoint{{Start: 11, End: 11.7, Kept: true}, {Start: 21, End: 21.7, Reason: "the elevator moves by 3° in it"}, {Start: 71, End: 79, Reason: "the bank is 20°"}},
		Slips:  []reduce.SlipPoint{{Start: 31, End: 34, Reason: "too short"}, {Start: 34, End: 40, Kept: true}},
		Stalls: []reduce.StallPoint{{Start: 50, Time: 59, Reason: "it is too short to be read"}},
	}
	var why []string
	for _, m := range usableManoeuvres(r) {
		why = append(why, m.Why)
		require.Equal(t, m.Why == "", m.Usable)
	}
	require.Equal(t, []string{"", "dropped: the elevator moves by 3° in it", "", "dropped: it is too short to be read", ""}, why)
}

// A wing that let go first is what the verdict tells first, in words that a crew acts on.
func TestLookTellsOfTheDangerFirst(t *testing.T) {
	doc := lookDocument{Dangers: dangersOf(flownStudy(), everyLevel), Findings: []flightlog.Finding{{Severity: flightlog.Loss, Channel: flightlog.Airspeed, Start: 1, End: 90, What: "a gap"}}}
	clauses := dangerClauses(doc)
	require.Len(t, clauses, 1)
	require.Contains(t, clauses[0], "the wing seems to have let go before the foreplane at 412 s: do not slow it to the stall again")
	var b strings.Builder
	require.NoError(t, printLook(&b, doc))
	require.True(t, strings.HasPrefix(b.String(), "DANGER: "), b.String())
}
