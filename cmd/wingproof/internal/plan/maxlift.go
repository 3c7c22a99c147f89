package plan

import "math"

// leastMaxLift bounds what is carried forward of the foremost CG that anything is known of.
const leastMaxLift = 0.3

// maxLift is the maximum lift of a configuration at a CG. On a foreplane aircraft it falls as the CG goes forward, until the elevator
// runs out: between two CGs that are known it is a straight line; forward of them the line goes on, and half of what it takes off is added
// to the error; aft of them the last one is held.
func (c Configuration) maxLift(x float64) Lift {
	list := c.MaxLift
	n := len(list)
	if n == 1 || x >= list[n-1].CG {
		out := list[n-1]
		out.CG = x
		return out
	}
	i := 0
	for i < n-2 && x > list[i+1].CG {
		i++
	}
	a, b := list[i], list[i+1]
	t := (x - a.CG) / (b.CG - a.CG)
	out := Lift{CG: x, Value: a.Value + t*(b.Value-a.Value), SD: math.Max(a.SD, b.SD), Source: a.Source}
	if t < 0 {
		out.Value = math.Max(math.Min(out.Value, a.Value), leastMaxLift)
		out.SD += (a.Value - out.Value) / 2
	}
	return out
}
