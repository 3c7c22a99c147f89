package decide

import (
	"fmt"
	"math"
	"sort"
)

// worstRatio returns the greatest |moment| over allowable along a built part and the station of it.
//
// Both lines are straight between their stations and are compared at the stations of either, where they
// overlap. Since the errors of moment and of allowable multiply every station alike, the worst station is
// the same in every draw, so that this maximum times the draw's factor is the maximum within the draw.
func worstRatio(moment, allowable []BendingStation) (ratio, at float64, err error) {
	m, a := byStation(moment), byStation(allowable)
	if len(m) < 2 || len(a) < 2 {
		return 0, 0, fmt.Errorf("%d stations of the moment, %d of the allowable; give two of each at least", len(m), len(a))
	}
	low, high := math.Max(m[0].Y, a[0].Y), math.Min(m[len(m)-1].Y, a[len(a)-1].Y)
	if !(low < high) {
		return 0, 0, fmt.Errorf("the stations of the allowable (%g to %g m) miss those of the moment (%g to %g m)", a[0].Y, a[len(a)-1].Y, m[0].Y, m[len(m)-1].Y)
	}
	most := 0.0
	for _, s := range m {
		most = math.Max(most, math.Abs(s.Moment))
	}
	for _, s := range append(append([]BendingStation(nil), m...), a...) {
		if s.Y < low || s.Y > high {
			continue
		}
		bending, limit := math.Abs(interpolate(m, s.Y)), interpolate(a, s.Y)
		if bending <= 1e-9*most {
			continue
		}
		if !(limit > 0) {
			return 0, 0, fmt.Errorf("allowable %g N·m at %g m; write what the part carries there, above zero", limit, s.Y)
		}
		if bending/limit > ratio {
			ratio, at = bending/limit, s.Y
		}
	}
	return ratio, at, nil
}

// byStation returns the stations in rising order.
func byStation(line []BendingStation) []BendingStation {
	sorted := append([]BendingStation(nil), line...)
	sort.SliceStable(sorted, func(i, j int) bool { return sorted[i].Y < sorted[j].Y })
	return sorted
}

// interpolate reads a line at y, which lies within its stations.
func interpolate(line []BendingStation, y float64) float64 {
	i := sort.Search(len(line), func(i int) bool { return line[i].Y >= y })
	if i == 0 || line[i].Y == y {
		return line[i].Moment
	}
	a, b := line[i-1], line[i]
	return a.Moment + (b.Moment-a.Moment)*(y-a.Y)/(b.Y-a.Y)
}
