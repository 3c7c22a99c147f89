package reduce

import (
	"math"
	"math/rand/v2"
	"runtime"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

// exact is the same recorder without any error and with everything at the CG; draws are made all the same, so that it sees the same flight.
func exact(i rehearse.Instruments) rehearse.Instruments {
	return rehearse.Instruments{FastRate: i.FastRate, AirRate: i.AirRate, SatelliteRate: i.SatelliteRate, ElevatorPlaySD: i.ElevatorPlaySD,
		ElevatorZero: i.ElevatorZero, ElevatorScale: i.ElevatorScale}
}

// sheet is a flight on paper.
type sheet struct {
	aircraft rehearse.Aircraft
	cards    []rehearse.Card
	weather  rehearse.Weather
	seed     uint64
}

func (s sheet) fly(t testing.TB, ins rehearse.Instruments) rehearse.Log {
	t.Helper()
	log, err := rehearse.Fly(s.aircraft, s.cards, s.weather, ins, rand.New(rand.NewPCG(s.seed, 23)))
	require.NoError(t, err)
	return log
}

func (s sheet) context() Context {
	ref, l := s.aircraft.Derivatives.Reference, s.aircraft.LengthRatio
	return Context{Flight: "R", Mass: s.aircraft.Body.Mass, WingArea: ref.Area * l * l, MeanChord: ref.MeanChord * l, Inertia: s.aircraft.Body,
		CG: flightlog.Place{X: s.aircraft.CGX * l, Z: s.aircraft.CGZ * l}, Pressure: 101325, Temperature: 288.15}
}

func (s sheet) reduce(t testing.TB, log rehearse.Log) Reduction {
	t.Helper()
	rec := log.Recording("rehearsed")
	return s.reduceRecording(t, &rec)
}

func (s sheet) reduceRecording(t testing.TB, rec *flightlog.Recording) Reduction {
	t.Helper()
	r, err := Reduce(rec, s.context())
	require.NoError(t, err)
	return r
}

// trial is one flight by a recorder, and by an exact one.
type trial struct {
	sheet
	log, truth rehearse.Log
	reduced    Reduction
}

// trials flies and reduces sheets on all processors.
func trials(t *testing.T, ins rehearse.Instruments, sheets []sheet) []trial {
	t.Helper()
	out := make([]trial, len(sheets))
	next := make(chan int)
	var group sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		group.Go(func() {
			for i := range next {
				s := sheets[i]
				out[i] = trial{sheet: s, log: s.fly(t, ins), truth: s.fly(t, exact(ins))}
				out[i].reduced = s.reduce(t, out[i].log)
			}
		})
	}
	for i := range sheets {
		next <- i
	}
	close(next)
	group.Wait()
	return out
}

// column is a series of an exact recorder.
func column(l rehearse.Log, q flightlog.Quantity) flightlog.Channel {
	return l.Recording("exact").Channels[q]
}

// over is the mean of a series of the log over a time.
func over(l rehearse.Log, series []float64, start, end float64) float64 {
	return meanOf(l, series, TestPoint{Start: start, End: end})
}

// forceOver is the mean over a time of what an exact recorder makes of the specific force along a direction in body axes, as a coefficient.
func (x trial) forceOver(start, end float64, along func(alpha float64) (forward, right, down float64)) float64 {
	rec := x.truth.Recording("exact")
	get := func(q flightlog.Quantity) *reader { return &reader{Channel: rec.Channels[q]} }
	f, r, d := get(flightlog.ForwardAcceleration), get(flightlog.RightAcceleration), get(flightlog.DownAcceleration)
	p, k := get(flightlog.StaticPressure), get(flightlog.AirTemperature)
	c := x.context()
	sum, n := 0.0, 0.0
	for i, t := range x.truth.Time {
		if t < start || t > end {
			continue
		}
		forward, right, down := along(x.truth.Truth.Alpha[i])
		v := x.truth.Truth.Airspeed[i]
		pressure := atmosphere.Density(p.straight(t), k.straight(t)) * v * v / 2
		sum += c.Mass * (forward*f.straight(t) + right*r.straight(t) + down*d.straight(t)) / (pressure * c.WingArea)
		n++
	}
	return sum / n
}

func (x trial) liftOver(start, end float64) float64 {
	return x.forceOver(start, end, func(a float64) (float64, float64, float64) { return math.Sin(a), 0, -math.Cos(a) })
}

func (x trial) sideOver(start, end float64) float64 {
	return x.forceOver(start, end, func(float64) (float64, float64, float64) { return 0, 1, 0 })
}

// spreadOf is the root mean square and the mean of normalised errors.
func spreadOf(z []float64) (rms, average float64) {
	for _, v := range z {
		rms += v * v / float64(len(z))
		average += v / float64(len(z))
	}
	return math.Sqrt(rms), average
}

// requireHonest asks that normalised errors spread as their standard deviations say. Of n independent ones the root mean square scatters by 1/√(2n)
// about one; three of that are let pass, and a tenth for what is not normal.
func requireHonest(t *testing.T, name string, z []float64, least int) {
	t.Helper()
	require.GreaterOrEqual(t, len(z), least, name)
	rms, average := spreadOf(z)
	t.Logf("%s: root mean square of error over standard deviation %.2f, mean %.2f, %d cases", name, rms, average, len(z))
	room := 3/math.Sqrt(2*float64(len(z))) + 0.1
	require.Less(t, rms, 1+room, name)
	require.Greater(t, rms, 1-room, name)
}

// withinFlights takes the mean of each flight off, which errors that a flight shares make, and gives back the spread that this takes away.
func withinFlights(flights [][]float64) []float64 {
	var out []float64
	for _, z := range flights {
		n := float64(len(z))
		if n < 2 {
			continue
		}
		_, average := spreadOf(z)
		for _, v := range z {
			out = append(out, (v-average)*math.Sqrt(n/(n-1)))
		}
	}
	return out
}
