package reduce

import (
	"math"
	"slices"
)

const (
	// coarse is the distance [s] between the samples whose correlation is taken: beyond the reach of the low-pass.
	coarse = 0.5
	// leastCorrelation is what the low-pass alone puts between neighbours of the grid: the first-order process with the
	// same sum of correlations, √(4π)·lowPass/gridStep = (1+r)/(1−r).
	leastCorrelation = 0.68
	// mostCorrelation bounds the correlation over the coarse distance: noise that lasts 2 s, as gusts of 40 m do at 20 m/s.
	// Windows of seconds cannot tell slower noise from a trend, and trends are taken out.
	mostCorrelation = 0.78
	// mostShare bounds the variance that one window brings into the pool, in medians of all windows: one stretch that still
	// settles must not spoil the others.
	mostShare = 4.0
	// sharedDegrees is the weight, in degrees of freedom, of the scatter of all windows in that of one.
	sharedDegrees = 4.0
)

// scatterPool is what the residuals of all windows of a flight say together about the noise in one quantity. One
// window is too short to tell its correlation.
type scatterPool struct {
	neighbour float64 // correlation r between neighbours
	variance  float64 // of one sample
}

// gridPool pools fits whose residuals stand on the grid.
func gridPool(fits []fit) scatterPool {
	return newPool(fits, int(math.Round(coarse/gridStep)), leastCorrelation)
}

// newPool takes the residuals of one kind of fit as first-order autoregressions with one r and one variance. r is the one
// at which the expected products of residuals lag samples apart stand to their squares as the observed ones do, what
// the fits take out included; it is at least the one given. Fits of no more than lag residuals are passed over.
func newPool(fits []fit, lag int, least float64) scatterPool {
	var long []fit
	var square, product float64
	for _, f := range fits {
		if n := len(f.residuals); n > lag {
			long = append(long, f)
			square += dot(f.residuals, f.residuals)
			product += dot(f.residuals[lag:], f.residuals[:n-lag])
		}
	}
	p := scatterPool{neighbour: least}
	if !(square > 0) {
		return p
	}
	through := make([]carried, len(long))
	for k, f := range long {
		through[k].inMean, through[k].inSlope = f.weights()
	}
	low, high := least, math.Pow(mostCorrelation, 1/float64(lag))
	for range 30 { // the ratio rises with r: halve the bracket
		r := (low + high) / 2
		var products, squares float64
		for k, f := range long {
			through[k].noise(r)
			products += through[k].expectedProduct(f.x, lag)
			squares += through[k].expectedProduct(f.x, 0)
		}
		if products*square < product*squares {
			low = r
		} else {
			high = r
		}
	}
	p.neighbour = low
	p.variance = steadyMean(long, low)
	return p
}

// steadyMean is the mean variance of one sample over the windows, each bounded by mostShare medians.
func steadyMean(fits []fit, r float64) float64 {
	var variances []float64
	for _, f := range fits {
		if expected := f.expectedProduct(r, 0); expected > 0 {
			variances = append(variances, dot(f.residuals, f.residuals)/expected)
		}
	}
	if len(variances) == 0 {
		return 0
	}
	slices.Sort(variances)
	most := mostShare * variances[len(variances)/2]
	for i := range variances {
		variances[i] = math.Min(variances[i], most)
	}
	return mean(variances)
}

// sd is the standard deviation of a fit's value: the window's own scatter, steadied by that of all windows, carried
// through the fit with its correlation.
func (p scatterPool) sd(f fit) float64 {
	r := p.neighbour
	expected := f.expectedProduct(r, 0)
	variance := p.variance
	if expected > 0.01*float64(len(f.residuals)) {
		own := dot(f.residuals, f.residuals) / expected
		degrees := expected * (1 - r) / (1 + r)
		variance = (degrees*own + sharedDegrees*p.variance) / (degrees + sharedDegrees)
	}
	u, inSlope := f.weights()
	if f.slope {
		u = inSlope
	}
	return math.Sqrt(variance * dot(u, correlate(u, r)))
}

// weights is what the samples count in the mean and in the slope.
func (f fit) weights() (inMean, inSlope []float64) {
	inMean, inSlope = make([]float64, len(f.x)), make([]float64, len(f.x))
	for i := range inMean {
		inMean[i] = 1 / float64(len(f.x))
		if f.square > 0 {
			inSlope[i] = f.x[i] / f.square
		}
	}
	return inMean, inSlope
}

// expectedProduct is the expectation of Σ e_i·e_(i−lag) over the residuals e of a fit to noise of unit variance whose
// correlation is r^|i−j|.
func (f fit) expectedProduct(r float64, lag int) float64 {
	var c carried
	c.inMean, c.inSlope = f.weights()
	c.noise(r)
	return c.expectedProduct(f.x, lag)
}

// carried is noise of unit variance whose correlation is r^|i−j|, carried through a fit.
type carried struct {
	inMean, inSlope                   []float64 // what the samples count
	r                                 float64
	withMean, withSlope               []float64 // covariance of each sample with mean and slope
	meanVariance, slopeVariance, both float64
}

// noise carries noise of a correlation.
func (c *carried) noise(r float64) {
	c.r = r
	c.withMean, c.withSlope = correlateTo(c.withMean, c.inMean, r), correlateTo(c.withSlope, c.inSlope, r)
	c.meanVariance, c.slopeVariance, c.both = dot(c.inMean, c.withMean), dot(c.inSlope, c.withSlope), dot(c.inMean, c.withSlope)
}

// expectedProduct is that of the fit with the regressor x. It follows from e = noise − mean − x·slope.
func (c *carried) expectedProduct(x []float64, lag int) float64 {
	withMean, withSlope := c.withMean, c.withSlope
	apart, sum := math.Pow(c.r, float64(lag)), 0.0
	for i := lag; i < len(x); i++ {
		j := i - lag
		sum += apart - withMean[i] - withMean[j] + c.meanVariance
		sum += x[i]*x[j]*c.slopeVariance + c.both*(x[i]+x[j]) - x[i]*withSlope[j] - x[j]*withSlope[i]
	}
	return sum
}

// correlate gives Σ_j r^|i−j|·u_j at each i, in one pass each way.
func correlate(u []float64, r float64) []float64 { return correlateTo(nil, u, r) }

// correlateTo is the same in room that may be there already.
func correlateTo(out, u []float64, r float64) []float64 {
	out = slices.Grow(out[:0], len(u))[:len(u)]
	tail := 0.0
	for i, v := range u {
		out[i] = v + tail
		tail = r * (tail + v)
	}
	tail = 0
	for i := len(u) - 1; i >= 0; i-- {
		out[i] += tail
		tail = r * (tail + u[i])
	}
	return out
}
