package plan

import (
	"fmt"
	"math"
)

const degree = math.Pi / 180

// dealer deals the cards of one sheet.
type dealer struct {
	problem       Problem
	configuration Configuration
	cg            float64
	speeds        speeds
	sheet         *Sheet
}

// deal deals all cards, in flying order: checks, glides, level runs, inputs, sideslips, turns, and the stall last.
func (d *dealer) deal() {
	d.checks()
	d.glides()
	d.levels()
	d.inputs()
	d.sideslips()
	d.turns()
	d.pullUp()
	d.decelerations()
}

// Limits of every card, common practice, no source.
const (
	bankBand    = 30 * degree // more than asked for
	inputBank   = 45 * degree // behind an input on ailerons or rudder
	steepest    = 60 * degree
	stopShort   = 3 * degree // of the elevator's stop
	pullOut     = 15.0       // m of height that the end of a glide takes
	stallHeight = 60.0       // m above the lowest height that a deceleration begins at, or more
	stallFloor  = 25.0       // m above the lowest height at which a stall is broken off
)

// add deals a card: what is the same on all of them is filled in here.
func (d *dealer) add(c Card) {
	c.Number = len(d.sheet.Cards) + 1
	c.Shown = c.Speed * (1 + d.problem.Airspeed.Scale)
	if c.Load == 0 {
		c.Load = 1
	}
	c.Lift = d.speeds.lift(c.Speed, c.Load)
	c.Entry, c.Repeats = d.problem.Heights.Entry, max(1, c.Repeats)
	c.Stop.Fastest, c.Stop.Elevator = d.speeds.stopFast, d.problem.elevatorWords()
	c.Stop.Lowest = math.Max(c.Stop.Lowest, d.problem.Heights.Lowest)
	if c.Stop.Bank == 0 {
		c.Stop.Bank = bankBand
	}
	if c.Bank != nil {
		c.Stop.Bank = math.Min(steepest, bankBand+math.Abs(*c.Bank))
	}
	if c.Manoeuvre != "deceleration" {
		slow := d.speeds.stopSlow
		c.Stop.Slowest = &slow
	}
	d.sheet.Cards = append(d.sheet.Cards, c)
}

func (d *dealer) note(format string, args ...any) {
	d.sheet.Notes = append(d.sheet.Notes, fmt.Sprintf(format, args...))
}

// middle is the speed halfway in lift coefficient between the slowest and the fastest run.
func (d *dealer) middle() float64 {
	return d.speeds.at((d.speeds.lift(d.speeds.slowest, 1)+d.speeds.lift(d.speeds.fastest, 1))/2, 1)
}

const circleBank = 30 * degree

func (d *dealer) checks() {
	bank := circleBank
	load := 1 / math.Cos(circleBank)
	d.add(Card{Name: "gentle handling", Speed: d.middle(), Hold: 20, Tolerance: 0.10,
		Do:    "Small inputs on each control, one at a time, both ways. The pilot says whether it answers as expected, trims, and holds its nose. If not: land.",
		Reads: "nothing; the pilot's words go on the sheet"})
	d.add(Card{Name: "full circle", Manoeuvre: "circle", Speed: math.Max(d.middle(), math.Sqrt(load)*d.speeds.slowest), Load: load, Bank: &bank, Tolerance: 0.10, Hold: 20,
		Do:    "Level, 30° of bank to the right, once round and a little more, speed constant. Then on to the next card.",
		Reads: "wind and airspeed scale"})
	d.sheet.Checks = []int{1, 2}
}

// Steady runs, common practice, no source: a point wants ten seconds, and the search finds none below five.
const (
	steadyHold    = 12.0
	shortestHold  = 7.0
	glideTol      = 0.04 // neighbours lie a tenth apart, so that one glide does not stand for two
	steadyTol     = 0.06
	levelHold     = 12.0
	doubletTol    = 0.15
	sideslipTol   = 0.10
	stallStartTol = 0.10
)

// room is the height that a glide may cost, m.
func (d *dealer) room() float64 { return d.problem.Heights.Entry - d.problem.Heights.Lowest - pullOut }

// glideSpeeds are those of the glides: the fastest is the one whose height lasts for the shortest hold. None when not even that of the slowest does.
func (d *dealer) glideSpeeds() []float64 {
	lasts := func(v float64) bool { return d.room() >= shortestHold*d.problem.sink(d.configuration, d.speeds, v) }
	low, high := d.speeds.slowest, d.speeds.fastest
	if lasts(high) {
		return d.speeds.between(high)
	}
	for range 40 {
		if middle := (low + high) / 2; lasts(middle) {
			low = middle
		} else {
			high = middle
		}
	}
	if low < leastSpan*d.speeds.slowest {
		return nil
	}
	d.note("glides faster than %s: they would need to begin higher than %.0f m above the ground", speedWords(low), d.problem.Heights.Entry)
	return d.speeds.between(low)
}

func (d *dealer) glides() {
	speeds := d.glideSpeeds()
	if len(speeds) == 0 {
		d.note("glides: left out, there is no height for them between %.0f and %.0f m", d.problem.Heights.Lowest, d.problem.Heights.Entry)
		return
	}
	names := glideNames(len(speeds))
	for i, v := range speeds {
		sink := d.problem.sink(d.configuration, d.speeds, v)
		hold := math.Floor(math.Min(steadyHold, d.room()/sink+1e-6))
		if i == len(speeds)/2 {
			d.sheet.Checks = append(d.sheet.Checks, len(d.sheet.Cards)+1)
		}
		d.add(Card{Name: names[i], Manoeuvre: "glide", Speed: v, Tolerance: glideTol, Hold: hold,
			Do:    fmt.Sprintf("Throttle closed, wings level, let the speed settle, then stick still for %.0f s (costs about %.0f m).", hold, hold*sink),
			Reads: "elevator in trim, lift, drag"})
	}
}

func glideNames(n int) []string {
	if n == 4 {
		return []string{"glide, slowest", "glide, slow", "glide, fast", "glide, fastest"}
	}
	return []string{"glide, slowest", "glide, slow", "glide, middle", "glide, fast", "glide, fastest"}
}

// levels are flown at the lift coefficients of two glides, so that what power does shows by itself.
func (d *dealer) levels() {
	glides := d.dealt("glide")
	if len(glides) == 0 {
		glides = d.speeds.between(d.speeds.fastest)
	}
	for i, v := range []float64{glides[1], glides[len(glides)-2]} {
		d.add(Card{Name: []string{"level run, slow", "level run, fast"}[i], Manoeuvre: "level", Speed: v, Tolerance: steadyTol, Hold: levelHold,
			Do:    fmt.Sprintf("Height and speed constant, wings level, throttle and stick still for %.0f s.", levelHold),
			Reads: "elevator in trim with power, lift"})
	}
}

// dealt are the speeds of the cards of a manoeuvre so far.
func (d *dealer) dealt(manoeuvre string) []float64 {
	var out []float64
	for _, c := range d.sheet.Cards {
		if c.Manoeuvre == manoeuvre {
			out = append(out, c.Speed)
		}
	}
	return out
}
