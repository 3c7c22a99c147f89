package reduce

import (
	"testing"

	"wingproof/flightlog"
	"wingproof/flightlog/manoeuvre"

	"github.com/stretchr/testify/require"
)

// A hand mark takes the place of what the search finds, and a stretch to be left out gives nothing.
func TestHandMarksOverride(t *testing.T) {
	m := inventedModel()
	rec := m.fly(glides(), usual(), 11)
	context := m.context()
	free, err := Reduce(rec, context)
	require.NoError(t, err)
	require.Greater(t, len(free.Points), 2)
	first, last := free.Points[0], free.Points[len(free.Points)-1]

	context.Marks = []Mark{
		{Start: first.Start + 0.5, End: first.Start + 3.5, Kind: "glide"},
		{Start: last.Start - 1, End: last.End + 1, Kind: LeaveOut},
	}
	marked, err := Reduce(rec, context)
	require.NoError(t, err)
	var byHand *TestPoint
	for i, p := range marked.Points {
		if p.Reason == "marked by hand as glide" {
			byHand = &marked.Points[i]
		}
		require.False(t, p.Start < last.End+1 && p.End > last.Start-1, "a point at %g s lies in what was to be left out", p.Start)
	}
	require.NotNil(t, byHand)
	require.InDelta(t, first.Start+0.5, byHand.Start, gridStep)
	require.InDelta(t, first.Start+3.5, byHand.End, 2*gridStep)
	require.True(t, byHand.Kept)
}

// A mark that cannot be used is told with its place, and costs nothing else.
func TestHandMarksThatCannotBeUsed(t *testing.T) {
	m := inventedModel()
	rec := m.fly(glides(), usual(), 11)
	context := m.context()
	free, err := Reduce(rec, context)
	require.NoError(t, err)
	first := free.Points[0]
	context.Marks = []Mark{
		{Start: 9000, End: 9010, Kind: "glide"},
		{Start: first.Start, End: first.Start + 3, Kind: "glide"},
		{Start: first.Start + 1, End: first.Start + 4, Kind: "level"},
	}
	got, err := Reduce(rec, context)
	require.NoError(t, err)
	require.Len(t, got.Findings, len(free.Findings)+2)
	require.Contains(t, got.Findings[len(got.Findings)-2].What, "0.0 s of the recording")
	require.Contains(t, got.Findings[len(got.Findings)-1].What, "overlaps another mark")
}

// A stretch to be left out beats one to be taken, and one outside the recording is told: it may be a slip of the pen.
func TestHandMarksThatLeaveOut(t *testing.T) {
	m := inventedModel()
	rec := m.fly(glides(), usual(), 11)
	context := m.context()
	free, err := Reduce(rec, context)
	require.NoError(t, err)
	first := free.Points[0]
	context.Marks = []Mark{
		{Start: first.Start, End: first.Start + 3, Kind: "glide"},
		{Start: first.Start + 2, End: first.Start + 4, Kind: LeaveOut},
		{Start: 9000, End: 9010, Kind: LeaveOut},
	}
	got, err := Reduce(rec, context)
	require.NoError(t, err)
	require.Len(t, got.Findings, len(free.Findings)+2)
	require.Contains(t, got.Findings[len(got.Findings)-2].What, "overlaps one that keeps test points out")
	last := got.Findings[len(got.Findings)-1]
	require.Contains(t, last.What, "leaves nothing out")
	require.Equal(t, 9000.0, last.Start)
}

// A mark takes the place of the manoeuvres that it overlaps, keeps the control of one of its kind, and lets no test point into it.
func TestHandMarksNameManoeuvres(t *testing.T) {
	found := []manoeuvre.Manoeuvre{
		{Kind: manoeuvre.Level, Start: 0, End: 10}, {Kind: manoeuvre.Doublet, Control: flightlog.Aileron, Size: 0.1, Start: 12, End: 15},
		{Kind: manoeuvre.Turn, Start: 20, End: 30}, {Kind: manoeuvre.Glide, Start: 40, End: 50},
	}
	rec := &flightlog.Recording{Channels: map[flightlog.Quantity]flightlog.Channel{flightlog.Airspeed: {Time: []float64{11, 12, 13, 25}, Value: []float64{1, 20, 22, 30}}}}
	got := withMarks(found, []Mark{{11.5, 16, "doublet"}, {22, 24, LeaveOut}, {52, 55, "circle"}}, rec)
	require.Equal(t, []manoeuvre.Manoeuvre{
		{Kind: manoeuvre.Level, Start: 0, End: 10},
		{Kind: manoeuvre.Doublet, Control: flightlog.Aileron, Size: 0.1, Start: 11.5, End: 16, Airspeed: 21, Detail: "marked by hand as doublet"},
		{Kind: manoeuvre.Glide, Start: 40, End: 50},
		{Kind: manoeuvre.Circle, Start: 52, End: 55, Detail: "marked by hand as circle"},
	}, got)
	require.Equal(t, found, withMarks(found, nil, rec))

	m := inventedModel()
	log := m.fly(glides(), usual(), 11)
	context := m.context()
	free, err := Reduce(log, context)
	require.NoError(t, err)
	first := free.Points[0]
	context.Marks = []Mark{{Start: first.Start, End: first.End, Kind: "turn"}}
	marked, err := Reduce(log, context)
	require.NoError(t, err)
	for _, p := range marked.Points {
		require.False(t, p.Start < first.End-gridStep && p.End > first.Start+gridStep)
	}
}
