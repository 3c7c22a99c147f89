package plots

import "fmt"

// testPoints are the single test points of a panel in the units of its axes, and the standard deviation of each by itself; nil: not
// known.
type testPoints struct {
	x, y     []float64
	xSD, ySD []float64
	flights  []string // of each point; nil: not known
}

func (t testPoints) check() error {
	if err := checkSeries("test points", t.x, t.y); err != nil {
		return err
	}
	if t.flights != nil && len(t.flights) != len(t.x) {
		return fmt.Errorf("%d test points and %d flights; want the flight of each point, or none", len(t.x), len(t.flights))
	}
	for _, sd := range [][]float64{t.xSD, t.ySD} {
		if sd != nil && len(sd) != len(t.x) {
			return fmt.Errorf("%d test points and %d standard deviations; want that of each point, or none", len(t.x), len(sd))
		}
		for i, s := range sd {
			if !finite(s) || s < 0 {
				return fmt.Errorf("test points: standard deviation %d is %g; want a finite number, zero or more", i+1, s)
			}
		}
	}
	return nil
}

// haveBars tells whether some point states an interval of its own.
func (t testPoints) haveBars() bool {
	for _, sd := range [][]float64{t.xSD, t.ySD} {
		for _, s := range sd {
			if s > 0 {
				return true
			}
		}
	}
	return false
}

// reachBars widens two axes by the bars of the points of all panels.
func reachBars(all []testPoints, x, y *span) {
	var across, up []Interval
	for _, t := range all {
		across, up = append(across, ownIntervals(t.x, t.xSD)...), append(up, ownIntervals(t.y, t.ySD)...)
	}
	x.reach(across)
	y.reach(up)
}

// words says how many points there are, and of how many flights where that is known.
func (t testPoints) words() string {
	if len(t.x) == 0 {
		return "no test points"
	}
	seen := map[string]bool{}
	for _, f := range t.flights {
		seen[f] = true
	}
	return Sample{Points: len(t.x), Flights: len(seen)}.words()
}

// spoken lets the points say their numbers, each with its flight where that is known.
func (t testPoints) spoken(name string, words func(i int) string) spoken {
	return spoken{t.x, t.y, func(i int) string {
		of := "test point"
		if t.flights != nil {
			of += " of " + t.flights[i]
		}
		return said(words(i), name, of)
	}}
}
