package main

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
)

// then makes a channel of pieces that follow one another at 10 Hz: seconds and value in turn.
func then(pieces ...float64) (c flightlog.Channel) {
	for i := 0; i+1 < len(pieces); i += 2 {
		for range int(10 * pieces[i]) {
			c.Time, c.Value = append(c.Time, 0.1*float64(len(c.Time))), append(c.Value, pieces[i+1])
		}
	}
	return c
}

// A flight that is left to log on the ground is judged by the flight: a tube that reads 1.3 m/s there is no loss of it. A tube that
// dies in the air is one, and ground speed or height say how long the flight went on.
func TestOnlyWhatFliesCounts(t *testing.T) {
	frozen := func(start, end float64) flightlog.Finding {
		return flightlog.Finding{Severity: flightlog.Loss, Channel: flightlog.Airspeed, Start: start, End: end, What: "the airspeed repeats 1.3", Consequence: "no test point"}
	}
	const landed, flies = 0.2, 24.0
	for name, c := range map[string]struct {
		ground, height flightlog.Channel
		finding        flightlog.Finding
		seconds        float64
		want           string
	}{
		"parked":                {then(105, flies, 300, landed), flightlog.Channel{}, frozen(105, 405), 105, "good: 1 test point kept, 2 manoeuvres of use, nothing lost in flight"},
		"parked, no satellites": {flightlog.Channel{}, then(3, 200, 102, 260, 300, 200), frozen(105, 405), 105, "good: 1 test point kept, 2 manoeuvres of use, nothing lost in flight"},
		"dies, by ground speed": {then(300, flies, 100, landed), flightlog.Channel{}, frozen(105, 405), 300, "fly again, because the airspeed is lost over 65 % of the flight, from 105 to 300 s"},
		"dies, by height":       {flightlog.Channel{}, then(3, 200, 297, 260, 100, 200), frozen(105, 405), 300, "fly again, because the airspeed is lost over 65 % of the flight, from 105 to 300 s"},
		"height of 90 km":       {flightlog.Channel{}, then(3, 200, 102, 260, 300, 90000), frozen(105, 405), 105, "good: 1 test point kept"},
		"before the flight":     {flightlog.Channel{}, flightlog.Channel{}, frozen(-20, -1), 105, "nothing lost in flight"},
	} {
		l := flownLog()
		l.recording.Channels[flightlog.Airspeed] = then(105, 25, 300, 1.3)
		l.recording.Channels[flightlog.GroundSpeed] = c.ground
		l.recording.Channels[flightlog.Altitude] = c.height
		require.InDelta(t, c.seconds, l.flying().seconds, 0.3, name)
		v := l.judged(c.finding)
		require.Contains(t, v.Sentence, c.want, name)
	}
	l := flownLog()
	l.recording.Channels = map[flightlog.Quantity]flightlog.Channel{flightlog.Airspeed: then(100, 1), flightlog.Altitude: then(5, 100, 95, 150)}
	require.Zero(t, l.flying().seconds, "carried up a hill")
}

// One wrong time in the last row makes nothing endless, and a clock that was refused says nothing of rest.
func TestLookAtAClockThatErrs(t *testing.T) {
	var rows strings.Builder
	rows.WriteString("time [s],airspeed [km/h],pitch rate [deg/s],static pressure [hPa],down acceleration [m/s²]\n")
	for i := range 400 {
		fmt.Fprintf(&rows, "%.2f,1,0.1,1003,-9.81\n", 0.02*float64(i))
	}
	dir := t.TempDir()
	for name, last := range map[string]string{"epoch": "1.7e9", "far": "1e17"} {
		log := filepath.Join(dir, name+".csv")
		require.NoError(t, os.WriteFile(log, []byte(rows.String()+last+",1,0.1,1003,-9.81\n"), 0o644))
		seen := make(chan outcome, 1)
		go func() { seen <- wingproof("look", log, "--json") }()
		select {
		case got := <-seen:
			require.Zero(t, got.status, got.err)
			require.Contains(t, got.stdout, "by its time column the recording lasts")
			require.Contains(t, got.stdout, `"rest": null`)
		case <-time.After(time.Minute):
			require.Fail(t, "look goes on for ever", name)
		}
	}
	log := filepath.Join(dir, "good.csv")
	require.NoError(t, os.WriteFile(log, []byte(rows.String()), 0o644))
	rest := lookedAt(t, log).Calibration.Rest
	require.NotNil(t, rest)
	require.InDelta(t, 0, rest.Start, 1e-9)
	require.InDelta(t, 7, rest.End, 0.2)
}

// Whatever a column holds, also numbers whose square no computer writes, look answers with a document.
func TestLookAtImpossibleNumbers(t *testing.T) {
	whole := strings.Split(strings.TrimSpace(read(t, filepath.Join(demoFolder(t), "logs", "F02.csv"))), "\n")
	dir := t.TempDir()
	columns := strings.Count(whole[0], ",") + 1
	part := whole[:4000] // some minutes of it, for one column at a time
	spoil := func(whole []string, column int, number string, from, to int) string {
		lines := append([]string{}, whole...)
		for i := from; i < min(to, len(lines)); i++ {
			cells := strings.Split(lines[i], ",")
			for k := range cells {
				if k > 0 && (k == column || column == 0) {
					cells[k] = number
				}
			}
			lines[i] = strings.Join(cells, ",")
		}
		return strings.Join(lines, "\n") + "\n"
	}
	require.Greater(t, columns, 15)
	look := func(name, content string) {
		log := filepath.Join(dir, "spoilt.csv")
		require.NoError(t, os.WriteFile(log, []byte(content), 0o644))
		doc := lookedAt(t, log)
		requireVerdict(t, doc.Verdict)
		require.False(t, math.IsNaN(doc.FlyingS), name)
	}
	for column := range columns { // 0 is all of them
		look(fmt.Sprintf("column %d at 1e300 for a while", column), spoil(part, column, "1e300", 1000, 1500))
	}
	look("all at 1e300 for a while", spoil(whole, 0, "1e300", 1000, 1500))
	look("all at -1e300 at rest", spoil(whole, 0, "-1e300", 1, 100))
	look("all at 1e300", spoil(whole, 0, "1e300", 1, len(whole)))
}
