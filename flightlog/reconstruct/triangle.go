package reconstruct

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"

	"wingproof/flightlog"
)

// Triangle is airspeed scale and horizontal wind from the air-speed triangle by least squares over one flight: a road beside
// the filter, which uses neither gyros nor accelerometers.
type Triangle struct {
	WindNorth, WindEast     float64 // m/s, velocity of the air over the earth
	Scale                   float64 // indicated over true airspeed − 1
	Crab                    float64 // rad: how far to the right of where the model points it moves through the air, as a mean, error of the heading included
	WindNorthSD, WindEastSD float64
	ScaleSD, CrabSD         float64
	Headings                float64 // rad: how much of the circle the headings cover, in twelfths
	Samples                 int
	Enough                  bool
	Why                     string // what does not suffice, or that it does

	air []triangleSample
	fit triangleFit
}

// triangleFit is wind north and east, true over indicated airspeed, sine of the crab angle.
type triangleFit [4]float64

// WindTriangle fits wind w, ratio a = 1/(1+scale) and crab angle κ to the velocities v over the earth:
//
//	along the flow:   |v − w| = a·V
//	across it:        (v − w)·d⊥ = sin κ·a·V
//
// V is the horizontal part of the logged true airspeed and d the direction in which a model without sideslip goes through the air. Along the
// flow neither heading nor sideslip matters; across it they are the error, so that the two have variances of their own,
// found from the residuals. Gauss–Newton from the linear fit v = w + a·V·d + a·sin κ·V·d⊥. Standard deviations allow for the
// correlation of the residuals in time.
//
// Source: the wind triangle; that opposite headings part wind and scale is common practice, no source.
func WindTriangle(rec *flightlog.Recording, s Setup) Triangle {
	in, findings := gather(rec, s)
	if in == nil {
		return Triangle{Why: findings[len(findings)-1].What}
	}
	in.shiftSatellite(s)
	return windTriangle(in)
}

func windTriangle(in *input) Triangle {
	const rounds = 6 // of reweighting; the third moves nothing that could be printed
	t := Triangle{air: triangleSamples(in)}
	t.Samples = len(t.air)
	if t.Samples < 50 {
		t.Why = fmt.Sprintf("there are only %d satellite speeds in the air", t.Samples)
		return t
	}
	t.Headings, _ = headingsCovered(t.air)
	cov, ok := t.startLinear()
	for i := 0; ok && i < rounds; i++ {
		cov, ok = t.improve()
	}
	if !ok {
		t.Why = "all the flight is on one heading: wind and airspeed scale cannot be told apart; fly a full circle"
		return t
	}
	t.WindNorth, t.WindEast, t.Scale, t.Crab = t.fit[0], t.fit[1], 1/t.fit[2]-1, math.Asin(math.Max(-1, math.Min(1, t.fit[3])))
	t.WindNorthSD, t.WindEastSD = math.Sqrt(cov.At(0, 0)), math.Sqrt(cov.At(1, 1))
	t.ScaleSD, t.CrabSD = math.Hypot(math.Sqrt(cov.At(2, 2))/(t.fit[2]*t.fit[2]), in.air.scaleDeviation()), math.Sqrt(cov.At(3, 3))
	t.judge()
	return t
}

// judge says whether the turns suffice.
func (t *Triangle) judge() {
	const (
		largestGap  = 190 * degree // headings all within half a circle cannot part wind and scale
		wantedWind  = 0.5          // m/s
		wantedScale = 0.02
	)
	_, gap := headingsCovered(t.air)
	switch {
	case gap > largestGap:
		t.Why = fmt.Sprintf("the headings leave %.0f° of the circle out: wind and airspeed scale cannot be told apart; fly a full circle", gap/degree)
	case t.WindNorthSD > wantedWind || t.WindEastSD > wantedWind || t.ScaleSD > wantedScale:
		t.Why = fmt.Sprintf("the wind is only known to %.1f m/s and the airspeed scale to %.1f %%: fly one more full circle",
			math.Max(t.WindNorthSD, t.WindEastSD), 100*t.ScaleSD)
	default:
		t.Enough, t.Why = true, fmt.Sprintf("headings cover %.0f° of the circle", t.Headings/degree)
	}
}

// equations are weighted normal equations.
type equations struct {
	left  *mat.SymDense
	right *mat.VecDense
}

func newEquations() equations { return equations{mat.NewSymDense(4, nil), mat.NewVecDense(4, nil)} }

func (e equations) add(row [4]float64, y, weight float64) {
	for i := range 4 {
		e.right.SetVec(i, e.right.AtVec(i)+weight*row[i]*y)
		for j := i; j < 4; j++ {
			e.left.SetSym(i, j, e.left.At(i, j)+weight*row[i]*row[j])
		}
	}
}

func (e equations) solve() (x triangleFit, cov *mat.SymDense, ok bool) {
	var chol mat.Cholesky
	var v mat.VecDense
	cov = new(mat.SymDense)
	if !chol.Factorize(e.left) || chol.SolveVecTo(&v, e.right) != nil || chol.InverseTo(cov) != nil {
		return x, nil, false
	}
	for i := range x {
		x[i] = v.AtVec(i)
	}
	return x, cov, true
}

// startLinear fits v = w + a·V·d + a·sin κ·V·d⊥ with equal weights.
func (t *Triangle) startLinear() (*mat.SymDense, bool) {
	e := newEquations()
	for _, p := range t.air {
		n, o := p.speed*p.toNorth, p.speed*p.toEast
		e.add([4]float64{1, 0, n, -o}, p.north, 1)
		e.add([4]float64{0, 1, o, n}, p.east, 1)
	}
	x, cov, ok := e.solve()
	if ok && x[2] > 0.2 {
		x[3] /= x[2]
		t.fit = x
	}
	return cov, ok && x[2] > 0.2
}

// residuals along and across the flow, with their slopes on the unknowns.
func (t *Triangle) residuals() (along, across []float64, rows [][2][4]float64) {
	w, a, crab := [2]float64{t.fit[0], t.fit[1]}, t.fit[2], t.fit[3]
	for _, p := range t.air {
		n, e := p.north-w[0], p.east-w[1]
		size := math.Max(1, math.Hypot(n, e))
		along = append(along, math.Hypot(n, e)-a*p.speed)
		across = append(across, p.toNorth*e-p.toEast*n-crab*a*p.speed)
		rows = append(rows, [2][4]float64{{n / size, e / size, p.speed, 0}, {-p.toEast, p.toNorth, crab * p.speed, a * p.speed}})
	}
	return along, across, rows
}

// improve is one Gauss–Newton step with the variances that the residuals have now.
func (t *Triangle) improve() (*mat.SymDense, bool) {
	along, across, rows := t.residuals()
	weightAlong, weightAcross := 1/t.meanVariance(along), 1/t.meanVariance(across)
	e := newEquations()
	for i, row := range rows {
		e.add(row[0], along[i], weightAlong)
		e.add(row[1], across[i], weightAcross)
	}
	d, cov, ok := e.solve()
	if !ok {
		return nil, false
	}
	for i := range d {
		t.fit[i] += d[i]
	}
	return cov, t.fit[2] > 0.2
}

// meanVariance is the variance of residuals times how much their correlation in time makes a mean worse than independent ones would:
// 1 + 2·Σρ over ten seconds, as far as the correlations stay positive.
func (t *Triangle) meanVariance(r []float64) float64 {
	const least = 0.02 * 0.02 // (m/s)²: no satellite speed is better
	n := len(r)
	reach := 0
	if step := medianStep(t.air); step > 0 {
		reach = min(n-1, int(10/step))
	}
	at := func(lag int) float64 {
		sum := 0.0
		for i := lag; i < n; i++ {
			sum += r[i] * r[i-lag]
		}
		return sum
	}
	whole, inflation := at(0), 1.0
	for lag := 1; lag <= reach && whole > 0; lag++ {
		c := at(lag) / whole
		if !(c > 0) {
			break
		}
		inflation += 2 * c
	}
	return math.Max(least, whole/float64(max(1, n-2))*inflation)
}
