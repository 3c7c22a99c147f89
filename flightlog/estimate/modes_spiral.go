package estimate

import (
	"fmt"
	"math"
)

// timeToDouble turns the root of the spiral into the time in which a bank doubles, ln 2/root. A root that may be negative has no
// longest time: the upper end is then missing, and so is the value when the root itself is not positive.
func timeToDouble(root Result) Result {
	r := root
	r.Quantity, r.Unit = SpiralTimeToDouble, "s"
	r.Warnings = append([]string(nil), root.Warnings...)
	r.Value, r.SD, r.SDOwn, r.Low, r.High, r.Common = nil, nil, nil, nil, nil, map[string]float64{}
	if root.State == NotDetermined || root.Value == nil {
		return r
	}
	v := *root.Value
	if *root.High > 0 {
		low := math.Ln2 / *root.High
		r.Low = &low
	}
	switch {
	case *root.High <= 0:
		r.Warnings = append(r.Warnings, "the spiral dies out: a bank does not double")
	case v <= 0:
		r.Warnings = append(r.Warnings, fmt.Sprintf("the spiral dies out as measured; within the errors a bank may double in %.0f s and more", *r.Low))
	case *root.Low <= 0:
		t := math.Ln2 / v
		r.Value = &t
		r.Warnings = append(r.Warnings, "within the errors the spiral may as well die out: there is no longest time to double")
	default:
		t, high := math.Ln2/v, math.Ln2 / *root.Low
		sd, own := t/v**root.SD, t/v**root.SDOwn
		r.Value, r.High, r.SD, r.SDOwn = &t, &high, &sd, &own
		for name, c := range root.Common {
			r.Common[name] = -t / v * c
		}
	}
	return r
}
