package decide

import "math"

// EndlessWords says what a judged number is that has none: a time that does not end, a speed that is not reached.
func EndlessWords(unit string) string {
	if unit == "m/s" {
		return "not reached"
	}
	return "endless"
}

// EndlessDifference says how a size differs from the baseline where one of them has no number; empty where the difference is one.
func (x Contrast) EndlessDifference() string {
	words := [3]string{"becomes endless", "no longer endless", "endless as well"}
	if x.Unit == "m/s" {
		words = [3]string{"no longer reached", "now reached", "not reached either"}
	}
	switch d := x.Difference; {
	case d == nil:
		return ""
	case math.IsInf(d.Median, 1):
		return words[0]
	case math.IsInf(d.Median, -1):
		return words[1]
	case math.IsNaN(d.Median) && x.Value.Endless():
		return words[2]
	}
	return ""
}
