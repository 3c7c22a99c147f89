package forecast

import (
	"wingproof/aero"
	"wingproof/aero/stability"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog/estimate"
)

// trimOffset is by how much angle of attack and elevator of the test points lie above those that derivatives trim at.
type trimOffset struct{ alpha, elevator float64 } // rad

// offsetOf compares points with the trim of derivatives, the first power state of which there are points counting. ok is false without any.
func offsetOf(d aero.Derivatives, points []estimate.Point) (o trimOffset, ok bool) {
	n := 0.0
	for _, p := range points {
		if p.Power != points[0].Power {
			continue
		}
		alpha, elevator, err := stability.Trim(stability.Moved(d, p.CG, d.MomentZ), p.Lift)
		if err != nil {
			continue
		}
		o.alpha, o.elevator, n = o.alpha+p.Alpha-alpha, o.elevator+p.Elevator-elevator, n+1
	}
	if n == 0 {
		return trimOffset{}, false
	}
	return trimOffset{o.alpha / n, o.elevator / n}, true
}

// on shifts the state of derivatives, so that they trim that much further up.
func (o trimOffset) on(d aero.Derivatives) aero.Derivatives {
	d.At = d.At.Plus(d.ByAlpha.Times(-o.alpha)).Plus(d.ByControl[stability.Elevator].Times(-o.elevator))
	return d
}

// offsets finds the trim offset of every flown configuration, and their mean for those that were not flown. What mounting and calibration are off
// by is in it: the shop sees it on every flight, old or new.
func offsets(st *study.Study) (byName map[string]trimOffset, mean trimOffset) {
	byName = map[string]trimOffset{}
	for _, f := range st.Fits {
		c, err := configurationOf(st, f.Levels)
		if err != nil {
			continue
		}
		d, err := derivativesOf(st, c)
		if err != nil {
			continue
		}
		if o, ok := offsetOf(d, f.Points); ok {
			byName[f.Configuration] = o
			mean.alpha, mean.elevator = mean.alpha+o.alpha, mean.elevator+o.elevator
		}
	}
	if n := float64(len(byName)); n > 0 {
		mean = trimOffset{mean.alpha / n, mean.elevator / n}
	}
	return byName, mean
}
