package plots

import (
	"fmt"
	"slices"
)

// curveKey explains points, fit with its band and the line of theory, each where some panel has it.
func curveKey(theory string, points []testPoints, fits, lattices []Curve) []keyEntry {
	fit := lineKey("fit", fitMark(), false)
	if slices.ContainsFunc(fits, Curve.hasBand) {
		fit = lineKey("fit with 95 % band", fitMark(), true)
	}
	key := []keyEntry{pointKey("test points", measuredMark()), fit}
	if slices.ContainsFunc(points, testPoints.haveBars) {
		key[0] = barsKey("test points, each with its 95 % bars", measuredMark())
	}
	if !slices.ContainsFunc(lattices, Curve.drawn) {
		return key
	}
	if slices.ContainsFunc(lattices, Curve.hasBand) {
		theory += " with 95 % band"
	}
	return append(key, lineKey(theory, predictedMark(), slices.ContainsFunc(lattices, Curve.hasBand)))
}

// curveNote says what the bars of single points hold, and where the rest of their error is; unbanded is said of lines of theory that have
// no band.
func curveNote(first string, points []testPoints, fits, lattices []Curve, unbanded string) string {
	bars, band := slices.ContainsFunc(points, testPoints.haveBars), slices.ContainsFunc(fits, Curve.hasBand)
	if bars {
		first += " Bars: 95 % of the point itself, from its own seconds of flight; one that its dot would cover is not drawn."
	}
	switch {
	case bars && band:
		first += " What the points of a flight or all points share is in the band."
	case bars:
		first += " What the points of a flight or all points share is not in them."
	case band:
		first += " What all points share is in the band."
	}
	if slices.ContainsFunc(lattices, func(c Curve) bool { return c.drawn() && !c.hasBand() }) {
		first += " " + unbanded
	}
	return first
}

func (c Curve) hasBand() bool { return c.Low != nil }

func (c Curve) drawn() bool { return len(c.X) > 0 }

// checkCurves checks what a panel of test points, fit and theory holds; named is the number in its note, or nil.
func checkCurves(points testPoints, fit, lattice Curve, name string, named *Interval) error {
	if err := points.check(); err != nil {
		return err
	}
	if err := fit.check("fit"); err != nil {
		return err
	}
	if named != nil {
		if err := named.check(); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
	}
	return lattice.check("lattice line")
}

// computed writes a number of a curve; one without a band is bare, since the key says what it is.
func computed(i Interval, decimals int) string {
	if i.Low == i.High {
		return number(i.Value, decimals)
	}
	return i.words(decimals)
}
