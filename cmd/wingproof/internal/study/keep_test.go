package study

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"wingproof/aero"
	"wingproof/cmd/wingproof/internal/keep"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/flightlog"
)

// shortLog is a log of ten seconds with every channel that a reduction wants.
func shortLog() string {
	var b strings.Builder
	b.WriteString("t,v,fx,fz,bank,nose,el,p,thr\n")
	for i := range 250 {
		fmt.Fprintf(&b, "%.2f,20.%d,0.5,-9.8,0,3,%d,98000,0\n", float64(i)/25, i%7, 1500+i%3)
	}
	return b.String()
}

// flown is an invented program with two flights whose logs are there.
func flown(t *testing.T) *program.Program {
	t.Helper()
	p := invented(t)
	column := func(head string, is flightlog.Quantity, unit string) flightlog.Column {
		return flightlog.Column{Column: head, Is: is, Unit: unit, Sign: 1, Scale: 1}
	}
	elevator := column("el", flightlog.Elevator, "deg")
	elevator.Calibration = [][2]float64{{1000, -20}, {2000, 20}}
	p.Loggers = []flightlog.Map{{Name: "box", Time: flightlog.TimeColumn{Column: "t", Unit: "s"}, Sensors: flightlog.Sensors{Inertial: &flightlog.Place{X: 0.8}},
		Columns: []flightlog.Column{column("v", flightlog.Airspeed, "m_s"), column("fx", flightlog.ForwardAcceleration, "m_s2"), column("fz", flightlog.DownAcceleration, "m_s2"),
			column("bank", flightlog.RollAngle, "deg"), column("nose", flightlog.PitchAngle, "deg"), elevator, column("p", flightlog.StaticPressure, "pa"),
			column("thr", flightlog.Throttle, "percent")}},
		{Name: "spare"}}
	p.Weighings = []program.Weighing{{Name: "w1", Mass: 14, CGX: 3.5, CGZ: 0.1}, {Name: "w2", Mass: 15}}
	levels := p.Configurations()[0]
	for _, name := range []string{"f01", "f02"} {
		log := "logs/" + name + ".csv"
		require.NoError(t, os.WriteFile(filepath.Join(p.Dir, log), []byte(shortLog()), 0o644))
		p.Flights = append(p.Flights, program.Flight{Name: name, Log: log, Logger: "box", Levels: levels, Weighing: "w1", Use: true,
			Mass: 14, MassSD: 0.05, CG: 3.5, CGSD: 0.008, Pressure: 98000, Temperature: 285, Notes: "calm", Row: len(p.Flights) + 1})
	}
	p.Marks = []program.Mark{{Flight: "f01", Start: 2, End: 6, Manoeuvre: "glide"}}
	return p
}

// asked runs a study and tells how many results were found and computed.
func asked(t *testing.T, p *program.Program, until Stage, executable string) (*Study, keep.Counts) {
	t.Helper()
	store := keep.Open(p.Dir, executable)
	s, err := Run(context.Background(), p, Options{Until: until, Keep: store})
	require.NoError(t, err)
	return s, store.Counts()
}

// Nothing changed finds every result; and it is the one that was computed, to the last bit and the last empty list.
func TestKeptReductionsAreThoseComputed(t *testing.T) {
	p := flown(t)
	plain := studied(t, p, Reduced)
	require.NotEmpty(t, plain.Flights[0].Reduction.Points)
	cold, counts := asked(t, p, Reduced, "one")
	require.Equal(t, keep.Counts{Computed: 2}, counts)
	warm, counts := asked(t, p, Reduced, "one")
	require.Equal(t, keep.Counts{Found: 2}, counts)
	require.Equal(t, plain.Flights, cold.Flights)
	require.Equal(t, cold.Flights, warm.Flights)
}

// Each thing that a reduction reads is changed alone, and that one flight, or both, are reduced again. Afterwards the program is
// as before, and its results are still there.
func TestEachIngredientOfAReductionCounts(t *testing.T) {
	p := flown(t)
	asked(t, p, Reduced, "one")
	logger, column := &p.Loggers[0], &p.Loggers[0].Columns[0]
	elevator := &logger.Columns[5]
	f, w := &p.Flights[0], &p.Weighings[0]
	marks := p.Marks
	for name, c := range map[string]struct {
		change func()
		again  int
	}{
		"head of the time":       {func() { logger.Time.Column = "v" }, 2},
		"unit of the time":       {func() { logger.Time.Unit = "ms" }, 2},
		"name of the logger":     {func() { logger.Name = "crate"; p.Flights[0].Logger, p.Flights[1].Logger = "crate", "crate" }, 2},
		"head of a column":       {func() { column.Column = "fx" }, 2},
		"quantity of a column":   {func() { column.Is = flightlog.GroundSpeed }, 2},
		"unit of a column":       {func() { column.Unit = "kt" }, 2},
		"sign of a column":       {func() { column.Sign = -1 }, 2},
		"scale of a column":      {func() { column.Scale = 1.01 }, 2},
		"offset of a column":     {func() { column.Offset = 0.1 }, 2},
		"delay of a column":      {func() { column.Delay = 0.2 }, 2},
		"calibration":            {func() { elevator.Calibration = [][2]float64{{1000, -20}, {2000, 20.1}} }, 2},
		"no calibration":         {func() { elevator.Calibration = nil }, 2},
		"a column fewer":         {func() { logger.Columns = logger.Columns[:7] }, 2},
		"sensor place":           {func() { logger.Sensors.Inertial = &flightlog.Place{X: 0.81} }, 2},
		"sensor place unknown":   {func() { logger.Sensors.Inertial = nil }, 2},
		"another sensor's place": {func() { logger.Sensors.Tube = &flightlog.Place{} }, 2},
		"flight's name":          {func() { f.Name = "f00" }, 1},
		"mass":                   {func() { f.Mass = 14.01 }, 1},
		"mass error":             {func() { f.MassSD = 0.06 }, 1},
		"CG":                     {func() { f.CG = 3.501 }, 1},
		"CG error":               {func() { f.CGSD = 0.009 }, 1},
		"pressure":               {func() { f.Pressure = 98001 }, 1},
		"pressure not stated":    {func() { f.Pressure = 0 }, 1},
		"temperature":            {func() { f.Temperature = 285.1 }, 1},
		"levels flown":           {func() { f.Levels = p.Configurations()[1] }, 1},
		"weighing named":         {func() { f.Weighing = "w2" }, 1},
		"weighing's height":      {func() { w.CGZ = 0.11 }, 2},
		"weighing's inertia":     {func() { w.Iy = 1.2 }, 2},
		"weighing's date":        {func() { w.Date = "2026-03-01" }, 2},
		"mark moved":             {func() { p.Marks = []program.Mark{{Flight: "f01", Start: 2, End: 6.1, Manoeuvre: "glide"}} }, 1},
		"mark's kind":            {func() { p.Marks = []program.Mark{{Flight: "f01", Start: 2, End: 6, Manoeuvre: "level"}} }, 1},
		"mark taken away":        {func() { p.Marks = nil }, 1},
		"mark for the other": {func() {
			p.Marks = append(marks[:1:1], program.Mark{Flight: "f02", Start: 1, End: 4, Manoeuvre: "level"})
		}, 1},
		"length ratio":        {func() { p.Model.LengthRatio *= 1.01 }, 2},
		"instrument error":    {func() { p.Model.Errors.Alpha += 0.001 }, 2},
		"reference area":      {func() { p.Declared.Area = 11.1 }, 2},
		"mean chord":          {func() { p.Declared.MeanChord = 1.01 }, 2},
		"log of another name": {func() { f.Log = "logs/f02.csv" }, 1},
	} {
		before := saved(p)
		c.change()
		_, counts := asked(t, p, Reduced, "one")
		require.Equal(t, keep.Counts{Computed: c.again, Found: 2 - c.again}, counts, name)
		before.restore(p)
		_, counts = asked(t, p, Reduced, "one")
		require.Equal(t, keep.Counts{Found: 2}, counts, "%s, undone", name)
	}
	_, counts := asked(t, p, Reduced, "two")
	require.Equal(t, keep.Counts{Computed: 2}, counts, "another executable")
}

// saved is a copy of what these tests change in a program.
type savedProgram struct {
	program program.Program
	logger  flightlog.Map
	columns []flightlog.Column
	flights []program.Flight
	weighed []program.Weighing
}

func saved(p *program.Program) savedProgram {
	return savedProgram{*p, p.Loggers[0], append([]flightlog.Column{}, p.Loggers[0].Columns...), append([]program.Flight{}, p.Flights...), append([]program.Weighing{}, p.Weighings...)}
}

func (s savedProgram) restore(p *program.Program) {
	*p = s.program
	copy(s.logger.Columns, s.columns)
	p.Loggers[0] = s.logger
	copy(p.Flights, s.flights)
	copy(p.Weighings, s.weighed)
}

// One byte of a log counts, and so does a byte that the reader passes over; the time of the file does not.
func TestEachByteOfALogCounts(t *testing.T) {
	p := flown(t)
	asked(t, p, Reduced, "one")
	path := filepath.Join(p.Dir, "logs", "f01.csv")
	for name, text := range map[string]string{
		"a digit":     strings.Replace(shortLog(), "20.3,0.5,", "20.3,0.6,", 1),
		"a blank":     strings.Replace(shortLog(), "\n0.00,", "\n 0.00,", 1),
		"a byte more": shortLog() + "\n",
		"a byte less": strings.TrimSuffix(shortLog(), "\n"),
		"no table":    "abc",
		"nothing":     "",
	} {
		require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
		changed, counts := asked(t, p, Reduced, "one")
		require.Equal(t, keep.Counts{Computed: 1, Found: 1}, counts, name)
		again, counts := asked(t, p, Reduced, "one")
		require.Equal(t, keep.Counts{Found: 2}, counts, "%s: what is wrong with a log is kept too", name)
		require.Equal(t, changed.Flights, again.Flights, name)
	}
	require.NoError(t, os.Remove(path))
	s, counts := asked(t, p, Reduced, "one")
	require.Equal(t, keep.Counts{Found: 1}, counts)
	require.Equal(t, "the log logs/f01.csv is not there", s.Flights[0].Why)
	require.NoError(t, os.WriteFile(path, []byte(shortLog()), 0o644))
	s, counts = asked(t, p, Reduced, "one")
	require.Equal(t, keep.Counts{Found: 2}, counts, "a log that comes back")
	require.True(t, s.Flights[0].Used)
}

// What no reduction reads costs nothing when it changes, and a folder that moves takes its results along.
func TestWhatAReductionDoesNotReadCostsNothing(t *testing.T) {
	p := flown(t)
	asked(t, p, Reduced, "one")
	p.Name, p.Seed, p.CautionsRead = "another", 9, "M.O., 2026-02-02"
	p.Flights[0].Notes, p.Flights[0].Row, p.Flights[1].WhyNot = "windy", 7, "once"
	p.Flights[0], p.Flights[1] = p.Flights[1], p.Flights[0]
	p.Weighings[1].Mass = 16
	p.Loggers[1].Time.Column = "clock"
	p.Limits, p.Parts, p.TheoryErrors, p.FullSize.Mass.Value = nil, nil, nil, 900
	moved := p.Dir + "-moved"
	require.NoError(t, os.Rename(p.Dir, moved))
	p.Dir = moved
	_, counts := asked(t, p, Reduced, "one")
	require.Equal(t, keep.Counts{Found: 2}, counts)
}

// A log that changes while it is read gives a result of neither content: it is told and not kept.
func TestALogThatGrowsWhileItIsReadIsNotKept(t *testing.T) {
	p := flown(t)
	r := reducer{program: p, reference: aero.Reference{Area: 10, MeanChord: 1}, keep: keep.Open(p.Dir, "one"), memory: newRoom(logsAtOnce)}
	in := reductionInputsOf(p, r.reference, p.Flights[0], p.Loggers[0])
	require.NoError(t, r.memory.free.Acquire(context.Background(), logsAtOnce-1))
	done := make(chan outcome)
	go func() {
		out, _ := r.outcome(context.Background(), in)
		done <- out
	}()
	for r.memory.free.TryAcquire(1) { // until the log waits for room: its digest has been taken
		r.memory.free.Release(1)
		runtime.Gosched()
	}
	path := filepath.Join(p.Dir, "logs", "f01.csv")
	require.NoError(t, os.WriteFile(path, []byte(strings.ReplaceAll(shortLog(), ",20.", ",25.")), 0o644))
	r.memory.free.Release(logsAtOnce - 1)
	grown := <-done
	for range 2 {
		again, err := r.outcome(context.Background(), in)
		require.NoError(t, err)
		require.Equal(t, grown, again)
	}
	require.Equal(t, keep.Counts{Computed: 2, Found: 1}, r.keep.Counts(), "the new content has been read once more before it was kept")
	require.NoError(t, os.WriteFile(path, []byte(shortLog()), 0o644))
	before, err := r.outcome(context.Background(), in)
	require.NoError(t, err)
	require.NotEqual(t, grown, before, "the old content has not got the numbers of the new one")
}

// Logs wait for one another when they do not fit into memory together; one that never fits is read alone.
func TestLogsWaitForRoom(t *testing.T) {
	dir := t.TempDir()
	sized := func(name string, size int) string {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, make([]byte, size), 0o644))
		return path
	}
	small, half, huge := sized("small", 10), sized("half", 500), sized("huge", 3000)
	memory := newRoom(1000)
	read := func(path string) (done func()) {
		done, err := memory.take(context.Background(), path)
		require.NoError(t, err)
		return done
	}
	full := func(path string) {
		ctx, cancel := context.WithTimeout(context.Background(), 20*time.Millisecond)
		defer cancel()
		_, err := memory.take(ctx, path)
		require.ErrorIs(t, err, context.DeadlineExceeded)
	}
	first, second := read(half), read(half)
	full(small)
	first()
	third := read(small)
	full(huge)
	second()
	third()
	alone := read(huge)
	full(filepath.Join(dir, "missing"))
	alone()
}
