package reconstruct

import (
	"math"

	"wingproof/flightlog"
)

// measurement is one scalar sample.
type measurement struct {
	kind  kind
	value float64
}

// event is one instant at which the estimate stands: it comes there by a stride and takes in measurements.
type event struct {
	time        float64
	stride      stride
	rate        [3]float64 // of the gyros at this instant
	first, last int32      // measurements first to last−1
	grid        int32      // place on the grid of the path; −1 when none
	fresh       bool       // nothing leads here: the first instant after a silence
}

// timeline is a flight as the filter goes through it.
type timeline struct {
	events   []event
	measured []measurement
	step     float64 // of the grid, s
	grid     int     // instants of the grid
	start    float64 // of the grid, s
	silences []Stretch
}

const (
	together   = 0.5e-3 // s: what lies closer is taken as one instant
	fastestOut = 50.0   // Hz, of the path unless asked otherwise
	slowestOut = 10.0

	fastestAsked = 1000.0 // Hz, whatever is asked
)

// gridStep is the step of the path.
func gridStep(in *input, s Setup) float64 {
	step := math.Max(in.rates[0].Step(), math.Max(in.rates[1].Step(), in.rates[2].Step()))
	if s.Rate > 0 {
		return 1 / math.Min(s.Rate, fastestAsked)
	}
	whole := math.Ceil(1/fastestOut/step - 0.05) // every sample, or every second, third … one
	return math.Min(step*math.Max(1, whole), 1/slowestOut)
}

// newTimeline merges the samples of all channels and the grid in order of time.
func newTimeline(in *input, s Setup) *timeline {
	tl := &timeline{step: gridStep(in, s), start: in.start, silences: in.silences()}
	tl.grid = int((in.end-in.start)/tl.step+1e-6) + 1
	total := 0
	for k := range kinds {
		total += len(in.measured[k].Time)
	}
	tl.measured = make([]measurement, 0, total)
	tl.events = make([]event, 0, tl.grid+total/4)
	var next [kinds]int
	for k := range kinds {
		for next[k] < len(in.measured[k].Time) && in.measured[k].Time[next[k]] < in.start-together {
			next[k]++
		}
	}
	silent, fresh := tl.silences, false
	for g := 0; ; {
		now := math.Inf(1)
		if g < tl.grid {
			now = in.start + float64(g)*tl.step
		}
		for k := range kinds {
			if next[k] < len(in.measured[k].Time) {
				now = math.Min(now, in.measured[k].Time[next[k]])
			}
		}
		if now > in.end {
			break
		}
		for len(silent) > 0 && now >= silent[0].End {
			silent = silent[1:]
		}
		if len(silent) > 0 && now > silent[0].Start+together {
			g, fresh = max(g, int(math.Ceil((silent[0].End-in.start)/tl.step))), true
			silent = silent[1:]
			continue
		}
		g = tl.addEvent(in, &next, now, g)
		tl.events[len(tl.events)-1].fresh, fresh = fresh, false
	}
	newDrive(in).fill(tl.events)
	return tl
}

// addEvent takes everything up to a moment after now into one event and returns the next place on the grid.
func (tl *timeline) addEvent(in *input, next *[kinds]int, now float64, g int) int {
	e := event{time: now, first: int32(len(tl.measured)), grid: -1}
	if g < tl.grid && in.start+float64(g)*tl.step <= now+together {
		e.grid = int32(g)
		g++
	}
	for k := range kinds {
		c := &in.measured[k]
		for next[k] < len(c.Time) && c.Time[next[k]] <= now+together {
			tl.measured = append(tl.measured, measurement{k, c.Value[next[k]]})
			next[k]++
		}
	}
	e.last = int32(len(tl.measured))
	tl.events = append(tl.events, e)
	return g
}

// drive turns inertial channels into strides.
type drive struct {
	rate, force             [3]*line
	rateHole, forceHole     [3]float64 // s: a distance between samples above this is a gap
	rateSpread, forceSpread float64    // variance of what happens unseen in a gap
}

// motionTime is how long the motion of a model remembers itself, s, about half a short period; common practice, no source.
const motionTime = 0.3

func newDrive(in *input) *drive {
	d := &drive{}
	for k := range 3 {
		d.rate[k], d.force[k] = newLine(in.rates[k]), newLine(in.forces[k])
		d.rateHole[k] = math.Max(3.5*in.rates[k].Step(), 0.12)
		d.forceHole[k] = math.Max(3.5*in.forces[k].Step(), 0.12)
		d.rateSpread = math.Max(d.rateSpread, variance(in.rates[k].Value))
		d.forceSpread = math.Max(d.forceSpread, variance(in.forces[k].Value))
	}
	return d
}

// fill gives each event the stride that leads to it: means of the channels, taken as straight between their samples, whatever
// their times.
func (d *drive) fill(events []event) {
	var rateArea, forceArea [3]float64
	for i := range events {
		e := &events[i]
		for k := range 3 {
			e.rate[k] = d.rate[k].at(e.time)
			area := d.rate[k].integral(e.time)
			fall := d.force[k].integral(e.time)
			if i > 0 && !e.fresh {
				dt := e.time - events[i-1].time
				e.stride.dt = dt
				e.stride.rate[k], e.stride.force[k] = (area-rateArea[k])/dt, (fall-forceArea[k])/dt
			}
			rateArea[k], forceArea[k] = area, fall
		}
		if i > 0 && !e.fresh {
			d.blind(e)
		}
	}
}

// blind adds what a gap hides: motion with the usual spread of the channel that remembers itself for motionTime.
func (d *drive) blind(e *event) {
	middle := e.time - e.stride.dt/2
	for k := range 3 {
		if !d.rate[k].near(middle, d.rateHole[k]) {
			e.stride.blindTilt = 2 * motionTime * d.rateSpread * e.stride.dt
		}
		if !d.force[k].near(middle, d.forceHole[k]) {
			e.stride.blindGravity = 2 * motionTime * d.forceSpread * e.stride.dt
		}
	}
}

func variance(v []float64) float64 {
	mean, square := 0.0, 0.0
	for _, x := range v {
		mean += x / float64(len(v))
	}
	for _, x := range v {
		square += (x - mean) * (x - mean) / float64(len(v))
	}
	return square
}

// channelOf is a channel of times whose values do not matter.
func channelOf(times []float64) flightlog.Channel {
	return flightlog.Channel{Time: times, Value: make([]float64, len(times))}
}
