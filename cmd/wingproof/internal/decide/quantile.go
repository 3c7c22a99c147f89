package decide

import (
	"math"
	"slices"
)

// quantiles reads order statistics of draws without sorting all of them: each reading partitions the draws around one place (Hoare's
// selection); no draw is NaN. Later readings look only between the places that earlier ones have settled, since nothing beyond them can belong there.
type quantiles struct {
	draws   []float64
	settled []int // places, rising, that hold what they would in the sorted list
}

// newQuantiles copies the draws.
func newQuantiles(values []float64) *quantiles { return reordering(slices.Clone(values)) }

// reordering reads draws that nobody needs in their order any more.
func reordering(draws []float64) *quantiles { return &quantiles{draws: draws} }

// at is the value at a share of the draws, straight between neighbours.
func (q *quantiles) at(share float64) float64 {
	v := q.draws
	place := share * float64(len(v)-1)
	i := int(place)
	end := q.settle(i)
	if i+1 >= len(v) {
		return v[i]
	}
	next := slices.Min(v[i+1 : end])
	beyond := place - float64(i)
	if v[i] == next || math.IsInf(v[i], -1) || beyond == 0 && math.IsInf(next, 1) {
		return v[i] // nothing lies between a number and what is none
	}
	return v[i] + beyond*(next-v[i])
}

// settle brings the value of rank k to its place. The next greater one lies ahead of end.
func (q *quantiles) settle(k int) (end int) {
	at, known := slices.BinarySearch(q.settled, k)
	if !known {
		low, high := 0, len(q.draws)-1
		if at > 0 {
			low = q.settled[at-1] + 1
		}
		if at < len(q.settled) {
			high = q.settled[at] - 1
		}
		partition(q.draws, k, low, high)
		q.settled = slices.Insert(q.settled, at, k)
	}
	if at+1 < len(q.settled) {
		return q.settled[at+1] + 1
	}
	return len(q.draws)
}

// partition puts the value of rank k in its place between low and high, smaller ones before and greater ones after it.
func partition(v []float64, k, low, high int) {
	for low < high {
		i, j, pivot := low, high, median(v[low], v[low+(high-low)/2], v[high])
		for i <= j {
			for v[i] < pivot {
				i++
			}
			for v[j] > pivot {
				j--
			}
			if i <= j {
				v[i], v[j] = v[j], v[i]
				i, j = i+1, j-1
			}
		}
		switch {
		case k <= j:
			high = j
		case k >= i:
			low = i
		default:
			return
		}
	}
}

// median is the middle one of three.
func median(a, b, c float64) float64 { return max(min(a, b), min(max(a, b), c)) }
