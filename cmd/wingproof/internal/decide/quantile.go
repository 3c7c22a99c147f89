package decide

import (
	"math"
	"slices"
)

// quantiles reads order statistics of draws without sorting all of them: each reading partitions the copy
// around one place (Hoare's selection), and later readings find it partly ordered.
type quantiles []float64

func newQuantiles(values []float64) quantiles { return slices.Clone(values) }

// at is the value at a share of the draws, straight between neighbours.
func (v quantiles) at(share float64) float64 {
	place := share * float64(len(v)-1)
	i := int(place)
	v.partition(i)
	if i+1 >= len(v) {
		return v[i]
	}
	next := slices.Min(v[i+1:])
	beyond := place - float64(i)
	if v[i] == next || math.IsInf(v[i], -1) || beyond == 0 && math.IsInf(next, 1) {
		return v[i] // nothing lies between a number and what is none
	}
	return v[i] + beyond*(next-v[i])
}

// partition puts the value of rank k in its place, smaller ones before and greater ones after it.
func (v quantiles) partition(k int) {
	low, high := 0, len(v)-1
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
