package reconstruct

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog/rehearse"
)

// flightTrial is one rehearsed flight with its reconstruction.
type flightTrial struct {
	log   rehearse.Log
	path  *Path
	scale float64 // of the tube, as drawn
}

// trials gives flights of several seeds, two at a time; the order of the seeds stays.
func trials(t *testing.T, seeds int, w rehearse.Weather) []flightTrial {
	type outcome struct {
		flightTrial
		err error
	}
	all := both(seeds, func(i int) outcome {
		seed := uint64(i + 1)
		ins := rehearse.DrawInstruments(rehearse.DefaultInstruments(), rehearse.DefaultProgrammeErrors(), stream(seed))
		log, err := fly(seed, w, nil)
		if err != nil {
			return outcome{err: err}
		}
		rec := log.Recording("rehearsed")
		p, _ := Run(&rec, Setup{})
		return outcome{flightTrial: flightTrial{log, p, ins.AirspeedScale}}
	})
	out := make([]flightTrial, seeds)
	for i, o := range all {
		require.NoError(t, o.err, "seed %d", i+1)
		require.True(t, o.path.Enough, "seed %d", i+1)
		out[i] = o.flightTrial
	}
	return out
}

// row is the place in the log's truth of a time.
func (f *flightTrial) row(time float64) int {
	step := f.log.Time[1] - f.log.Time[0]
	return min(int(math.Round(time/step)), len(f.log.Time)-1)
}

// errors of angle of attack and sideslip over a stretch, airborne only.
func (f *flightTrial) errors(start, end float64) (alpha, beta []float64) {
	for i, time := range f.path.Time {
		k := f.row(time)
		if time < start || time > end || f.log.Truth.Height[k] < 1 {
			continue
		}
		alpha = append(alpha, f.path.Alpha[i]-f.log.Truth.Alpha[k])
		beta = append(beta, f.path.Beta[i]-f.log.Truth.Beta[k])
	}
	return alpha, beta
}

// gustAngles are what gusts across the flight path do to the flow angles: nothing but a vane shows them.
func (f *flightTrial) gustAngles(start, end float64) (alpha, beta []float64) {
	tr := &f.log.Truth
	for k, time := range f.log.Time {
		if time < start || time > end {
			continue
		}
		r := rotationOf(tr.Roll[k], tr.Pitch[k], tr.Heading[k])
		g := r.body([3]float64{tr.WindNorth[k] - tr.SteadyNorth[k], tr.WindEast[k] - tr.SteadyEast[k], tr.WindDown[k]})
		sin, cos := math.Sincos(tr.Alpha[k])
		alpha = append(alpha, (g[2]*cos-g[0]*sin)/tr.Airspeed[k])
		beta = append(beta, g[1]/tr.Airspeed[k])
	}
	return alpha, beta
}

// meanSquare about zero or about the mean.
func meanSquare(v []float64, aboutMean bool) float64 {
	if aboutMean {
		return variance(v)
	}
	return square(v) / float64(len(v))
}

// pool collects mean squares.
type pool struct{ sum, n float64 }

func (p *pool) add(meanSquare float64, n int) {
	p.sum, p.n = p.sum+meanSquare*float64(n), p.n+float64(n)
}
func (p *pool) degrees() float64 { return math.Sqrt(p.sum/p.n) / degree }

// absolute pools the errors over the whole time in the air and logs every flight.
func absolute(t *testing.T, all []flightTrial) (alpha, beta pool) {
	for i := range all {
		a, b := all[i].errors(0, math.Inf(1))
		alpha.add(meanSquare(a, false), len(a))
		beta.add(meanSquare(b, false), len(b))
		t.Logf("seed %2d: α %.2f°  β %.2f° root mean square in the air", i+1, math.Sqrt(meanSquare(a, false))/degree, math.Sqrt(meanSquare(b, false))/degree)
	}
	return alpha, beta
}

// windAfterCircle is the error of the steady wind when the circle is done, and its normalised square, of two degrees of freedom.
func (f *flightTrial) windAfterCircle() (size, normalised float64) {
	end := 0.0
	for _, s := range f.log.Stretches {
		if s.Card.Kind == rehearse.Circle {
			end = s.End
		}
	}
	p := f.path
	for i, time := range p.Time {
		if time < end {
			continue
		}
		k := f.row(time)
		n, e := p.SteadyNorth[i]-f.log.Truth.SteadyNorth[k], p.SteadyEast[i]-f.log.Truth.SteadyEast[k]
		return math.Hypot(n, e), math.Pow(n/p.SteadyNorthSD[i], 2) + math.Pow(e/p.SteadyEastSD[i], 2)
	}
	return math.NaN(), math.NaN()
}

// counted is how often normalised squared errors lay in their 95 % band, and their sums.
type counted struct {
	runs int
	in   map[string]int // below the upper end of the band
	both map[string]int // between its ends
	sum  map[string]float64
}

// count takes one value a flight of each quantity: the mean of the angles over the first level run, wind at the end of the circle, scale.
func count(t *testing.T, all []flightTrial) counted {
	// 2.5 and 97.5 % points of χ² with one and two degrees of freedom, from the usual tables
	band := map[int][2]float64{1: {0.00098, 5.024}, 2: {0.0506, 7.378}}
	c := counted{len(all), map[string]int{}, map[string]int{}, map[string]float64{}}
	for i := range all {
		f := &all[i]
		m, alpha, beta := f.levelMean()
		_, wind := f.windAfterCircle()
		line := ""
		for _, q := range []struct {
			name   string
			square float64
			free   int
		}{
			{"α", math.Pow((m.Alpha-alpha)/m.AlphaSD, 2), 1}, {"β", math.Pow((m.Beta-beta)/m.BetaSD, 2), 1}, {"wind", wind, 2},
			{"scale", math.Pow((f.path.AirspeedScale-f.scale)/f.path.ScaleSD, 2), 1},
			{"scale by triangle", math.Pow((f.path.Triangle.Scale-f.scale)/f.path.Triangle.ScaleSD, 2), 1},
		} {
			c.sum[q.name] += q.square
			// too small an error is no lie in one flight; the sums over flights show it
			if q.square < band[q.free][1] {
				c.in[q.name]++
				if q.square > band[q.free][0] {
					c.both[q.name]++
				}
			}
			line += fmt.Sprintf("  %s %.2f", q.name, q.square)
		}
		t.Logf("seed %2d normalised squared errors:%s", i+1, line)
	}
	t.Logf("below the upper end of the 95 %% band: %v of %d flights; within both ends: %v; sums: %v", c.in, c.runs, c.both, c.sum)
	return c
}

func (f *flightTrial) levelMean() (m Mean, alpha, beta float64) {
	for _, s := range f.log.Stretches {
		if s.Card.Kind != rehearse.Level {
			continue
		}
		m = f.path.Mean(s.End-6, s.End)
		n := 0.0
		for k, time := range f.log.Time {
			if time >= s.End-6 && time <= s.End {
				alpha, beta, n = alpha+f.log.Truth.Alpha[k], beta+f.log.Truth.Beta[k], n+1
			}
		}
		return m, alpha / n, beta / n
	}
	return m, math.NaN(), math.NaN()
}

// requireNotBold: nine of ten flights lie in the band of each quantity, and the sums below the upper 2.5 % point of χ².
func (c counted) requireNotBold(t *testing.T) {
	for name, n := range c.in {
		require.GreaterOrEqual(t, n, c.runs*9/10, name)
	}
	for name, sum := range c.sum {
		most := 20.48 // χ² with 10 degrees of freedom
		if name == "wind" {
			most = 34.17 // with 20
		}
		require.Less(t, sum, most, name)
	}
}
