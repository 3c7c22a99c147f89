package statistic

import (
	"math"
	"math/bits"
	"slices"
)

// Median is the middle value; NaN of none.
func Median(values []float64) float64 { return Quantile(values, 0.5) }

// Quantile is the value below which a share of the values lies, between order statistics straight; NaN of none. A value that is
// not a number counts as less than all others.
func Quantile(values []float64, share float64) float64 {
	if len(values) == 0 {
		return math.NaN()
	}
	v := append([]float64(nil), values...)
	place := share * float64(len(v)-1)
	i := min(int(place), len(v)-1)
	least := selected(v, i)
	if i+1 == len(v) {
		return least
	}
	return least + (place-float64(i))*(smallest(v[i+1:])-least)
}

// selected moves the value that sorting would put at a place there, what is not greater before it and what is not less behind, and
// returns it: that takes a time as the number of values, and sorting its logarithm as often. Values in whose order the pivots
// part little are sorted after all.
//
// Source: C. A. R. Hoare, Algorithm 65: Find, Communications of the ACM 4 (1961), p. 321 (from memory).
func selected(v []float64, place int) float64 {
	low, high := holesFirst(v), len(v)-1
	for rounds := 2 * bits.Len(uint(len(v))); place >= low && low < high; rounds-- {
		if rounds == 0 {
			slices.Sort(v[low : high+1])
			break
		}
		i, j := parted(v, low, high)
		switch {
		case place <= j:
			high = j
		case place >= i:
			low = i
		default: // what lies between equals the pivot
			return v[place]
		}
	}
	return v[place]
}

// parted parts the values from low to high about one of them: those from low to j are not greater, those from i to high not less, and
// those between equal it.
func parted(v []float64, low, high int) (i, j int) {
	quarter := (high - low) / 4
	pivot := middleOf(v[low+quarter], v[low+2*quarter], v[high-quarter])
	i, j = low, high
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
	return i, j
}

// holesFirst moves what is not a number to the front and tells how many there are.
func holesFirst(v []float64) (n int) {
	for i, x := range v {
		if math.IsNaN(x) {
			v[n], v[i] = v[i], v[n]
			n++
		}
	}
	return n
}

func middleOf(a, b, c float64) float64 { return max(min(a, b), min(max(a, b), c)) }

// smallest is the least of some values, none of which is less than one that is a number.
func smallest(v []float64) float64 {
	least := v[0]
	for _, x := range v {
		if x < least {
			least = x
		}
	}
	return least
}
