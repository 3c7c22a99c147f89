package estimate

import (
	"fmt"
	"math"
)

// offsetEvidence is the t² of the linear term from which the offset parabola is preferred: by Akaike's
// criterion an added parameter must lower −2·log likelihood by 2.
const offsetEvidence = 2

// manyDegrees stands for a variance that is known: Student's t is then normal to six digits.
const manyDegrees = 1e6

// DragPolar fits CD = CDmin + k·(CL − CL_m)² to idle glides and gives the drag at CL 0, k, and CL_m.
//
// A flight's steady vertical air w moves every CD of that flight by w/V·CL: one draw a flight, with the standard
// deviation s.GlideVertical where stated (and every point knows its Airspeed), else estimated from how flights
// disagree. The offset CL_m is kept only where the data support it (t² of the linear term above 2, Akaike); else the parabola
// stands about CL 0, liftAtMinimum is 0 and its interval is that of the offset fit. Degrees of freedom follow
// F. E. Satterthwaite, Biometrics Bulletin 2, 1946, from the points' part and the flights' part of each variance.
//
// zero_lift_drag leaves thrust out by flying at idle, but a stopped or windmilling propeller's drag is in it: a
// warning says so. pooled may be nil.
func DragPolar(points []Point, s Systematics, pooled *Scatter) (zeroLiftDrag, dragDueToLift, liftAtMinimum Result) {
	g := prepareGlides(points)
	fit := fitPolar(g, s, pooled)
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

// polar is a fitted parabola c0 + c1·CL + c2·CL²; c1 is held at 0 where offset is false.
type polar struct {
	offset      bool
	coefficient [3]float64
	covariance  [3][3]float64
	degrees     [3]float64
	full        *polar // the offset fit, when the parabola about CL 0 was preferred
	reason      string // why nothing is determined
	warning     string
}

// fitPolar chooses the form and the scatter.
func fitPolar(g glideSet, s Systematics, pooled *Scatter) polar {
	scatter := chooseGlideScatter(g, positive(s.GlideVertical), pooled.orNone())
	full, err := fitForm(g, scatter, true)
	if err != nil {
		return polar{offset: true, reason: fmt.Sprintf("%s at idle with drag, in %s, do not make a polar; three speeds or more, in two flights or more, would do",
			count(len(g.points), "point"), count(len(g.flights), "flight"))}
	}
	full.warning = scatter.warning
	if square(full.coefficient[1]) > offsetEvidence*full.covariance[1][1] {
		return full
	}
	plain, err := fitForm(g, scatter, false)
	if err != nil {
		return full
	}
	plain.full, plain.warning = &full, scatter.warning
	return plain
}

// chooseGlideScatter prefers the pool unless the configuration's glides exceed it at the 99 % level.
func chooseGlideScatter(g glideSet, stated float64, pooled *Scatter) glideScatter {
	own := estimateGlides([]glideSet{g})
	pool := pooled.draws
	if pool.withinDegrees <= own.withinDegrees {
		return own.withStated([]glideSet{g}, stated)
	}
	pool = pool.withStated(pooled.glides, stated)
	fit, err := g.general(pool.within, pool.between, true)
	if err != nil || fit.Degrees < 1 || pool.within == 0 || own.withinDegrees == 0 {
		return pool
	}
	if ratio := fit.ResidualSS / float64(fit.Degrees); ratio > fisherQuantile(float64(fit.Degrees), float64(pool.withinDegrees)) {
		own = own.withStated([]glideSet{g}, stated)
		own.warning = fmt.Sprintf("these glides scatter %.1f times as much as those of the program together; their own scatter is used", math.Sqrt(ratio))
		return own
	}
	return pool
}

// fitForm fits one form. With single-point flights only, or a scatter of zero, it is plain weighted regression.
func fitForm(g glideSet, scatter glideScatter, offset bool) (polar, error) {
	within := scatter.within
	plain := scatter.withinDegrees == 0 || within == 0
	if plain {
		within = 1
	}
	fit, err := g.general(within, scatter.between, offset)
	if err != nil {
		return polar{}, err
	}
	out := polar{offset: offset}
	index := []int{0, 1, 2}
	if !offset {
		index = []int{0, 2}
	}
	factor := 1.0
	if plain {
		factor = fit.ResidualSS / math.Max(1, float64(len(g.flights)-len(index)))
	}
	for a, i := range index {
		out.coefficient[i] = fit.Coefficients[a]
		for b, j := range index {
			out.covariance[i][j] = factor * fit.Unscaled[a][b]
		}
		out.degrees[i] = float64(len(g.flights) - len(index))
		if !plain {
			out.degrees[i] = g.satterthwaite(fit, a, scatter, offset)
		}
	}
	for _, i := range index {
		if out.degrees[i] < 1 {
			return out, fmt.Errorf("%s: %w", count(len(g.flights), "flight"), ErrUndetermined)
		}
	}
	return out, nil
}

// satterthwaite splits the variance of a coefficient into the part of the points (σ²) and that of the flights' draws
// (τ²) and joins their degrees of freedom: (A + B)²/(A²/a + B²/b).
func (g glideSet) satterthwaite(fit Fit, coefficient int, scatter glideScatter, offset bool) float64 {
	total := fit.Unscaled[coefficient][coefficient]
	draws := 0.0
	rows, response, weight := g.problem(offset)
	next := 0
	for _, f := range g.flights {
		n := len(f.points)
		g.whiten(f, rows[next:next+n], response[next:next+n], weight[next:next+n], scatter.within, scatter.between)
		z := g.whitenedDraught(f, scatter)
		influence := 0.0
		for j := range n {
			for k, x := range rows[next+j] {
				influence += fit.Unscaled[coefficient][k] * x * z[j]
			}
		}
		draws += influence * influence * scatter.between
		next += n
	}
	points := math.Max(0, total-draws)
	sum := points * points / float64(scatter.withinDegrees)
	if scatter.drawDegrees > 0 {
		sum += draws * draws / scatter.drawDegrees
	} else if draws > 0 || scatter.between == 0 {
		return 0 // one flight cannot tell how flights disagree
	}
	return math.Min(total*total/sum, manyDegrees)
}

// whitenedDraught is V^(−½)·z of a flight.
func (g glideSet) whitenedDraught(f flight, scatter glideScatter) []float64 {
	rows, dummy := make([][]float64, len(f.points)), make([]float64, len(f.points))
	for j, p := range f.points {
		rows[j] = []float64{g.draught(p)}
	}
	g.whiten(f, rows, dummy, append([]float64(nil), f.weight...), scatter.within, scatter.between)
	out := make([]float64, len(rows))
	for j := range rows {
		out[j] = rows[j][0]
	}
	return out
}

// spread is the random standard deviation of a coefficient, its degrees of freedom and the 95 % interval. Where the parabola about
// CL 0 was preferred, an offset too small to be seen still moves the coefficient: the offset fit's standard deviation and interval
// stand in, stretched to hold the value.
func (p polar) spread(i int) (sd, degrees, low, high float64) {
	q := p
	if p.full != nil {
		q = *p.full
	}
	sd, degrees = math.Sqrt(q.covariance[i][i]), q.degrees[i]
	reach := StudentQuantile(degrees) * sd
	return sd, degrees, math.Min(p.coefficient[i], q.coefficient[i]-reach), math.Max(p.coefficient[i], q.coefficient[i]+reach)
}

func (p polar) zeroLift(r Result, s Systematics) Result {
	sd, degrees, low, high := p.spread(0)
	r.Degrees = degrees
	common := map[string]float64{}
	for name, relative := range s.dragScale() {
		common[name] = p.coefficient[0] * relative
	}
	return weakDrag(thin(fill(r, p.coefficient[0], sd, low, high, common)))
}

func (p polar) dueToLift(r Result, s Systematics) Result {
	sd, degrees, low, high := p.spread(2)
	r.Degrees = degrees
	common := map[string]float64{}
	drag, lift := s.dragScale(), s.liftScale()
	for name := range drag {
		common[name] = p.coefficient[2] * (drag[name] - 2*lift[name])
	}
	if p.coefficient[2] <= 0 {
		return undetermined(r, "drag does not rise with CL²: the glides span too little lift, or the air moved")
	}
	return weakDrag(thin(fill(r, p.coefficient[2], sd, low, high, common)))
}

// minimum is CL_m = −c1/(2·c2) with Fieller's set.
func (p polar) minimum(r Result, s Systematics) Result {
	q := p
	if !p.offset {
		q = *p.full
	}
	r.Degrees = math.Min(q.degrees[1], q.degrees[2])
	c, v := q.coefficient, q.covariance
	set := FiellerSet(-c[1], 2*c[2], v[1][1], -2*v[1][2], 4*v[2][2], StudentQuantile(r.Degrees))
	value := set.Value
	if !p.offset {
		value = 0
	}
	r.Value = &value
	if set.Set != SetInterval || c[2] <= 0 {
		r.Set = set.Set
		return undetermined(r, "the glides do not show where drag is least; glides at lower CL would do")
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
		return undetermined(r, "span efficiency needs a drag_due_to_lift clearly above zero and a positive aspect ratio")
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
