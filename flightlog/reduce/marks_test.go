package reduce

import (
	"testing"

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
	require.Contains(t, got.Findings[len(got.Findings)-2].What, "overlaps one that leaves a stretch out")
	last := got.Findings[len(got.Findings)-1]
	require.Contains(t, last.What, "leaves nothing out")
	require.Equal(t, 9000.0, last.Start)
}
