package estimate

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

const (
	outlierFrom   = 3.5    // robust standard deviations from which a point is played down
	madToSD       = 1.4826 // of a normal distribution
	outlierPoints = 5      // fewer points in a flight cannot tell which of them is off
	leastScatter  = 1e-9   // scatter below this share of the largest value is rounding
)

// playDown multiplies the weight of points that lie z > 3.5 robust standard deviations from their flight's own line
// by (3.5/z)², so that one gust cannot turn a slope, and names each in words. Nothing is left out.
//
// The line goes by the weighted median of pairwise slopes (Theil and Sen), which a fifth of bad points hardly moves;
// that flights differ in slope is scatter between flights, not an outlier. The scale is the median absolute
// residual over all flights of five points or more.
//
// Source: B. Iglewicz and D. C. Hoaglin, How to Detect and Handle Outliers, ASQC 1993, for 3.5; P. J. Huber, Robust
// Statistics, Wiley 1981, for weights that fall with distance (both from memory; here with z², since a
// point at the end of the range has leverage).
func playDown(flights []flight, r relation) []string {
	var residuals [][]float64
	points, free, largest := 0, 0, 0.0
	for _, f := range flights {
		row := make([]float64, len(f.points))
		if len(f.points) >= outlierPoints {
			row = robustResiduals(f, r)
			points += len(row)
			free += len(row) - 2
		}
		for _, p := range f.points {
			largest = math.Max(largest, math.Abs(r.response(p)))
		}
		residuals = append(residuals, row)
	}
	if points == 0 {
		return nil
	}
	scale := robustScale(flights, residuals) * math.Sqrt(float64(points)/float64(free))
	if scale <= leastScatter*largest {
		return nil
	}
	z := make([][]float64, len(flights))
	for i, f := range flights {
		z[i] = make([]float64, len(f.points))
		for j := range f.points {
			z[i][j] = math.Abs(residuals[i][j]) / scale
			f.weight[j] *= outlierWeight(z[i][j])
		}
	}
	return outlierWords(flights, z, r)
}

// robustResiduals are √weight·(y − line) about the Theil–Sen line of one flight.
func robustResiduals(f flight, r relation) []float64 {
	slope := pairSlope(f, r)
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

// pairSlope is the median of the slopes of all pairs, weighted by their distance in CL.
func pairSlope(f flight, r relation) float64 {
	type pair struct{ slope, distance float64 }
	var pairs []pair
	total := 0.0
	for i, p := range f.points {
		for _, q := range f.points[i+1:] {
			if d := math.Abs(q.Lift - p.Lift); d > 0 {
				pairs = append(pairs, pair{(r.response(q) - r.response(p)) / (q.Lift - p.Lift), d})
				total += d
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

// robustScale is the standard deviation that the median absolute residual of the flights with enough points tells.
func robustScale(flights []flight, residuals [][]float64) float64 {
	var all []float64
	for i, f := range flights {
		if len(f.points) >= outlierPoints {
			for _, v := range residuals[i] {
				all = append(all, math.Abs(v))
			}
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
				words = append(words, fmt.Sprintf("flight %s: the point at CL %.3f lies %.1f robust standard deviations off in %s and counts %.0f %%",
					f.name, p.Lift, z[i][j], r.name, 100*outlierWeight(z[i][j])))
			}
		}
	}
	return words
}
