package estimate

import (
	"fmt"
	"math"
	"slices"

	"wingproof/flightlog/leastsquares"
	"wingproof/flightlog/statistic"
)

// offsetEvidence is the t² of the linear term from which the offset parabola is preferred: by Akaike's
// criterion an added parameter must lower −2·log likelihood by 2.
const offsetEvidence = 2

// manyDegrees stands for a variance that is known: Student's t is then normal to six digits.
const manyDegrees = 1e6

// polar is a fitted parabola c0 + c1·CL + c2·CL²; c1 is held at 0 where offset is false.
type polar struct {
	offset      bool
	coefficient [3]float64
	covariance  [3][3]float64
	draws       [3][3]float64 // the share of covariance that the flights' draws of vertical air cause
	scatter     glideScatter  // what covariance was computed from
	known       float64       // degrees of freedom where scatter has none: flights minus parameters
	full        *polar        // the offset fit, when the parabola about CL 0 was preferred
	reason      string        // why nothing is determined
	warning     string
}

// combination is what is asked of a polar, as the factors of c0, c1 and c2: {1, CL, CL²} is the drag at CL.
type combination [3]float64

// at is the combination that gives the drag at a lift coefficient.
func at(lift float64) combination { return combination{1, lift, lift * lift} }

// form is xᵀ·m·x.
func (x combination) form(m [3][3]float64) float64 {
	sum := 0.0
	for i := range x {
		for j := range x {
			sum += x[i] * x[j] * m[i][j]
		}
	}
	return sum
}

// value is the combination of the coefficients.
func (p polar) value(x combination) float64 {
	return x[0]*p.coefficient[0] + x[1]*p.coefficient[1] + x[2]*p.coefficient[2]
}

// fitPolar plays wild flights down and chooses the form and the scatter. It returns the glides with their weights.
func fitPolar(g glideSet, s Systematics, pooled *Scatter) (glideSet, polar) {
	g, scatter := chooseGlideScatter(g, positive(s.GlideVertical), pooled.orNone())
	g.warnings = append(slices.Clone(g.warnings), g.wildGlideWords()...)
	full, err := fitForm(g, scatter, true)
	if err != nil {
		return g, polar{offset: true, reason: fmt.Sprintf("%s at idle with drag, in %s, do not make a polar: fly power-off glides at three speeds or more, in two flights or more",
			count(len(g.points), "point"), count(len(g.flights), "flight"))}
	}
	full.warning = scatter.warning
	if square(full.coefficient[1]) > offsetEvidence*full.covariance[1][1] {
		return g, full
	}
	plain, err := fitForm(g, scatter, false)
	if err != nil {
		return g, full
	}
	plain.full, plain.warning = &full, scatter.warning
	return g, plain
}

// chooseGlideScatter prefers the pool unless the configuration's glides exceed it at the 99 % level.
func chooseGlideScatter(g glideSet, stated float64, pooled *Scatter) (glideSet, glideScatter) {
	own := estimateGlides([]glideSet{g})
	pool := pooled.draws
	if pool.withinDegrees <= own.withinDegrees {
		return ownGlides(g, stated)
	}
	pool = pool.withStated(tame(pooled.glides), stated)
	under := playDownGlidesUnder(g, pool)
	fit, err := under.general(pool.within, pool.between, true)
	if err != nil || fit.Degrees < 1 || pool.within == 0 || own.withinDegrees == 0 {
		return under, pool
	}
	if ratio := fit.ResidualSS / float64(fit.Degrees); ratio > statistic.FisherQuantile(float64(fit.Degrees), float64(pool.withinDegrees)) {
		marked, own := ownGlides(g, stated)
		own.warning = fmt.Sprintf("these glides scatter %.1f times as much as those of the program together; their own scatter is used", math.Sqrt(ratio))
		return marked, own
	}
	return under, pool
}

// ownGlides is the scatter that a configuration's own glides tell.
func ownGlides(g glideSet, stated float64) (glideSet, glideScatter) {
	marked, own := playDownGlides([]glideSet{g}, stated)
	return marked[0], own
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
	}
	out.known = float64(len(g.flights) - len(index))
	if !plain {
		out.scatter = scatter
		out.draws = g.drawShare(fit, index, scatter, offset)
	}
	for _, i := range index {
		var alone combination
		alone[i] = 1
		if out.degrees(alone) < 1 {
			return out, fmt.Errorf("%s: %w", count(len(g.flights), "flight"), leastsquares.ErrUndetermined)
		}
	}
	return out, nil
}

// drawShare is the part of the covariance of the coefficients that the flights' draws of vertical air cause: Σ τ²·h·hᵀ
// over flights, h the change of the coefficients with a flight's draw.
func (g glideSet) drawShare(fit leastsquares.Fit, index []int, scatter glideScatter, offset bool) (share [3][3]float64) {
	rows, response, weight := g.problem(offset)
	next := 0
	for _, f := range g.flights {
		n := len(f.points)
		g.whiten(f, rows[next:next+n], response[next:next+n], weight[next:next+n], scatter.within, scatter.between)
		z := g.whitenedDraught(f, scatter)
		influence := make([]float64, len(index))
		for a := range index {
			for j := range n {
				for k, x := range rows[next+j] {
					influence[a] += fit.Unscaled[a][k] * x * z[j]
				}
			}
		}
		for a, i := range index {
			for b, j := range index {
				share[i][j] += influence[a] * influence[b] * scatter.between
			}
		}
		next += n
	}
	return share
}

// degrees splits the variance of a combination into the part of the points (σ²) and that of the flights' draws (τ²) and
// joins their degrees of freedom: (A + B)²/(A²/a + B²/b).
func (p polar) degrees(x combination) float64 {
	if p.scatter.withinDegrees == 0 {
		return p.known
	}
	total, draws := x.form(p.covariance), x.form(p.draws)
	points := math.Max(0, total-draws)
	sum := points * points / float64(p.scatter.withinDegrees)
	if p.scatter.drawDegrees > 0 {
		sum += draws * draws / p.scatter.drawDegrees
	} else if draws > 0 || p.scatter.between == 0 {
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

// spread is the random standard deviation of a combination, its degrees of freedom and the 95 % interval. Where the parabola about
// CL 0 was preferred, an offset too small to be seen still moves the drag: the offset fit's standard deviation and interval
// stand in, stretched to hold the value.
func (p polar) spread(x combination) (sd, degrees, low, high float64) {
	q := p
	if p.full != nil {
		q = *p.full
	}
	sd, degrees = math.Sqrt(math.Max(0, x.form(q.covariance))), q.degrees(x)
	reach := statistic.StudentQuantile(degrees) * sd
	return sd, degrees, math.Min(p.value(x), q.value(x)-reach), math.Max(p.value(x), q.value(x)+reach)
}

// commonAt is the signed effect of each shared source on the drag at a reported CL. A source that scales CD by 1 + d and
// CL by 1 + l moves the curve by d·CD − l·CL·dCD/dCL.
func (p polar) commonAt(lift float64, s Systematics) map[string]float64 {
	common := map[string]float64{}
	scaled := s.liftScale()
	for name, relative := range s.dragScale() {
		rise := p.coefficient[1]*lift + 2*p.coefficient[2]*lift*lift
		common[name] = relative*p.value(at(lift)) - scaled[name]*rise
	}
	return common
}
