package study

import (
	"context"
	"math"
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/keep"
	"wingproof/cmd/wingproof/internal/program"
)

// waitingShop is five flights with a part that waits for them.
func waitingShop(t *testing.T) *Study {
	t.Helper()
	s := fiveFlights(t, nil)
	limit := s.Program.Limits[0]
	s.Program.Limits[0].AtLeast = decideLeast(s, limit.Name)
	s.Program.Parts = []program.Part{{Name: "strake skin", Stage: "drawn", Made: "moulded", HoursLeft: 40, ShapedBy: []string{}, ShapedByStated: true, MustPass: []string{limit.Name}, MustPassStated: true}}
	require.NoError(t, s.judge())
	require.Equal(t, decide.Pending, s.Verdict.Board[0].Status)
	return s
}

// decideLeast is a bound that the first configuration holds with even chance: its median.
func decideLeast(s *Study, name string) *float64 {
	for _, l := range s.Verdict.Configurations[0].Limits {
		if l.Limit == name {
			return &l.Median
		}
	}
	return nil
}

// A forecast is found by all that it was made from, and by nothing else.
func TestTheOutlookIsKept(t *testing.T) {
	s := waitingShop(t)
	ask := func() (decide.Outlook, keep.Counts) {
		s.keep = keep.Open(s.Program.Dir, "one executable")
		out, err := s.Next(context.Background(), nil)
		require.NoError(t, err)
		return out, s.keep.Counts()
	}
	_, known := s.NextKept()
	require.False(t, known)
	first, counts := ask()
	require.Equal(t, keep.Counts{Computed: 1}, counts)
	require.Positive(t, first.Waiting)
	require.NotEmpty(t, first.Prospects)
	again, counts := ask()
	require.Equal(t, keep.Counts{Found: 1}, counts)
	require.Equal(t, first, again)
	kept, known := s.NextKept()
	require.True(t, known)
	require.Equal(t, first, kept)

	part := &s.Program.Parts[0]
	part.Responsible, part.NeededBy, part.HoursSpent, s.Date = "E. V.", "2026-05-01", 12, "2026-04-30"
	_, counts = ask()
	require.Equal(t, keep.Counts{Found: 1}, counts, "who and when move no forecast")
	part.HoursLeft = 50
	more, counts := ask()
	require.Equal(t, 1, counts.Computed)
	require.Equal(t, 50.0, more.Waiting)
	s.Program.FullSize.EmptyMass.SD /= 2
	_, counts = ask()
	require.Equal(t, 1, counts.Computed)
}

// A forecast that is called off says so and leaves nothing behind.
func TestAnOutlookThatIsCalledOffIsNotKept(t *testing.T) {
	s := waitingShop(t)
	s.keep = keep.Open(s.Program.Dir, "one executable")
	ctx, stop := context.WithCancel(context.Background())
	stop()
	_, err := s.Next(ctx, nil)
	require.ErrorIs(t, err, context.Canceled)
	_, known := s.NextKept()
	require.False(t, known)
}

// Every field of a problem is among the inputs of a forecast, or never handed to it.
func TestAForecastReadsWhatItIsFoundBy(t *testing.T) {
	judged, inputs := reflect.TypeFor[judgedInputs](), reflect.TypeFor[outlookInputs]()
	full := decide.Problem{Date: "2026-01-01", LeftOut: make([]decide.LeftOut, 1), Parts: []decide.Part{{Responsible: "E. V.", NeededBy: "2026-01-01", HoursSpent: 3, HoursLeft: 4}}}
	handed := forecastOf(full)
	for i := range reflect.TypeFor[decide.Problem]().NumField() {
		field := reflect.TypeFor[decide.Problem]().Field(i)
		_, drawn := judged.FieldByName(field.Name)
		_, asked := inputs.FieldByName(field.Name)
		if field.IsExported() && field.Name != "Motions" && !drawn && !asked {
			require.True(t, reflect.ValueOf(handed).Field(i).IsZero(), "%s is no part of the key and handed to the forecast", field.Name)
		}
	}
	require.Equal(t, []decide.Part{{HoursLeft: 4}}, handed.Parts)
	require.Equal(t, "E. V.", full.Parts[0].Responsible, "the board's own list stays")
}

// What has no end and what is no number survive the store.
func TestAnOutlookSurvivesWhole(t *testing.T) {
	want := decide.Outlook{Parts: 1, Waiting: math.Inf(1), Prospects: []decide.Prospect{{Candidate: decide.Candidate{Say: "fly", Scales: &decide.Scales{Mass: 1},
		TrimSlopes: []decide.TrimSlopes{{Degrees: math.Inf(1), Common: map[string][]float64{"cg": {math.Inf(-1)}}}}}, Narrows: decide.Narrowing{Now: math.NaN()}}}}
	data, err := keep.Encode(want)
	require.NoError(t, err)
	var got decide.Outlook
	require.NoError(t, keep.Decode(data, &got))
	require.True(t, math.IsNaN(got.Prospects[0].Narrows.Now))
	got.Prospects[0].Narrows.Now, want.Prospects[0].Narrows.Now = 0, 0
	require.Equal(t, want, got)
}
