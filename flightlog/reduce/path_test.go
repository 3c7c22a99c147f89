package reduce

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
	"wingproof/flightlog/reconstruct"
	"wingproof/flightlog/rehearse"
)

// rehearsed flies a trim sheet and reduces its log.
func rehearsed(t *testing.T, w rehearse.Weather, seed uint64) (rehearse.Log, rehearse.Instruments, Reduction) {
	t.Helper()
	ac := rehearse.ExampleAircraft()
	rng := rand.New(rand.NewPCG(seed, 11))
	ins := rehearse.DrawInstruments(rehearse.DefaultInstruments(), rehearse.DefaultProgrammeErrors(), rng)
	log, err := rehearse.Fly(ac, rehearse.TrimCards(ac.StallSpeed(1.225)), w, ins, rng)
	require.NoError(t, err)
	ref, l := ac.Derivatives.Reference, ac.LengthRatio
	rec := log.Recording("rehearsed")
	r, err := Reduce(&rec, Context{Flight: "R", Mass: ac.Body.Mass, WingArea: ref.Area * l * l, MeanChord: ref.MeanChord * l,
		CG: flightlog.Place{X: ac.CGX * l, Z: ac.CGZ * l}, Pressure: 101325, Temperature: 288.15})
	require.NoError(t, err)
	return log, ins, r
}

// meanOf averages what a row of the log really was over a test point.
func meanOf(l rehearse.Log, series []float64, p TestPoint) float64 {
	sum, n := 0.0, 0.0
	for i, t := range l.Time {
		if t >= p.Start && t <= p.End {
			sum, n = sum+series[i], n+1
		}
	}
	return sum / n
}

// Where a path can be reconstructed, angle of attack and sideslip of the test points come from it, and their errors are as
// large as their standard deviations say: over six flights the mean squared error is at most twice the stated variance,
// which 80 independent errors pass by five of their standard deviations and the six flights' shared ones by three.
func TestPointsTakeTheReconstructedPath(t *testing.T) {
	var alpha, beta, n float64
	for seed := range uint64(6) {
		log, ins, r := rehearsed(t, rehearse.Weather{WindSpeed: 2, WindFrom: 1, Turbulence: 0.1, VerticalSD: 0.2}, seed)
		require.True(t, r.Air.Enough)
		require.True(t, r.Air.ScaleKnown, r.Air.ScaleWhy)
		require.InDelta(t, ins.AirspeedScale, r.Air.AirspeedScale, 0.015)
		require.InDelta(t, 2, r.Air.WindSpeed, 0.5)
		for _, p := range r.Points {
			if !p.Kept {
				continue
			}
			require.Equal(t, byPath, p.AlphaMethod)
			require.True(t, p.HasSideslip)
			require.Less(t, p.AlphaSD, p.AlphaAbsoluteSD)
			alpha += math.Pow((p.Alpha-meanOf(log, log.Truth.Alpha, p))/p.AlphaAbsoluteSD, 2)
			beta += math.Pow((p.Sideslip-meanOf(log, log.Truth.Beta, p))/p.SideslipSD, 2)
			n++
		}
	}
	require.Greater(t, n, 60.0)
	require.Less(t, alpha/n, 2.0)
	require.Less(t, beta/n, 2.0)
}

// Without satellite speeds there is no path: the old road serves and the reduction says so.
func TestPointsWithoutSatelliteSpeedsSayHow(t *testing.T) {
	ac := rehearse.ExampleAircraft()
	rng := rand.New(rand.NewPCG(1, 11))
	log, err := rehearse.Fly(ac, rehearse.TrimCards(ac.StallSpeed(1.225))[:4], rehearse.Weather{}, rehearse.DefaultInstruments(), rng)
	require.NoError(t, err)
	rec := log.Recording("rehearsed")
	delete(rec.Channels, flightlog.GroundSpeed)
	delete(rec.Channels, flightlog.GroundTrack)
	r, err := Reduce(&rec, Context{Flight: "R", Mass: 14, WingArea: 0.7, MeanChord: 0.28, Pressure: 101325, Temperature: 288.15})
	require.NoError(t, err)
	require.False(t, r.Air.Enough)
	require.NotEmpty(t, r.Points)
	for _, p := range r.Points {
		require.Equal(t, ByAttitude, p.AlphaMethod)
		require.False(t, p.HasSideslip)
	}
	said := false
	for _, f := range r.Findings {
		said = said || f.Severity == flightlog.Note && f.Consequence != "" && f.Channel == ""
	}
	require.True(t, said, "no finding says that there is no path")
}

// A gyro that jumps now and then spoils only the samples that jump: angle of attack stays within three of its standard deviations.
func TestSpikesOfAGyroStayOutOfThePath(t *testing.T) {
	ac := rehearse.ExampleAircraft()
	log, err := rehearse.Fly(ac, rehearse.TrimCards(ac.StallSpeed(1.225))[:5], rehearse.Weather{}, rehearse.DefaultInstruments(), rand.New(rand.NewPCG(5, 11)))
	require.NoError(t, err)
	rec := log.Recording("rehearsed")
	for i := 1000; i < len(rec.Channels[flightlog.PitchRate].Value); i += 200 {
		rec.Channels[flightlog.PitchRate].Value[i] += 20
	}
	r, err := Reduce(&rec, Context{Flight: "R", Mass: 14, WingArea: 0.7, MeanChord: 0.28, Pressure: 101325, Temperature: 288.15})
	require.NoError(t, err)
	points := 0
	for _, p := range r.Points {
		if p.Kept {
			points++
			require.Equal(t, byPath, p.AlphaMethod)
			require.InDelta(t, meanOf(log, log.Truth.Alpha, p), p.Alpha, 3*p.AlphaAbsoluteSD)
		}
	}
	require.Greater(t, points, 3)
}

// Where the path lost itself it is not asked.
func TestNoPathWhereItLostItself(t *testing.T) {
	path := &reconstruct.Path{}
	for i := range 101 {
		path.Time = append(path.Time, float64(i)/10)
	}
	n := len(path.Time)
	flat := func(x float64) []float64 {
		out := make([]float64, n)
		for i := range out {
			out[i] = x
		}
		return out
	}
	path.Alpha, path.AlphaSD, path.AlphaCommonSD, path.Beta, path.BetaSD, path.BetaCommonSD = flat(0.1), flat(0.01), flat(0.005), flat(0), flat(0.02), flat(0.01)
	path.Airspeed, path.AirspeedSD, path.GustLength = flat(20), flat(0.2), 30
	m := &measurement{flown: path, lost: []flightlog.Finding{{Start: 4, End: 5}}}
	mean, ok := m.alphaByPath(1, 3)
	require.True(t, ok)
	require.InDelta(t, 0.1, mean.Alpha, 1e-12)
	_, ok = m.alphaByPath(3.5, 6)
	require.False(t, ok)
	path.Alpha[20] = math.NaN()
	for i := 15; i < 25; i++ {
		path.Alpha[i] = math.NaN()
	}
	_, ok = m.alphaByPath(1, 3)
	require.False(t, ok, "half of the stretch was not reconstructed")
}

// Without satellite speeds, vanes are taken as they were logged.
func TestVanesServeWithoutAPath(t *testing.T) {
	ac := rehearse.ExampleAircraft()
	ins := rehearse.DefaultInstruments()
	ins.Vanes = rehearse.DefaultVanes()
	log, err := rehearse.Fly(ac, rehearse.TrimCards(ac.StallSpeed(1.225))[:4], rehearse.Weather{}, ins, rand.New(rand.NewPCG(1, 11)))
	require.NoError(t, err)
	rec := log.Recording("rehearsed")
	delete(rec.Channels, flightlog.GroundSpeed)
	delete(rec.Channels, flightlog.GroundTrack)
	r, err := Reduce(&rec, Context{Flight: "R", Mass: 14, WingArea: 0.7, MeanChord: 0.28, Pressure: 101325, Temperature: 288.15})
	require.NoError(t, err)
	logged := func(q flightlog.Quantity, p TestPoint) float64 {
		var values []float64
		for i, s := range rec.Channels[q].Time {
			if s >= p.Start && s <= p.End {
				values = append(values, rec.Channels[q].Value[i])
			}
		}
		return mean(values)
	}
	require.NotEmpty(t, r.Points)
	for _, p := range r.Points {
		require.Equal(t, byVane, p.AlphaMethod)
		require.InDelta(t, logged(flightlog.AngleOfAttack, p), p.Alpha, 0.1*degree)
		require.True(t, p.HasSideslip)
		require.InDelta(t, logged(flightlog.Sideslip, p), p.Sideslip, 0.1*degree)
	}
}

// A doublet is no held elevator although it ends where it began; a hand that trembles by less than the limit is one.
func TestElevatorHeldOverAStretch(t *testing.T) {
	doublet := []float64{0, 0, 0.08, -0.08, 0, 0}
	require.False(t, heldOver(doublet, 0, 5))
	require.True(t, heldOver(doublet, 4, 5))
	require.True(t, heldOver([]float64{0.01, -0.01, 0.02}, 0, 2))
}

// Flights full of inputs, none of which reaches the stall, show no stall break.
func TestInputsAreNoStallBreaks(t *testing.T) {
	ac := rehearse.ExampleAircraft()
	for seed := range uint64(4) {
		rng := rand.New(rand.NewPCG(seed, 12))
		log, err := rehearse.Fly(ac, rehearse.Sloppy(rehearse.ManoeuvreCards(ac.StallSpeed(1.225))[0], rng), rehearse.DefaultWeather(), rehearse.DefaultInstruments(), rng)
		require.NoError(t, err)
		rec := log.Recording("rehearsed")
		r, err := Reduce(&rec, Context{Flight: "R", Mass: 14, WingArea: 0.7, MeanChord: 0.28, Pressure: 101325, Temperature: 288.15})
		require.NoError(t, err)
		for _, f := range r.Findings {
			require.NotContains(t, f.What, "stall break", "at %g s", f.Start)
		}
	}
}

// A deceleration whose nose falls at the end keeps test points away from its break, and the finding says so.
func TestBreaksOfDecelerationsAreTold(t *testing.T) {
	ac := rehearse.ExampleAircraft()
	log, err := rehearse.Fly(ac, rehearse.ManoeuvreCards(ac.StallSpeed(1.225))[2], rehearse.DefaultWeather(), rehearse.DefaultInstruments(), rand.New(rand.NewPCG(2, 12)))
	require.NoError(t, err)
	rec := log.Recording("rehearsed")
	r, err := Reduce(&rec, Context{Flight: "R", Mass: 14, WingArea: 0.7, MeanChord: 0.28, Pressure: 101325, Temperature: 288.15})
	require.NoError(t, err)
	breaks := breaksOf(r.Manoeuvres)
	require.NotEmpty(t, breaks)
	var told []float64
	for _, f := range r.Findings {
		if strings.Contains(f.What, "stall break") {
			told = append(told, f.Start)
		}
	}
	require.Subset(t, told, breaks)
	for _, p := range r.Points {
		for _, at := range breaks {
			require.False(t, p.Kept && p.Start < at+breakMargin-gridStep && p.End > at-breakMargin+gridStep, "%s from %g to %g s", p.Kind, p.Start, p.End)
		}
	}
}

// A pressure sensor that reads nothing for twenty seconds costs what lies there and nothing else.
func TestADropoutSpoilsItsOwnSecondsOnly(t *testing.T) {
	ac := rehearse.ExampleAircraft()
	log, err := rehearse.Fly(ac, rehearse.TrimCards(ac.StallSpeed(1.225)), rehearse.Weather{}, rehearse.DefaultInstruments(), rand.New(rand.NewPCG(4, 11)))
	require.NoError(t, err)
	reduceLog := func(spoil func(*flightlog.Recording)) Reduction {
		rec := log.Recording("rehearsed")
		spoil(&rec)
		r, err := Reduce(&rec, Context{Flight: "R", Mass: 14, WingArea: 0.7, MeanChord: 0.28, Pressure: 101325, Temperature: 288.15})
		require.NoError(t, err)
		return r
	}
	clean := reduceLog(func(*flightlog.Recording) {})
	for _, bad := range []float64{0, -3000, 1e300} {
		spoilt := reduceLog(func(rec *flightlog.Recording) {
			c := rec.Channels[flightlog.StaticPressure]
			for i, s := range c.Time {
				if s >= 76 && s < 96 {
					c.Value[i] = bad
				}
			}
		})
		far := func(points []TestPoint) (n int) {
			for _, p := range points {
				if p.Kept && (p.End < 72 || p.Start > 100) {
					n++
				}
			}
			return n
		}
		require.InDelta(t, far(clean.Points), far(spoilt.Points), 1, "pressure %g Pa", bad)
		for _, p := range spoilt.Points {
			require.False(t, p.Kept && p.Start < 95.5 && p.End > 76.5, "a point from %g to %g s with pressure %g Pa", p.Start, p.End, bad)
			require.Less(t, math.Abs(p.Drag), 1.0)
		}
	}
}
