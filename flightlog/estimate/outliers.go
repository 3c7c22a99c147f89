package estimate

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"wingproof/flightlog/statistic"
)

const (
	outlierFrom   = 3.5    // robust standard deviations from which a point is played down
	madToSD       = 1.4826 // of a normal distribution
	outlierPoints = 5      // fewer points in a flight cannot tell which of them is off
	leastScatter  = 1e-9   // scatter below this share of the largest value is rounding
	// medianEfficiency is how many degrees of freedom a median absolute deviation is worth beside a standard deviation (P. J. Huber,
	// Robust Statistics, from memory).
	medianEfficiency = 0.37
)

// playDown multiplies the weight of points that lie z > 3.5 robust standard deviations from their flight's own line
// by (3.5/z)², so that one gust cannot turn a slope, and names each in words. Nothing is left out.
//
// The line goes by the weighted median of pairwise slopes (Theil and Sen), which a fifth of bad points hardly moves;
// that flights differ in slope is scatter between flights, not an outlier. The scale is the median absolute
// residual over all flights of five points or more; few of them tell it badly, so the limit of 3.5 grows as Student's t does (farLimit).
//
// Source: B. Iglewicz and D. C. Hoaglin, How to Detect and Handle Outliers, ASQC 1993, for 3.5; P. J. Huber, Robust
// Statistics, Wiley 1981, for weights that fall with distance (both from memory; here with z², since a
// point at the end of the range has leverage).
func playDown(flights []flight, r relation) []string {
	return playDownAbout(flights, r, outlierPoints, 2, func(f flight) float64 { return pairSlope([]flight{f}, r) })
}

// playDownTogether is playDown for flights of few points, three or more: all flights share the slope of the line, each keeps its level.
func playDownTogether(flights []flight, r relation) []string {
	slope := pairSlope(flights, r)
	return playDownAbout(flights, r, leastToTell, 1, func(flight) float64 { return slope })
}

// playDownAbout plays points down about a line of given slope in every flight of least points or more; taken is how many degrees of
// freedom a flight's own line takes.
func playDownAbout(flights []flight, r relation, least, taken int, slope func(flight) float64) []string {
	var residuals [][]float64
	points, free, largest := 0, 0, 0.0
	for _, f := range flights {
		row := make([]float64, len(f.points))
		if len(f.points) >= least {
			row = robustResiduals(f, r, slope(f))
			points += len(row)
			free += len(row) - taken
		}
		for _, p := range f.points {
			largest = math.Max(largest, math.Abs(r.response(p)))
		}
		residuals = append(residuals, row)
	}
	if points == 0 || free <= 0 {
		return nil
	}
	scale := robustScale(flights, residuals, least, taken)
	limit := farLimit(math.Max(1, medianEfficiency*float64(free)))
	if scale <= leastScatter*largest {
		return nil
	}
	z := make([][]float64, len(flights))
	for i, f := range flights {
		z[i] = make([]float64, len(f.points))
		for j := range f.points {
			z[i][j] = math.Abs(residuals[i][j]) / scale
			if z[i][j] <= limit {
				z[i][j] = 0
			}
			f.weight[j] *= outlierWeight(z[i][j])
		}
	}
	return outlierWords(flights, z, r)
}

// robustResiduals are √weight·(y − line) about a line of given slope through the middle of one flight.
func robustResiduals(f flight, r relation, slope float64) []float64 {
	levels := make([]float64, len(f.points))
	for j, p := range f.points {
		levels[j] = r.response(p) - slope*p.Lift
	}
	middle := median(levels)
	out := make([]float64, len(f.points))
	for j := range out {
		out[j] = math.Sqrt(f.weight[j]) * (levels[j] - middle)
	}
	return out
}

// pairSlope is the median of the slopes of all pairs of points inside flights, weighted by their distance in CL.
func pairSlope(flights []flight, r relation) float64 {
	type pair struct{ slope, distance float64 }
	var pairs []pair
	total := 0.0
	for _, f := range flights {
		for i, p := range f.points {
			for _, q := range f.points[i+1:] {
				if d := math.Abs(q.Lift - p.Lift); d > 0 {
					pairs = append(pairs, pair{(r.response(q) - r.response(p)) / (q.Lift - p.Lift), d})
					total += d
				}
			}
		}
	}
	slices.SortFunc(pairs, func(a, b pair) int { return cmp.Compare(a.slope, b.slope) })
	sum := 0.0
	for _, p := range pairs {
		if sum += p.distance; sum >= total/2 {
			return p.slope
		}
	}
	return 0
}

// robustScale is the standard deviation that the median absolute residual of the flights with enough points tells. A line through few
// points passes through some of them nearly: the smallest residuals of each flight, as many as its line took degrees of freedom, are
// left out of the median (W. DuMouchel and F. O'Brien, Integrating a robust option into a multiple regression computing environment,
// 1989, from memory).
func robustScale(flights []flight, residuals [][]float64, least, taken int) float64 {
	var all []float64
	for i, f := range flights {
		if len(f.points) >= least {
			sizes := statistic.Magnitudes(residuals[i])
			slices.Sort(sizes)
			all = append(all, sizes[taken:]...)
		}
	}
	return madToSD * median(all)
}

func outlierWeight(z float64) float64 {
	if z <= outlierFrom {
		return 1
	}
	return square(outlierFrom / z)
}

func outlierWords(flights []flight, z [][]float64, r relation) []string {
	var words []string
	for i, f := range flights {
		for j, p := range f.points {
			if z[i][j] > outlierFrom {
				words = append(words, fmt.Sprintf("flight %s: the point at %s lies %.1f robust standard deviations off in %s and counts %.0f %%",
					f.name, r.where(p), z[i][j], r.name, 100*outlierWeight(z[i][j])))
			}
		}
	}
	return words
}
