package plan

import (
	"fmt"
	"math"
)

// Inputs by custom: common practice, no source.
const (
	noseSize, noseWidth = 3.0, 0.35 // degrees, s of each half
	rollSize, rollWidth = 5.0, 0.5
	yawSize, yawWidth   = 8.0, 0.5
	handsOff            = 6.0 // s behind an input
	slipHold            = 8.0
)

func (d *dealer) inputs() {
	v := d.middle()
	for _, in := range []struct {
		control     string
		size, width float64
		bank        float64
		reads       string
	}{
		{"elevator", noseSize, noseWidth, bankBand, "pitch stiffness and damping, elevator power"},
		{"aileron", rollSize, rollWidth, inputBank, "roll damping, aileron power"},
		{"rudder", yawSize, yawWidth, inputBank, "directional stiffness, yaw damping, rudder power"},
	} {
		d.add(Card{Name: in.control + " doublet", Manoeuvre: "doublet", Control: in.control, Speed: v, Tolerance: doubletTol, Hold: handsOff, Repeats: 2,
			Do: fmt.Sprintf("Level and still for 4 s, then %s sharply %.0f° one way for %.2g s, %.0f° the other way for %.2g s, back, hands off for %.0f s. Begin to one side once, to the other side once.",
				in.control, in.size, in.width, in.size, in.width, handsOff),
			Stop: Stop{Bank: in.bank}, Reads: in.reads})
	}
}

func (d *dealer) sideslips() {
	d.add(Card{Name: "steady sideslip", Manoeuvre: "sideslip", Speed: d.middle(), Tolerance: sideslipTol, Hold: slipHold, Repeats: 2,
		Do:    fmt.Sprintf("Rudder %.0f° and bank together, heading held by bank, still for %.0f s, then let go slowly. Once to the left, once to the right.", yawSize, slipHold),
		Reads: "directional stiffness and dihedral effect over rudder and aileron power"})
}

func (d *dealer) turns() {
	for _, side := range []struct {
		name string
		bank float64
	}{{"turn to the right", circleBank}, {"turn to the left", -circleBank}} {
		load := 1 / math.Cos(side.bank)
		d.add(Card{Name: side.name, Manoeuvre: "turn", Speed: math.Max(d.middle(), math.Sqrt(load)*d.speeds.slowest), Load: load, Bank: &side.bank, Tolerance: sideslipTol, Hold: 10,
			Do: "Level at 30° of bank, speed and bank held for 10 s, less than once round.", Reads: "elevator in trim under load"})
	}
}

const pullLoad = 1.5

func (d *dealer) pullUp() {
	v := math.Max(pullUpReserve*math.Sqrt(pullLoad)*d.speeds.slowest, d.middle())
	if v > d.speeds.fastest {
		d.note("pull-up: left out, %s would be needed and the fastest run is %s", speedWords(v), speedWords(d.speeds.fastest))
		return
	}
	d.add(Card{Name: "pull-up", Manoeuvre: "pull_up", Speed: v, Load: pullLoad, Tolerance: sideslipTol, Hold: 1.5,
		Do:    "Level and still for 2 s, one quick step of up elevator, held for 1.5 s to about 1.5 g, let go as quickly, throttle left alone, level again.",
		Reads: "elevator for load factor"})
}

// decelerations come last, and only where the margin allows it.
func (d *dealer) decelerations() {
	const name = "decelerations to the stall"
	h := d.problem.Heights
	switch least := d.problem.leastMargin(d.configuration, d.cg); {
	case least < stallMargin-1e-12:
		d.note("%s: left out at this CG, the margin may be as low as %.1f %% of the chord and %.0f %% is asked for", name, 100*least, 100*stallMargin)
		return
	case h.Entry-h.Lowest < stallHeight:
		d.note("%s: left out, they need %.0f m above the lowest height", name, stallHeight)
		return
	}
	if why := d.badStall(); why != "" {
		d.note("%s: left out at this CG, %s", name, why)
		return
	}
	start := math.Max(beforeStall*d.speeds.stalling, d.speeds.slowest)
	d.add(Card{Name: "deceleration to the stall", Manoeuvre: "deceleration", Speed: start, Tolerance: stallStartTol, Repeats: 2, Hold: math.Ceil(start-d.speeds.stalling) + 4,
		Stop: Stop{Lowest: h.Lowest + stallFloor, Bank: 20 * degree},
		Do: "Level, throttle closed, wings level, slow down by 1 m/s each second with the elevator until the nose drops or the elevator limit is reached; then stick forward, speed up, level out, climb. " +
			"A wing drop or a nose that RISES by itself: stick forward, full throttle, end of these cards.",
		Reads: "maximum lift, stalling speed, which surface lets go first"})
}

// badStall says why no stall is flown at this CG; empty when nothing speaks against it. The prediction of the nearest CG counts.
func (d *dealer) badStall() string {
	nearest, apart := Stall{}, math.Inf(1)
	for _, s := range d.configuration.Stalls {
		if a := math.Abs(s.CG - d.cg); a < apart {
			nearest, apart = s, a
		}
	}
	switch {
	case math.IsInf(apart, 1):
		if d.sheet.LeastMargin < 200*stallMargin {
			return fmt.Sprintf("no section data say which surface lets go first, and the margin may be below %.0f %% of the chord", 200*stallMargin)
		}
		return ""
	case nearest.Margin-2*nearest.SD < 0:
		return "prediction for the model: " + nearest.Words
	}
	return ""
}
