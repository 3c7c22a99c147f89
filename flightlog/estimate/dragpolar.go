package estimate

import (
	"fmt"
	"math"

	"wingproof/flightlog/statistic"
)

// DragPolar fits CD = CDmin + k·(CL − CL_m)² to idle glides and gives the drag at CL 0, k, and CL_m.
//
// A flight's steady vertical air w moves every CD of that flight by w/V·CL: one draw a flight, with the standard
// deviation s.GlideVertical where stated (and every point knows its Airspeed), else estimated from how flights
// disagree. The offset CL_m is kept only where the data support it (t² of the linear term above 2, Akaike); else the parabola
// stands about CL 0, liftAtMinimum is 0 and its interval is that of the offset fit. Degrees of freedom follow
// F. E. Satterthwaite, Biometrics Bulletin 2, 1946 (from memory), from the points' part and the flights' part of each variance.
//
// zero_lift_drag leaves thrust out by flying at idle, but a stopped or windmilling propeller's drag is in it: a
// warning says so. pooled may be nil.
func DragPolar(points []Point, s Systematics, pooled *Scatter) (zeroLiftDrag, dragDueToLift, liftAtMinimum Result) {
	g, fit := fitPolar(prepareGlides(points), s, pooled)
	method := "idle glides, offset parabola"
	if !fit.offset {
		method = "idle glides, parabola about CL 0: the data do not support an offset"
	}
	zeroLiftDrag = glideLabel("zero_lift_drag", "1", method, g)
	dragDueToLift = glideLabel("drag_due_to_lift", "1", method, g)
	liftAtMinimum = glideLabel("lift_at_minimum_drag", "1", method, g)
	for _, r := range []*Result{&zeroLiftDrag, &dragDueToLift, &liftAtMinimum} {
		if fit.warning != "" {
			r.Warnings = append(r.Warnings, fit.warning)
		}
		if fit.reason != "" {
			*r = undetermined(*r, fit.reason)
		}
	}
	if fit.reason != "" {
		return zeroLiftDrag, dragDueToLift, liftAtMinimum
	}
	return fit.zeroLift(zeroLiftDrag, s), fit.dueToLift(dragDueToLift, s), fit.minimum(liftAtMinimum, s)
}

func (p polar) zeroLift(r Result, s Systematics) Result {
	sd, degrees, low, high := p.spread(at(0))
	r.Degrees = degrees
	return weakDrag(thin(fill(r, p.value(at(0)), sd, low, high, p.commonAt(0, s))))
}

func (p polar) dueToLift(r Result, s Systematics) Result {
	sd, degrees, low, high := p.spread(combination{0, 0, 1})
	r.Degrees = degrees
	common := map[string]float64{}
	drag, lift := s.dragScale(), s.liftScale()
	for name := range drag {
		common[name] = p.coefficient[2] * (drag[name] - 2*lift[name])
	}
	if p.coefficient[2] <= 0 {
		return undetermined(r, noRise)
	}
	return weakDrag(thin(fill(r, p.coefficient[2], sd, low, high, common)))
}

// minimum is CL_m = −c1/(2·c2) with Fieller's set.
func (p polar) minimum(r Result, s Systematics) Result {
	q := p
	if !p.offset {
		q = *p.full
	}
	r.Degrees = math.Min(q.degrees(combination{0, 1, 0}), q.degrees(combination{0, 0, 1}))
	c, v := q.coefficient, q.covariance
	set := FiellerSet(-c[1], 2*c[2], v[1][1], -2*v[1][2], 4*v[2][2], statistic.StudentQuantile(r.Degrees))
	value := set.Value
	if !p.offset {
		value = 0
	}
	r.Value = &value
	if set.Set != SetInterval || c[2] <= 0 {
		r.Set = set.Set
		return undetermined(r, "the glides do not show where drag is least: fly faster glides, at lower CL")
	}
	common := map[string]float64{}
	for name, relative := range s.liftScale() {
		common[name] = value * relative
	}
	r = fill(r, value, set.SD, math.Min(value, set.Low), math.Max(value, set.High), common)
	if !p.offset {
		return weaken(r, "the data do not support an offset; CL 0 is taken")
	}
	return thin(r)
}

// noRise is why a parabola that opens downward is not determined.
const noRise = "drag does not rise with CL²: the glides span too little lift, or the air moved: fly glides at three speeds or more, in calm air"

func weakDrag(r Result) Result {
	if r.Value == nil || r.High == nil {
		return r
	}
	if reach := (*r.High - *r.Low) / 2; reach > weakShare*math.Abs(*r.Value) {
		return weaken(r, fmt.Sprintf("the 95 %% interval reaches %.0f %% to either side", 100*reach/math.Abs(*r.Value)))
	}
	return r
}

// SpanEfficiency is 1/(π·A·k) from drag_due_to_lift k and the aspect ratio A = b²/S of the main wing. k holds the
// rise of profile drag with lift, so this is the span efficiency of the whole polar, not of the span load.
func SpanEfficiency(dragDueToLift Result, aspectRatio float64) Result {
	r := dragDueToLift
	r.Quantity, r.Unit = "span_efficiency", "1"
	r.Warnings = append([]string(nil), dragDueToLift.Warnings...)
	k := dragDueToLift
	if k.Value == nil || k.Low == nil || *k.Low <= 0 || !(aspectRatio > 0) || !allFinite(aspectRatio) {
		r.Value = nil
		return undetermined(r, "span efficiency needs a drag due to lift clearly above zero and a positive aspect ratio: fly power-off glides at three speeds or more")
	}
	invert := func(x float64) float64 { return 1 / (math.Pi * aspectRatio * x) }
	slope := invert(*k.Value) / *k.Value
	r.Value, r.Low, r.High = mapped(k.Value, invert), mapped(k.High, invert), mapped(k.Low, invert)
	r.SD = mapped(k.SD, func(x float64) float64 { return x * slope })
	r.SDOwn = mapped(k.SDOwn, func(x float64) float64 { return x * slope })
	r.Common = map[string]float64{}
	for _, name := range sourceNames(k.Common) {
		r.Common[name] = -slope * k.Common[name]
	}
	return r
}
