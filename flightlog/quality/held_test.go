package quality

import (
	"errors"
	"fmt"
	"math"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/sync/errgroup"

	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

// heldIn is a recording in which the channels repeat their last number in every row of step seconds, rounded to a digit, as a
// logger writes a slow sensor.
func heldIn(rec *flightlog.Recording, step, digit float64, qs ...flightlog.Quantity) *flightlog.Recording {
	out := without(rec)
	for _, q := range qs {
		c := rec.Channels[q]
		var rows flightlog.Channel
		i := 0
		for k := 0; c.Time[0]+float64(k)*step <= c.Time[len(c.Time)-1]; k++ {
			t := c.Time[0] + float64(k)*step
			for i+1 < len(c.Time) && c.Time[i+1] <= t+1e-9 {
				i++
			}
			rows.Time, rows.Value = append(rows.Time, t), append(rows.Value, digit*math.Round(c.Value[i]/digit))
		}
		out.Channels[q] = rows
	}
	return out
}

// slowOnes are satellites, air data and a vane, which loggers hold over their rows.
func slowOnes() []flightlog.Quantity {
	return []flightlog.Quantity{flightlog.GroundSpeed, flightlog.GroundTrack, flightlog.ClimbRate, flightlog.Altitude, flightlog.StaticPressure, flightlog.Airspeed, flightlog.AngleOfAttack}
}

// A slow sensor that is written into every row is neither saturated nor frozen nor full of spikes.
func TestHeldCells(t *testing.T) {
	flights := uint64(6)
	if testing.Short() {
		flights = 4
	}
	got := make([][]string, flights)
	var g errgroup.Group
	g.SetLimit(runtime.NumCPU())
	for at := range flights {
		g.Go(func() error {
			seed := 300 + at
			l, err := flown(inventedModel(), seed, flightOptions{sheet: int(at % 4), rate: 100})
			for ; errors.Is(err, rehearse.ErrGround); seed += 1000 { // a sloppy pilot may lose it
				l, err = flown(inventedModel(), seed+1000, flightOptions{sheet: int(at % 4), rate: 100})
			}
			if err != nil {
				return err
			}
			for _, step := range []float64{0.01, 0.04} {
				for _, digit := range []float64{0.01, 1e-4} {
					for _, f := range Inspect(heldIn(ofLog(l), step, digit, slowOnes()...)) {
						got[at] = append(got[at], fmt.Sprintf("flight %d, rows of %g s, digit %g: %s %s %.1f to %.1f s: %s", at, step, digit, f.Severity, f.Channel, f.Start, f.End, f.What))
					}
				}
			}
			return nil
		})
	}
	require.NoError(t, g.Wait())
	for _, findings := range got {
		require.Empty(t, findings)
	}
}

// Two flat tops of three samples at one number happen in a long log; only at the extreme of the flight they are the end of a range.
func TestFlatTopsWithinTheRange(t *testing.T) {
	flat := func(value float64, places ...int) *flightlog.Recording {
		rec := gentle()
		v := rec.Channels[flightlog.PitchAngle].Value
		for _, i := range places {
			v[i-1], v[i], v[i+1], v[i+2], v[i+3] = value-1e-3, value, value, value, value-1e-3
		}
		return rec
	}
	require.Empty(t, Inspect(flat(0.1, 337, 1280)))
	got := Inspect(flat(0.21, 393, 1650))
	require.Len(t, got, 2)
	require.Equal(t, "the pitch angle sits at its highest value 0.21 for 3 samples, as a sensor at the end of its range does", got[0].What)
}

// parked is a flight that is left running on the ground for 300 s: the tube reads 1.3 m/s, rates and forces are those of rest.
func parked(l rehearse.Log, until float64) *flightlog.Recording {
	rec := ofLog(l)
	for q, c := range rec.Channels {
		var cut flightlog.Channel
		for i, t := range c.Time {
			if t <= until {
				cut.Time, cut.Value = append(cut.Time, t), append(cut.Value, c.Value[i])
			}
		}
		step, last := c.Step(), cut.Time[len(cut.Time)-1]
		for k := 1; float64(k)*step < 300; k++ {
			cut.Time = append(cut.Time, last+float64(k)*step)
			cut.Value = append(cut.Value, atRest(q, c.Value[0], k))
		}
		rec.Channels[q] = cut
	}
	return rec
}

func atRest(q flightlog.Quantity, first float64, k int) float64 {
	noise := 1e-3 * math.Sin(2.1*float64(k))
	switch q {
	case flightlog.Airspeed:
		return 1.3 + 10*noise
	case flightlog.ClimbRate, flightlog.GroundSpeed:
		return 0.02 * math.Round(math.Sin(0.01*float64(k))) // coarse, and the same for seconds
	case flightlog.DownAcceleration:
		return -9.81 + noise
	case flightlog.RollRate, flightlog.PitchRate, flightlog.YawRate, flightlog.ForwardAcceleration, flightlog.RightAcceleration:
		return noise
	}
	return first + noise
}

// Three times as long on the ground as in the air: what rests there is neither saturated nor blamed.
func TestParkedForLong(t *testing.T) {
	l, err := flownOnce()
	require.NoError(t, err)
	for _, f := range Inspect(parked(l, 100)) {
		require.NotContains(t, f.What, "end of its range")
		require.NotContains(t, f.What, "exchanged")
		require.NotContains(t, []flightlog.Quantity{flightlog.ClimbRate, flightlog.YawRate}, f.Channel, f.What)
	}
}
