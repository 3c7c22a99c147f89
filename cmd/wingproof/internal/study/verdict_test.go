package study

import (
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/keep"
	"wingproof/cmd/wingproof/internal/program"
)

// What the draws say must not be found again when anything that it follows from has changed: every field of the problem is among its inputs, with
// the same type, or is not handed to the judging at all, but for the function for motions, which its own inputs stand for.
func TestWhatTheDrawsSayIsKeptByTheWholeProblem(t *testing.T) {
	problem, inputs := reflect.TypeFor[decide.Problem](), reflect.TypeFor[judgedInputs]()
	var p decide.Problem
	var ofTheBoard []string
	filled := reflect.ValueOf(&p).Elem()
	for i := range problem.NumField() {
		field := problem.Field(i)
		if !field.IsExported() || field.Name == "Motions" {
			continue
		}
		if kept, ok := inputs.FieldByName(field.Name); ok {
			require.Equal(t, field.Type, kept.Type, field.Name)
		} else {
			ofTheBoard = append(ofTheBoard, field.Name)
		}
		switch value := filled.Field(i); value.Kind() {
		case reflect.Slice:
			value.Set(reflect.MakeSlice(field.Type, 1, 1))
		case reflect.String:
			value.SetString("a")
		case reflect.Uint64:
			value.SetUint(1)
		case reflect.Int:
			value.SetInt(1)
		case reflect.Float64:
			value.SetFloat(1)
		case reflect.Struct:
			p.Aircraft.MeanChord = 1
		}
	}
	require.NotEmpty(t, ofTheBoard)
	handed := reflect.ValueOf(withoutBoard(p))
	for _, name := range ofTheBoard {
		require.False(t, filled.FieldByName(name).IsZero(), name)
		require.True(t, handed.FieldByName(name).IsZero(), "%s is no part of the key and handed to the judging", name)
	}
	in := reflect.ValueOf((&Study{Program: &program.Program{}}).judgedInputs(p))
	for i := range inputs.NumField() {
		if name := inputs.Field(i).Name; name != "Motions" && name != "Altitude" {
			require.False(t, in.Field(i).IsZero(), "%s is not handed on", name)
		}
	}
}

// A stage or a decision written down draws nothing anew, and the board follows it; a limit that is moved does.
func TestPartsAndDecisionsDrawNothingAnew(t *testing.T) {
	s := fiveFlights(t, nil)
	judge := func() (decide.Verdict, keep.Counts) {
		s.keep, s.drawn = keep.Open(s.Program.Dir, "one executable"), nil
		require.NoError(t, s.judge())
		return s.Verdict, s.keep.Counts()
	}
	first, counts := judge()
	require.Equal(t, keep.Counts{Computed: 1}, counts)
	again, counts := judge()
	require.Equal(t, keep.Counts{Found: 1}, counts)
	require.Equal(t, first, again)

	choice := s.Program.Choices[0]
	s.Program.Parts = append(s.Program.Parts, program.Part{Name: "winglet", Stage: "plug", ShapedBy: []string{choice.Name}, ShapedByStated: true, BuiltTo: map[string]string{choice.Name: choice.Baseline}})
	s.Program.Decisions = []program.Decision{{Number: 1, Event: "settle", Date: "2026-04-01", Choice: choice.Name, Level: choice.Baseline, Who: "E.V."}}
	s.Date = "2026-04-01"
	changed, counts := judge()
	require.Equal(t, keep.Counts{Found: 1}, counts)
	require.Equal(t, decide.Settled, changed.Choices[0].State)
	require.Len(t, changed.Board, len(first.Board)+1)
	problem, err := s.Problem()
	require.NoError(t, err)
	whole, err := decide.Judge(problem)
	require.NoError(t, err)
	require.Equal(t, whole.Board, changed.Board)
	require.Equal(t, whole.Configurations, changed.Configurations)

	s.Program.Limits[0].AtLeast = evidence.Pointer(1.0)
	_, counts = judge()
	require.Equal(t, 1, counts.Computed)
}

// What is asked of a study that was judged, or of one whose judgement was found, is what each problem alone gives; a changed problem is not answered
// from the draws of the one before.
func TestContrastsFollowTheProblem(t *testing.T) {
	s := fiveFlights(t, nil)
	choice := s.Program.Choices[0].Name
	ask := func(s Study) ([]decide.Contrast, []decide.CGLimit) {
		contrasts, err := s.Contrasts(choice, map[string]string{})
		require.NoError(t, err)
		limits, err := s.CGLimits([]float64{600, 700})
		require.NoError(t, err)
		return contrasts, limits
	}
	drawn, stations := ask(*s)
	undrawn := *s
	undrawn.drawn = nil
	contrasts, limits := ask(undrawn)
	require.Equal(t, drawn, contrasts)
	require.Equal(t, stations, limits)
	s.Program.Limits[0].AtLeast = evidence.Pointer(*s.Program.Limits[0].AtLeast + 1)
	moved, _ := ask(*s)
	require.NotEqual(t, drawn[0].Bound, moved[0].Bound)
}

// What cannot be judged is refused again with the same words, and nothing of it stays behind.
func TestAFailedJudgingLeavesNothingBehind(t *testing.T) {
	s := studied(t, invented(t), Judged)
	problem, err := s.Problem()
	require.NoError(t, err)
	want, err := s.verdict(problem)
	require.NoError(t, err)
	problem.Draws = -1
	_, first := s.verdict(problem)
	require.Error(t, first)
	_, second := s.verdict(problem)
	require.EqualError(t, second, first.Error())
	problem.Draws = 0
	again, err := s.verdict(problem)
	require.NoError(t, err)
	require.Equal(t, want, again)
}

// Where a figure comes from is no number: writing a source down solves no lattice again.
func TestAStatedSourcePredictsNothingAnew(t *testing.T) {
	p := invented(t)
	before := []any{predictionInputsOf(p).Program}
	p.Held = append(p.Held, "where the wheels stand")
	require.Equal(t, before, []any{predictionInputsOf(p).Program})
}
