package demo

import (
	"fmt"
	"math"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog/estimate"
	"wingproof/flightlog/statistic"
)

// beside sets everything measured of one configuration beside the truth.
type beside struct {
	reality
	study *study.Study
	fit   study.Fit
	rows  []row
	err   error

	left    float64 // of the airspeed's error once the flights have calibrated it
	density float64 // of the air in the inputs
}

// rowsOf lists the numbers of one configuration.
func rowsOf(r reality, s *study.Study, f study.Fit) ([]row, error) {
	b := &beside{reality: r, study: s, fit: f}
	b.conditions()
	b.steady()
	b.stalls()
	b.loads()
	b.slips()
	b.roads()
	b.manoeuvres()
	b.modesBeside()
	if b.err != nil {
		return nil, fmt.Errorf("%s: %w", f.Configuration, b.err)
	}
	return b.rows, nil
}

func (b *beside) add(name string, r estimate.Result, truth float64) {
	b.rows = append(b.rows, rowOf(b.fit.Configuration, name, r, truth))
}

// keep remembers the first error.
func (b *beside) keep(value float64, err error) float64 {
	if err != nil && b.err == nil {
		b.err = err
	}
	return value
}

// flights of the configuration that count.
func (b *beside) flights() []study.Flight {
	var out []study.Flight
	for _, f := range b.study.Flights {
		if f.Used && evidence.Name(f.Levels) == b.fit.Configuration {
			out = append(out, f)
		}
	}
	return out
}

// conditions finds what is left of the airspeed's error, and the density.
func (b *beside) conditions() {
	b.left = b.airspeed
	n, calibrated := 0.0, false
	for _, f := range b.flights() {
		for _, c := range b.study.Airspeeds {
			if c.Logger == f.Logger && !calibrated {
				calibrated, b.left = true, (1+b.airspeed)/(1+c.Scale)-1
				low, high := c.Scale-statistic.Normal975*c.SD, c.Scale+statistic.Normal975*c.SD
				b.add("airspeed_scale", estimate.Result{State: estimate.Determined, Value: &c.Scale, Low: &low, High: &high, SDOwn: &c.SD, SD: &c.SD}, b.airspeed)
			}
		}
		for _, s := range f.Reduction.Segments {
			b.density, n = b.density+s.Density, n+1
		}
	}
	if b.density /= n; n == 0 {
		b.density = 1.2
	}
}

// trueLift is a reported lift coefficient without the shared errors.
func (b *beside) trueLift(reported float64) float64 {
	return reported * (1 + b.left) * (1 + b.left) / (1 + b.mass)
}

func (b *beside) steady() {
	f, p := b.fit, b.aircraft.Polar
	zero, _, err := trimAt(b.reality, f.CG, 0)
	b.keep(0, err)
	b.add("trimmed_lift_curve_slope", f.TrimmedLiftSlope, b.keep(b.trimmedLiftSlope(f.CG)))
	b.add("zero_lift_alpha", f.ZeroLiftAlpha, zero)
	b.add("zero_lift_drag", f.ZeroLiftDrag, p.Min+p.Factor*p.LiftAtMin*p.LiftAtMin)
	b.add("drag_due_to_lift", f.DragDueToLift, p.Factor)
	b.add("lift_at_least_drag", f.LiftAtMinDrag, p.LiftAtMin)
	b.add("span_efficiency", f.SpanEfficiency, 1/(math.Pi*b.aircraft.Derivatives.Reference.AspectRatio()*p.Factor))
	for i, slope := range f.TrimSlopes.Slope {
		t := f.TrimSlopes
		low, high := study.SlopeInterval(t, i)
		own := math.Sqrt(t.Covariance[i][i])
		common := map[string]float64{}
		for source, effect := range t.Common {
			common[source] = effect[i]
		}
		total := evidence.Total(own, common)
		_, e0, err := trimAt(b.reality, t.CG[i], 0)
		b.keep(0, err)
		_, e1, err := trimAt(b.reality, t.CG[i], 1)
		b.keep(0, err)
		b.add("elevator_per_lift", estimate.Result{State: estimate.Determined, Value: &slope, Low: &low, High: &high, SDOwn: &own, SD: &total,
			Common: common, Degrees: t.Degrees, Power: t.Power}, e1-e0)
	}
}

func (b *beside) stalls() {
	truth := map[float64][2]float64{}
	at := func(r estimate.Result) [2]float64 {
		if r.Value == nil || !r.HasCG {
			return [2]float64{math.NaN(), math.NaN()}
		}
		if _, ok := truth[r.CG]; !ok {
			lift, alpha, err := b.highestLift(r.CG)
			b.keep(0, err)
			truth[r.CG] = [2]float64{lift, alpha}
		}
		return truth[r.CG]
	}
	for i, r := range b.fit.MaxLifts {
		b.add("max_lift_coefficient", r, at(r)[0])
		b.add("stall_alpha", b.fit.StallAlphas[i], at(b.fit.StallAlphas[i])[1])
	}
}

func (b *beside) loads() {
	b.add("manoeuvre_point", b.fit.ManoeuvrePoint, b.manoeuvrePoint(b.density))
	for _, r := range b.fit.ElevatorPerG {
		b.add("elevator_per_g", r, b.elevatorPerG(r.CG, b.trueLift(r.Lift), b.density))
	}
}

func (b *beside) slips() {
	s := b.fit.Sideslip
	for i, r := range [...]estimate.Result{s.Rudder, s.Aileron, s.SideForce, s.Bank} {
		rudder, aileron, side, bank := b.slip(r.CG, b.trueLift(r.Lift))
		b.add(r.Quantity, r, [...]float64{rudder, aileron, side, bank}[i])
	}
}
