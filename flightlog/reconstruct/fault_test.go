package reconstruct

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

// change applies a function to the values of one channel between two times.
func change(rec flightlog.Recording, q flightlog.Quantity, start, end float64, f func(float64) float64) {
	c := rec.Channels[q]
	for i, t := range c.Time {
		if t >= start && t <= end {
			c.Value[i] = f(c.Value[i])
		}
	}
}

// told finds the finding that holds some words.
func told(findings []flightlog.Finding, words string) (flightlog.Finding, bool) {
	for _, f := range findings {
		if strings.Contains(f.What, words) {
			return f, true
		}
	}
	return flightlog.Finding{}, false
}

func calmFlight(t *testing.T) rehearse.Log {
	return flown(t, 5, rehearse.Weather{WindSpeed: 3, Turbulence: 0.05, VerticalSD: 0.2, WindFrom: 1}, nil)
}

// A barred stretch of any channel leaves a path whose angles stay good; where the channel matters, standard deviations grow there.
func TestBarredStretches(t *testing.T) {
	log := calmFlight(t)
	rec := log.Recording("rehearsed")
	whole, _ := Run(&rec, Setup{})
	const start, end = 85.0, 105.0
	middle := int(math.Round((95 - whole.Time[0]) / (whole.Time[1] - whole.Time[0])))
	for _, c := range []struct {
		channel flightlog.Quantity
		grows   func(p *Path) float64
	}{
		{flightlog.RollRate, func(p *Path) float64 { return p.HeadingSD[middle] }},
		{flightlog.DownAcceleration, func(p *Path) float64 { return p.AlphaSD[middle] }},
		{flightlog.PitchAngle, func(p *Path) float64 { return p.PitchSD[middle] }},
		{flightlog.Heading, func(p *Path) float64 { return p.HeadingSD[middle] }},
		{flightlog.Airspeed, func(p *Path) float64 { return p.AirspeedSD[middle] }},
		{flightlog.GroundSpeed, func(p *Path) float64 { return p.BetaSD[middle] }},
		{"", func(p *Path) float64 { return p.AlphaSD[middle] }},
	} {
		t.Run(string(c.channel), func(t *testing.T) {
			last := end
			if c.channel == "" {
				last = start + 4 // everything at once for longer leaves nothing to go by
			}
			p, findings := Run(&rec, Setup{Barred: []Stretch{{c.channel, start, last}}})
			require.True(t, p.Enough, findings)
			f := flightTrial{log: log, path: p}
			a, b := f.errors(0, math.Inf(1))
			require.Less(t, math.Sqrt(square(a)/float64(len(a))), 0.5*degree)
			require.Less(t, math.Sqrt(square(b)/float64(len(b))), 1*degree)
			if c.channel != "" {
				require.Greater(t, c.grows(p), 1.0001*c.grows(whole))
				return
			}
			during := int(math.Round((start + 2 - p.Time[0]) / (p.Time[1] - p.Time[0])))
			require.Greater(t, p.AlphaSD[during], 1.3*whole.AlphaSD[during])
			require.Greater(t, p.BetaSD[during], 1.3*whole.BetaSD[during])
		})
	}
}

// What is missing is named, and the caller falls back.
func TestMissingChannels(t *testing.T) {
	log := calmFlight(t)
	for _, q := range essential() {
		rec := log.Recording("rehearsed")
		delete(rec.Channels, q)
		p, findings := Run(&rec, Setup{})
		require.False(t, p.Enough)
		require.NotNil(t, p)
		f, ok := told(findings, strings.ReplaceAll(string(q), "_", " "))
		require.True(t, ok, q)
		require.Contains(t, f.Consequence, "pitch angle less path angle")
	}
	p, findings := Run(&flightlog.Recording{}, Setup{})
	require.False(t, p.Enough)
	require.Len(t, findings, 1)

	rec := log.Recording("never in the air")
	change(rec, flightlog.Airspeed, 0, math.Inf(1), func(float64) float64 { return 1 })
	p, findings = Run(&rec, Setup{})
	require.False(t, p.Enough)
	_, ok := told(findings, "never stays above")
	require.True(t, ok)
}

// Without one of the sources of height, of pressure or of temperature the path stays, and what had to be assumed is told.
func TestFewerChannels(t *testing.T) {
	log := calmFlight(t)
	for _, c := range []struct {
		name    string
		without []flightlog.Quantity
		told    string
	}{
		{"no climb rate", []flightlog.Quantity{flightlog.ClimbRate}, ""},
		{"no static pressure", []flightlog.Quantity{flightlog.StaticPressure}, "no static pressure"},
		{"no temperature", []flightlog.Quantity{flightlog.AirTemperature}, "no air temperature"},
		{"no height", []flightlog.Quantity{flightlog.StaticPressure, flightlog.Altitude}, "no static pressure"},
	} {
		rec := log.Recording("rehearsed")
		for _, q := range c.without {
			delete(rec.Channels, q)
		}
		p, findings := Run(&rec, Setup{})
		require.True(t, p.Enough, c.name)
		f := flightTrial{log: log, path: p}
		a, b := f.errors(0, math.Inf(1))
		require.Less(t, math.Sqrt(square(a)/float64(len(a))), 0.6*degree, c.name)
		require.Less(t, math.Sqrt(square(b)/float64(len(b))), 1*degree, c.name)
		if c.told != "" {
			_, ok := told(findings, c.told)
			require.True(t, ok, c.name)
		}
	}
}

// A recording that begins in the air works as well.
func TestBeginsInTheAir(t *testing.T) {
	log := calmFlight(t)
	rec := log.Recording("rehearsed")
	p, _ := Run(&rec, Setup{Barred: []Stretch{{"", -1, 50}}})
	require.True(t, p.Enough)
	require.Greater(t, p.Time[0], 50.0)
	require.True(t, p.Airborne[0])
	f := flightTrial{log: log, path: p}
	a, b := f.errors(0, math.Inf(1))
	require.Less(t, math.Sqrt(square(a)/float64(len(a))), 0.8*degree)
	require.Less(t, math.Sqrt(square(b)/float64(len(b))), 1*degree)
}

// A tube that blocks in flight is left out from then to then, and the angles stay.
func TestBlockedTube(t *testing.T) {
	log := calmFlight(t)
	rec := log.Recording("rehearsed")
	change(rec, flightlog.Airspeed, 100, 130, func(v float64) float64 { return 7 + 0.3*v })
	p, findings := Run(&rec, Setup{})
	require.True(t, p.Enough)
	f, ok := told(findings, "airspeed is more than five")
	require.True(t, ok, findings)
	require.InDelta(t, 100, f.Start, 1)
	require.InDelta(t, 130, f.End, 1)
	trial := flightTrial{log: log, path: p}
	a, _ := trial.errors(101, 129)
	require.Less(t, math.Sqrt(square(a)/float64(len(a))), 0.6*degree)
}

// A gyro that goes wild for a second throws the attitude: the filter begins anew, says when, and what lies well before and after
// is as good as ever.
func TestBeginsAnew(t *testing.T) {
	log := calmFlight(t)
	rec := log.Recording("rehearsed")
	change(rec, flightlog.RollRate, 100, 101, func(float64) float64 { return 4 })
	p, findings := Run(&rec, Setup{})
	require.True(t, p.Enough)
	f, ok := told(findings, "lost itself")
	require.True(t, ok, findings)
	require.Equal(t, flightlog.Loss, f.Severity)
	require.Greater(t, f.Start, 99.9)
	require.Less(t, f.End, 106.0)
	trial := flightTrial{log: log, path: p}
	for _, s := range [][2]float64{{20, 95}, {112, 205}} {
		a, b := trial.errors(s[0], s[1])
		require.Less(t, math.Sqrt(square(a)/float64(len(a))), 0.6*degree, "%v", s)
		require.Less(t, math.Sqrt(square(b)/float64(len(b))), 1.2*degree, "%v", s)
	}
}

// Channels that contradict one another throughout end in a sentence, not in a path.
func TestContradictions(t *testing.T) {
	minus := func(v float64) float64 { return -v }
	for _, q := range []flightlog.Quantity{flightlog.PitchRate, flightlog.YawRate, flightlog.RightAcceleration, flightlog.DownAcceleration} {
		log := calmFlight(t)
		rec := log.Recording("rehearsed")
		change(rec, q, 0, math.Inf(1), minus)
		p, findings := Run(&rec, Setup{})
		require.False(t, p.Enough, q)
		f, ok := told(findings, "lost itself")
		require.True(t, ok, q)
		require.Contains(t, f.Consequence, "signs")
	}
}

// Running changes nothing in the recording and gives the same bits again.
func TestRunIsPure(t *testing.T) {
	log := calmFlight(t)
	rec, same := log.Recording("rehearsed"), log.Recording("rehearsed")
	one, _ := Run(&rec, Setup{})
	require.Equal(t, same, rec)
	two, _ := Run(&rec, Setup{})
	first, again := one.series(), two.series()
	for i := range first {
		for k, v := range *first[i] {
			require.Equal(t, math.Float64bits(v), math.Float64bits((*again[i])[k]))
		}
	}
	require.Equal(t, one.Whiteness, two.Whiteness)
}

// Each channel on a time base of its own, with jitter, at 100 Hz: nothing leans on common rows.
func TestTimeBasesOfTheirOwn(t *testing.T) {
	w := rehearse.Weather{VerticalSD: 0.2}
	log := flown(t, 6, w, func(i *rehearse.Instruments) { i.FastRate, i.AirRate, i.SatelliteRate = 100, 50, 10 })
	rec := log.Recording("rehearsed")
	// every channel keeps another share of its samples, and no two the same ones
	drop := 3
	for _, q := range flightlog.Quantities() {
		c, ok := rec.Channels[q]
		if !ok || q == flightlog.GroundTrack {
			continue
		}
		var kept flightlog.Channel
		for i := range c.Time {
			if i%drop != 0 || q == flightlog.GroundSpeed {
				kept.Time, kept.Value = append(kept.Time, c.Time[i]), append(kept.Value, c.Value[i])
			}
		}
		rec.Channels[q] = kept
		drop = 3 + (drop+2)%7
	}
	p, findings := Run(&rec, Setup{})
	require.True(t, p.Enough, findings)
	f := flightTrial{log: log, path: p}
	a, b := f.errors(0, math.Inf(1))
	require.Less(t, math.Sqrt(square(a)/float64(len(a))), 0.6*degree)
	require.Less(t, math.Sqrt(square(b)/float64(len(b))), 0.5*degree)
	require.InDelta(t, p.Time[1]-p.Time[0], p.Time[len(p.Time)-1]-p.Time[len(p.Time)-2], 1e-9, "the grid is uniform")
}
