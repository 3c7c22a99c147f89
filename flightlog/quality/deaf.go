package quality

import (
	"math"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// A tube is deaf where the airspeed should change and does not. Over deafWindow the expected airspeed has to spread by
// deafLeast (m/s), and the airspeed by less than a fifth of that and less than deafMost: gusts alone move a good tube by more,
// and they do not move the velocity over the ground. Of 50 rehearsed flights in winds up to 5 m/s with a good tube the quietest
// window spread by 0.19 m/s and by 0.19 of what was expected; blocked ones by 0.01 to 0.06 m/s.
const (
	deafWindow = 15 // blocks of a second
	deafLeast  = 0.6
	deafShare  = 0.2
	deafMost   = 0.15
	follows    = 0.8 // correlation with what is expected, at half to twice its size: a tube that is alive
)

// deafness marks blocks in windows in which the tube is deaf, and those in which it is clearly alive.
//
// A tube whose front is shut feels its own trapped pressure: the airspeed stands still. One that is shut in with its
// sensor follows static pressure alone, so that impact pressure plus static pressure stands still; in a glide that trades height for
// speed it is their difference that does, so that no honest flight is mistaken for it.
func (e *evidence) deafness(w speedWitness) (deaf, alive []bool) {
	n := len(w.speed)
	deaf, alive = make([]bool, n), make([]bool, n)
	still := [][]float64{w.speed, e.trapped(w)}
	for b := 0; b+deafWindow <= n; b++ {
		to := b + deafWindow
		expected, together := spreadIn(w.expected[b:to], w.speed[b:to], !w.levels)
		if !(expected >= deafLeast) {
			continue
		}
		// a turn in which drag and descent happen to cancel keeps impact plus static pressure too, yet follows
		own, _ := spreadIn(w.speed[b:to], w.expected[b:to], !w.levels)
		if together > follows && own > expected/2 && own < 2*expected {
			for i := b; i < to; i++ {
				alive[i] = true
			}
			continue
		}
		for _, v := range still {
			if sd, _ := spreadIn(v[b:to], w.speed[b:to], !w.levels); sd < deafShare*expected && sd < deafMost {
				spread(deaf, v, b, to)
			}
		}
	}
	for i := range alive {
		alive[i] = alive[i] && !deaf[i]
	}
	return deaf, alive
}

// spread marks a window, and what lies next to it for as long as a signal that stood still goes on to.
func spread(marks []bool, v []float64, from, to int) {
	level := statistic.Median(finiteOnly(v[from:to]))
	goesOn := func(b int) bool { return b >= 0 && b < len(v) && math.Abs(v[b]-level) < 3*deafMost }
	for from < to && !goesOn(from) {
		from++
	}
	for to > from && !goesOn(to-1) {
		to--
	}
	for ; goesOn(from - 1); from-- {
	}
	for ; goesOn(to); to++ {
	}
	for b := from; b < to; b++ {
		marks[b] = true
	}
}

// trapped is impact plus static pressure, divided by what makes it a speed at the usual airspeed.
func (e *evidence) trapped(w speedWitness) []float64 {
	pressure := e.mean(flightlog.StaticPressure, brisk)
	usual := math.Max(3, statistic.Median(finiteOnly(w.speed)))
	return combined(len(w.speed), func(b int) float64 {
		return w.speed[b]*w.speed[b]/(2*usual) + pressure[b]/(atmosphere.SeaLevelDensity*usual)
	})
}

// spreadIn is the standard deviation of v over the places where both are known, less a straight line where asked for, and the
// correlation of the two; NaN where a third of the places is missing.
func spreadIn(v, other []float64, detrend bool) (sd, r float64) {
	var x, y []float64
	var at []float64
	for i := range v {
		if !math.IsNaN(v[i] + other[i]) {
			x, y, at = append(x, v[i]), append(y, other[i]), append(at, float64(i))
		}
	}
	if 3*len(x) < 2*len(v) {
		return math.NaN(), 0
	}
	if detrend {
		straighten(at, x)
		straighten(at, y)
	}
	rel := relation{}.relate(y, x, func(int) bool { return true })
	return rel.spreadX, rel.r
}

// straighten takes a straight line out.
func straighten(at, v []float64) {
	var n, mt, mv, tt, tv float64
	for i := range v {
		n, mt, mv = n+1, mt+at[i], mv+v[i]
	}
	mt, mv = mt/n, mv/n
	for i := range v {
		tt += (at[i] - mt) * (at[i] - mt)
		tv += (at[i] - mt) * (v[i] - mv)
	}
	for i := range v {
		v[i] -= mv + tv/tt*(at[i]-mt)
	}
}
