package loads

import (
	"fmt"
	"math"
)

// Allowable is what a part was built to carry at a station, either way alike. Zero means not stated.
type Allowable struct {
	Y       float64 // station, m
	Shear   float64 // N
	Bending float64 // N·m
	Torsion float64 // N·m
}

// Ratio is load over allowable at a station, with the condition that gives it; above 1 the part is overloaded. A load
// without an allowable has no number and no condition.
type Ratio struct {
	Y                       float64
	Shear, Bending, Torsion Peak
}

// Ratios sets an envelope against what a part was built for, at every station of the envelope within the part's
// table; allowables are linear between their stations. Give the envelope the stations of the table, or a peak at
// one of them is missed.
//
// It returns an error when the table is empty, does not rise or holds a negative figure.
func Ratios(envelope []Extreme, built []Allowable) ([]Ratio, error) {
	if err := checkAllowables(built); err != nil {
		return nil, err
	}
	var out []Ratio
	for _, e := range envelope {
		if a, inside := allowableAt(built, e.Y); inside {
			out = append(out, Ratio{e.Y, over(e.Shear, a.Shear), over(e.Bending, a.Bending), over(e.Torsion, a.Torsion)})
		}
	}
	return out, nil
}

// over is the greater of both ways over an allowable.
func over(r Range, allowable float64) Peak {
	if allowable == 0 {
		return Peak{Value: math.NaN()}
	}
	p := r.Greatest()
	return Peak{math.Abs(p.Value) / allowable, p.Condition}
}

func checkAllowables(built []Allowable) error {
	if len(built) == 0 {
		return fmt.Errorf("load ratios: the part's table of allowables is empty; give at least one station")
	}
	for i, a := range built {
		if i > 0 && !(a.Y > built[i-1].Y) {
			return fmt.Errorf("load ratios: station %d of the part's table, y = %.4g m, does not lie outboard of the one before; let them rise", i+1, a.Y)
		}
		if !(a.Shear >= 0 && a.Bending >= 0 && a.Torsion >= 0) {
			return fmt.Errorf("load ratios: an allowable at y = %.4g m is negative or no number; give sizes, or zero for not stated", a.Y)
		}
	}
	return nil
}

// allowableAt reads a rising table at y; inside tells whether y lies within it.
func allowableAt(built []Allowable, y float64) (a Allowable, inside bool) {
	for i, b := range built {
		if y == b.Y {
			return b, true
		}
		if i > 0 && y > built[i-1].Y && y < b.Y {
			return between(built[i-1], b, y), true
		}
	}
	return Allowable{}, false
}

// between is linear; what one of both leaves out is not stated.
func between(a, b Allowable, y float64) Allowable {
	t := (y - a.Y) / (b.Y - a.Y)
	mix := func(p, q float64) float64 {
		if p == 0 || q == 0 {
			return 0
		}
		return p + t*(q-p)
	}
	return Allowable{y, mix(a.Shear, b.Shear), mix(a.Bending, b.Bending), mix(a.Torsion, b.Torsion)}
}
