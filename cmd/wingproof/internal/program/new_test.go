package program

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestNewPassesItsOwnCheck(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "fresh")
	require.NoError(t, New(dir, NewOptions{Name: "Reed \"two\"\nseater\\"}))
	p, err := Load(dir)
	require.NoError(t, err)
	require.Equal(t, "Reed \"two\"\nseater\\", p.Name)
	require.GreaterOrEqual(t, len(p.Parts), 8)
	require.Len(t, p.Choices, 1)
	require.Equal(t, "mid", p.Choices[0].Baseline)
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	for _, e := range entries {
		require.False(t, strings.HasPrefix(e.Name(), "."), "%s is left behind", e.Name())
	}
	require.ErrorContains(t, New(dir, NewOptions{}), "is not empty (flights.csv stands in it); name a new folder")
}

func TestNewDrawsWhatItIsTold(t *testing.T) {
	var o NewOptions
	for key, answer := range map[string]string{"name": "Marsh tern", "length_ratio": "20 %", "span": "28 ft", "root_chord": "1,4", "tip_chord": "0.7 m",
		"sweep": "25", "strake_chord": "none", "foreplane_span": "3.2; 3.5; 3.8", "winglet_height": "0.8; 1000 mm", "mass": "1500 lb", "cruise_speed": "60 m/s"} {
		require.NoError(t, o.Set(key, answer))
	}
	dir := t.TempDir()
	require.NoError(t, New(dir, o))
	p, err := Load(dir)
	require.NoError(t, err)
	require.InDelta(t, 0.2, p.Model.LengthRatio, 1e-12)
	require.InDelta(t, 1500*0.45359237, p.FullSize.Mass.Value, 1e-4)
	require.InDelta(t, 60, p.FullSize.CruiseSpeed, 1e-12)
	require.Len(t, p.Surfaces, 3)
	require.Equal(t, []string{"short", "tall"}, p.Choices[0].levelNames())
	require.Equal(t, []string{"small", "standard", "large"}, p.Choices[1].levelNames())
	for _, levels := range p.Configurations() {
		a, warnings, err := p.Airframe(levels)
		require.NoError(t, err)
		require.Empty(t, warnings)
		require.InDelta(t, 28*0.3048, a.Reference.Span, 1e-4)
		fore, winglet := a.Surfaces[2], a.Surfaces[1]
		require.InDelta(t, map[string]float64{"small": 3.2, "standard": 3.5, "large": 3.8}[levels["foreplane"]], 2*fore.Stations[2].LeadingEdge.Y, 1e-9)
		require.InDelta(t, map[string]float64{"short": 0.8, "tall": 1.0}[levels["winglet"]], winglet.Stations[2].LeadingEdge.Z-winglet.Stations[0].LeadingEdge.Z, 1e-9)
	}
}

func TestNewWithChoicesOfItsOwn(t *testing.T) {
	toe := 2 * math.Pi / 180
	move := 0.1
	dir := t.TempDir()
	require.NoError(t, New(dir, NewOptions{WingletHeights: []float64{1}, Choices: []Choice{{Name: "winglet toe", Baseline: "straight", Levels: []Level{
		{Name: "straight"}, {Name: "toed in", Edits: []Edit{{Surface: "winglet", Toe: &toe, MoveX: &move}}}}}}}))
	p, err := Load(dir)
	require.NoError(t, err)
	require.InDelta(t, toe, *p.Choices[0].Levels[1].Edits[0].Toe, 1e-6)
	require.Equal(t, []string{"winglet toe"}, p.Parts[5].ShapedBy)
	require.Equal(t, "winglet", p.Parts[5].Name)
}

func TestNewTakesLogsAlong(t *testing.T) {
	from := t.TempDir()
	var log strings.Builder
	log.WriteString("time_s;airspeed_m_s;pitch rate [deg/s];elevator_us;gizmo \"x\"\n")
	for i := range 50 {
		fmt.Fprintf(&log, "%.2f;%.1f;%.1f;%d;%d\n", 0.1*float64(i), 20+math.Sin(float64(i)), 5*math.Sin(float64(i)), 1500+i, i%3)
	}
	one, two, bad := filepath.Join(from, "a", "flight.csv"), filepath.Join(from, "b", "flight.csv"), filepath.Join(from, "empty.csv")
	for _, path := range []string{one, two} {
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(log.String()), 0o644))
	}
	require.NoError(t, os.WriteFile(bad, nil, 0o644))
	dir := t.TempDir()
	require.NoError(t, New(dir, NewOptions{Logs: []string{one, two, bad}}))
	p, err := Load(dir)
	require.NoError(t, err)
	require.Len(t, p.Loggers, 1)
	require.Len(t, p.Flights, 3)
	for i, path := range []string{"logs/flight.csv", "logs/flight-2.csv", "logs/empty.csv"} {
		require.Equal(t, path, p.Flights[i].Log)
		require.False(t, p.Flights[i].Use)
		require.NotEmpty(t, p.Flights[i].WhyNot)
		require.FileExists(t, filepath.Join(dir, filepath.FromSlash(path)))
	}
	require.Equal(t, "logger-1", p.Flights[1].Logger)
	require.Empty(t, p.Flights[2].Logger)
	require.Contains(t, p.Flights[2].Notes, "no logger map could be drafted")
}

func TestNewRefusesWhatMakesNoAircraft(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "fresh")
	err := New(dir, NewOptions{LengthRatio: 4, Span: 8, StrakeSpan: 9, EmptyMass: 1000, Mass: 900})
	for _, want := range []string{"length ratio 4", "the strakes are 9 m wide", "the empty mass 1000 kg is more"} {
		require.ErrorContains(t, err, want)
	}
	require.NoDirExists(t, dir)
	require.ErrorContains(t, New(dir, NewOptions{Logs: []string{"nowhere.csv"}}), "there is no log nowhere.csv; write the path of one")
	require.NoDirExists(t, dir)
	card := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(card, "RUN41.CSV"), []byte("t,wx\n0,1\n"), 0o600))
	if _, err := os.Stat(filepath.Join(card, "run41.csv")); err != nil { // where capitals count
		err = New(dir, NewOptions{Logs: []string{filepath.Join(card, "run41.csv")}})
		require.ErrorContains(t, err, "did you mean "+filepath.Join(card, "RUN41.CSV")+"?")
	}
	require.NoDirExists(t, dir)
}

func TestEveryQuestionCanBeAnsweredByItsDefault(t *testing.T) {
	var o NewOptions
	for _, q := range NewQuestions() {
		require.NoError(t, o.Set(q.Key, q.Default), q.Key)
	}
	require.NoError(t, o.check())
	require.ErrorContains(t, o.Set("span", "8 kg"), `span: "kg" is no unit of length`)
	require.ErrorContains(t, o.Set("span", "wide"), `span: "wide" is no unit of length`)
	require.ErrorContains(t, o.Set("span", "8; 9"), "holds 2 numbers")
	require.ErrorContains(t, o.Set("winglet_height", "0.7 or 1.0"), `"0.7 or 1.0" is not a number; write one such as 3.5, or several with semicolons between them`)
	require.ErrorContains(t, o.Set("wings", "8"), "no question")
	require.NoError(t, New(t.TempDir(), o))
}
