package estimate

import "fmt"

// StaticMargin is 100·(x_NP − x_CG)/c in percent of the mean aerodynamic chord c, positive stable; cg and
// meanChord are full-size metres. The neutral point's interval, set, state and shared sources are carried
// over. The cg source stays in it: it is the error of a margin at a true position. A margin at a CG that was
// weighed on the same scales as the flights would be free of it.
func StaticMargin(neutralPoint Result, cg, meanChord float64) Result {
	r := neutralPoint
	r.Quantity, r.Unit, r.CG, r.HasCG = "static_margin", "%", cg, true
	r.Warnings = append([]string(nil), neutralPoint.Warnings...)
	r.Common = map[string]float64{}
	if !allFinite(cg, meanChord) || meanChord <= 0 {
		r.Value = nil
		return undetermined(r, fmt.Sprintf("static margin needs a finite CG and a positive chord, not %v m and %v m", cg, meanChord))
	}
	scale := 100 / meanChord
	for _, name := range sourceNames(neutralPoint.Common) {
		r.Common[name] = scale * neutralPoint.Common[name]
	}
	r.Value = mapped(neutralPoint.Value, func(x float64) float64 { return scale * (x - cg) })
	r.Low = mapped(neutralPoint.Low, func(x float64) float64 { return scale * (x - cg) })
	r.High = mapped(neutralPoint.High, func(x float64) float64 { return scale * (x - cg) })
	r.SD = mapped(neutralPoint.SD, func(x float64) float64 { return scale * x })
	r.SDOwn = mapped(neutralPoint.SDOwn, func(x float64) float64 { return scale * x })
	return r
}

func mapped(p *float64, f func(float64) float64) *float64 {
	if p == nil {
		return nil
	}
	v := f(*p)
	return &v
}
