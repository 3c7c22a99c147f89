package program

import (
	"fmt"
	"math"
	"sort"
	"strconv"
	"strings"

	"wingproof/flightlog/unit"
)

// measure describes one number that a key or a table column holds. The unit stands behind the stem, as
// in cg_mm; unit.None means that the number has no unit and the stem is the whole name.
type measure struct {
	stem      string
	dimension unit.Dimension
	usual     string // unit for messages and for what the program writes itself
	must      bool
	fallback  float64 // in SI, when not stated
	low, high float64 // in SI; bounds that the number may reach, or open ones
	open      bool    // low itself is refused
	only      []string
}

// Measures for the usual cases. Bounds are wide: they catch a wrong unit or a slipped digit, not a
// strange design.
func length(stem string) measure {
	return measure{stem: stem, dimension: unit.Length, usual: "m", low: -1000, high: 1000}
}

func number(stem string, low, high float64) measure {
	return measure{stem: stem, dimension: unit.None, low: low, high: high}
}

func percent(stem string, low, high float64) measure {
	return measure{stem: stem, dimension: unit.Share, usual: "percent", low: low / 100, high: high / 100, only: []string{"percent"}}
}

func angle(stem string, low, high float64) measure {
	return measure{stem: stem, dimension: unit.Angle, usual: "deg", low: low * math.Pi / 180, high: high * math.Pi / 180}
}

func (m measure) required() measure          { m.must = true; return m }
func (m measure) or(si float64) measure      { m.fallback = si; return m }
func (m measure) positive() measure          { m.low, m.open = 0, true; return m }
func (m measure) atLeast(si float64) measure { m.low = si; return m }
func (m measure) in(usual string) measure    { m.usual = usual; return m }

// name is the key or head as the program would write it.
func (m measure) name() string {
	if m.dimension == unit.None {
		return m.stem
	}
	return m.stem + "_" + m.usual
}

// units lists the suffixes that the number may carry.
func (m measure) units() []string {
	if len(m.only) > 0 {
		return m.only
	}
	return unit.Of(m.dimension)
}

// spelt is how a key or head relates to a measure.
type spelt int

const (
	another     spelt = iota
	rightly           // this key holds the measure
	withoutUnit       // the stem alone, where a unit must stand behind it
	wrongUnit         // the stem with a unit of something else
)

// match tells whether a key or head holds the measure, and in which unit.
func (m measure) match(key string) (unit.Unit, spelt) {
	if m.dimension == unit.None {
		if key == m.stem {
			return unit.Unit{Dimension: unit.None, Factor: 1}, rightly
		}
		if rest, ok := strings.CutPrefix(key, m.stem+"_"); ok && isUnit(rest) {
			return unit.Unit{}, wrongUnit
		}
		return unit.Unit{}, another
	}
	if key == m.stem {
		return unit.Unit{}, withoutUnit
	}
	if stem, u, ok := unit.Suffix(key, m.dimension); ok && stem == m.stem && m.allows(u.Name) {
		return u, rightly
	}
	if rest, ok := strings.CutPrefix(key, m.stem+"_"); ok && isUnit(rest) {
		return unit.Unit{}, wrongUnit
	}
	return unit.Unit{}, another
}

func (m measure) allows(name string) bool {
	if len(m.only) == 0 {
		return true
	}
	for _, allowed := range m.only {
		if allowed == name {
			return true
		}
	}
	return false
}

// unitMistake words a missing or wrong unit.
func (m measure) unitMistake(key string, how spelt) (what, right string) {
	if m.dimension == unit.None {
		return quoted(key) + " carries a unit, but it is a plain number", "write " + m.stem
	}
	right = "write " + m.name()
	if others := m.units(); len(others) > 1 {
		right += "; units of " + string(m.dimension) + " are " + strings.Join(others, ", ")
	}
	if how == withoutUnit {
		return quoted(key) + " does not say its unit", right
	}
	return fmt.Sprintf("the unit of %s is not one of %s", quoted(key), m.dimension), right
}

func dimensions() []unit.Dimension {
	return []unit.Dimension{unit.Length, unit.Mass, unit.Angle, unit.AngularRate, unit.Speed, unit.Acceleration, unit.Pressure,
		unit.Temperature, unit.Time, unit.Area, unit.Inertia, unit.Moment, unit.Share, unit.PulseWidth, unit.Turns, unit.Anticipation}
}

func isUnit(name string) bool {
	for _, d := range dimensions() {
		for _, u := range unit.Of(d) {
			if u == name {
				return true
			}
		}
	}
	return false
}

// convert turns a written number into SI, or says why it cannot be right.
func (m measure) convert(written float64, u unit.Unit, as string) (si float64, what, right string) {
	if math.IsNaN(written) || math.IsInf(written, 0) {
		return 0, as + " is not a finite number", "write a number"
	}
	si = u.SI(written)
	if m.low == 0 && m.high == 0 && !m.open {
		return si, "", ""
	}
	const slack = 1e-12
	below := si < m.low-slack || m.open && si <= m.low
	above := m.high != 0 && si > m.high+slack
	if !below && !above {
		return si, "", ""
	}
	return 0, as + " = " + short(written) + " is out of range", "write " + m.bounds(u)
}

// bounds words the range in the unit that was written.
func (m measure) bounds(u unit.Unit) string {
	low := "at least " + short(u.From(m.low))
	if m.open {
		low = "more than " + short(u.From(m.low))
	}
	text := low
	if m.high != 0 {
		text += " and at most " + short(u.From(m.high))
	}
	if u.Name != "" {
		text += " " + u.Name
	}
	return text
}

func short(x float64) string { return strconv.FormatFloat(x, 'g', 6, 64) }

// sortedKeys lists the keys of a map in alphabetical order.
func sortedKeys[T any](m map[string]T) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	return keys
}

func (m measure) atMost(si float64) measure { m.high = si; return m }

func speed(stem string, high float64) measure {
	return measure{stem: stem, dimension: unit.Speed, usual: "kt", low: 0, high: high}
}

func mass(stem string) measure {
	return measure{stem: stem, dimension: unit.Mass, usual: "kg", low: 0, high: 1e5}
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
