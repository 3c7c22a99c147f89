package main

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/program"
)

// A row that was overtaken by another row is judged anew, a few times; a file that changed is for the person to look at.
func TestOnlyRowsThatCameBetweenAreJudgedAnew(t *testing.T) {
	for _, c := range []struct {
		name  string
		fails []error
		tries int
		want  string
	}{
		{"at once", []error{nil}, 1, ""},
		{"one row between", []error{&program.Overtaken{What: "row 3 was recorded", ByRow: true}, nil}, 2, ""},
		{"a file changed", []error{&program.Overtaken{What: "flights.csv changed"}}, 1, "flights.csv changed while the evidence was judged; nothing was recorded, repeat"},
		{"another failure", []error{errors.New("disk full")}, 1, "disk full"},
	} {
		tries := 0
		err := untilRecorded(func() error {
			tries++
			return c.fails[tries-1]
		})
		require.Equal(t, c.tries, tries, c.name)
		if c.want == "" {
			require.NoError(t, err, c.name)
			continue
		}
		require.EqualError(t, err, c.want, c.name)
	}
	tries := 0
	require.Error(t, untilRecorded(func() error {
		tries++
		return &program.Overtaken{What: "row 3 was recorded", ByRow: true}
	}))
	require.Equal(t, attempts, tries, "it gives up in the end")
}

// What a void row comes to, in words.
func TestAfterVoid(t *testing.T) {
	row := func(number int, event, choice, level string) program.Decision {
		return program.Decision{Number: number, Event: event, Choice: choice, Level: level}
	}
	settle, reopen, sign := row(1, "settle", "winglet", "mid"), row(2, "reopen", "winglet", ""), row(2, "signoff", "flutter_and_mass_balance", "")
	for _, c := range []struct {
		before []program.Decision
		target string
		want   string
	}{
		{[]program.Decision{settle}, "1", "winglet is open"},
		{[]program.Decision{settle, reopen}, "2", "winglet is settled at mid (row 1)"},
		{[]program.Decision{settle, sign}, "2", "row 2 no longer signs off flutter and mass balance: the parts that wait for it want a new sign-off"},
		{[]program.Decision{settle, sign}, "1", "winglet is open; the sign-off of row 2 lapses for the parts that the winglet shapes"},
		{[]program.Decision{settle, row(2, "void", "1", "")}, "2", "row 1 counts again"},
	} {
		n := len(c.before) + 1
		require.Equal(t, c.want, afterVoid(c.before, row(n, "void", c.target, "")))
	}
}

// A size that passes only together with others may be settled without going against the evidence; one that passes with none may not.
func TestSizesThatPassTogetherCanBeSettled(t *testing.T) {
	v := decide.Verdict{Choices: []decide.ChoiceVerdict{{Choice: "winglet", State: decide.Open}, {Choice: "foreplane", State: decide.Open}},
		Configurations: []decide.ConfigurationVerdict{
			{Levels: map[string]string{"winglet": "mid", "foreplane": "long"}, State: decide.Unproven, Live: true},
			{Levels: map[string]string{"winglet": "mid", "foreplane": "short"}, State: decide.Good, Live: true},
			{Levels: map[string]string{"winglet": "tall", "foreplane": "long"}, State: decide.Good},
		}}
	require.Equal(t, "foreplane short", provenWith(v, "winglet", "mid"))
	require.Empty(t, provenWith(v, "winglet", "tall"), "what is not possible any more proves nothing")
	require.Empty(t, provenWith(v, "foreplane", "long"))
}
