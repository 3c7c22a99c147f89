package decide

import (
	"fmt"
	"math"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
)

// percent writes a probability so that it never reads better than it is: whole percent rounded down, one
// decimal between 90 and 99.9.
func percent(p float64) string {
	switch {
	case p >= 0.999:
		return "over 99.9 %"
	case p < 0.01:
		return "under 1 %"
	case p >= 0.90:
		return fmt.Sprintf("%.1f %%", math.Floor(1000*p)/10)
	default:
		return fmt.Sprintf("%.0f %%", math.Floor(100*p))
	}
}

// Surety writes a probability as the board does: never better than it is.
func Surety(p float64) string { return percent(p) + " sure" }

// inUnit writes a judged value in the unit that is printed: degrees for angles, percent for ratios.
func inUnit(v float64, unit, quantity string) string {
	text := inPlainUnit(v, unit, quantity)
	if size, below := strings.CutPrefix(text, "-"); below {
		return "−" + size
	}
	return text
}

// inPlainUnit is the same with a hyphen for minus.
func inPlainUnit(v float64, unit, quantity string) string {
	switch {
	case unit == "rad":
		return fmt.Sprintf("%.1f°", v*180/math.Pi)
	case unit == "%":
		return fmt.Sprintf("%.1f %%", v)
	case math.IsInf(v, 1):
		return EndlessWords(unit)
	case unit == "m/s":
		return fmt.Sprintf("%.1f m/s (%.0f kt)", v, v/knot)
	case quantity == evidence.BendingRatio:
		return fmt.Sprintf("%.0f %%", 100*v)
	case unit == "-":
		return fmt.Sprintf("%.4g", v)
	default:
		return fmt.Sprintf("%.4g %s", v, unit)
	}
}

// knot is a speed in m/s (exact, by definition of the nautical mile).
const knot = 1852.0 / 3600

// list joins words: "a", "a and b", "a, b and c".
func list(words []string, last string) string {
	switch len(words) {
	case 0:
		return ""
	case 1:
		return words[0]
	default:
		return strings.Join(words[:len(words)-1], ", ") + " " + last + " " + words[len(words)-1]
	}
}

// phrase writes a requirement for a sentence: "the aft-margin limit", "the strength of the main spar".
func (r requirement) phrase() string {
	if r.built != nil {
		return "the strength of the " + plainName(r.built.Part)
	}
	if strings.HasSuffix(plainName(r.Name), "limit") {
		return "the " + r.Name
	}
	return "the " + strings.ReplaceAll(r.Name, " ", "-") + " limit"
}

// short names a requirement as the shop does: "aft margin", "strength of the main spar".
func (r requirement) short() string {
	if r.built != nil {
		return "strength of the " + plainName(r.built.Part)
	}
	return r.Name
}

// bounds writes what a limit asks for.
func (r requirement) bounds() string {
	var parts []string
	if r.AtLeast != nil {
		parts = append(parts, "at least "+inUnit(*r.AtLeast, r.unit, r.Quantity))
	}
	if r.AtMost != nil {
		parts = append(parts, "at most "+inUnit(*r.AtMost, r.unit, r.Quantity))
	}
	return strings.Join(parts, " and ")
}

// stageWord writes the stage of an existing part before its name.
func stageWord(stage string) string { return strings.ReplaceAll(stage, "_", "-") }

// nextOperation is what the shop does next to a part that it may go on with.
func nextOperation(part Part) string {
	switch part.Stage {
	case stageDrawn:
		switch part.Made {
		case madeBuilt:
			return "make the part"
		case madeBought:
			return "order the part"
		}
		return "mill the plug"
	case stagePlug:
		return "make the mould"
	case stageMould:
		return "lay up the part"
	case stageLaidUp, stageReady:
		return "trim and fit"
	default:
		return ""
	}
}

// Stages of a part.
const (
	stageDrawn  = "drawn"
	stagePlug   = "plug"
	stageMould  = "mould"
	stageLaidUp = "laid_up"
	stageReady  = "ready" // it exists and needed no mould
	stageFitted = "fitted"
)

// Ways of making a part; anything else comes out of a mould.
const (
	madeBuilt  = "built"
	madeBought = "bought"
)

// station writes a distance aft of the datum at both sizes.
func station(x, lengthRatio float64) string {
	if lengthRatio > 0 {
		return fmt.Sprintf("%.3f m (model %.0f mm)", x, 1000*x*lengthRatio)
	}
	return fmt.Sprintf("%.3f m", x)
}

// chordPercent is a station in percent of the mean aerodynamic chord.
func (a Aircraft) chordPercent(x float64) float64 {
	return 100 * (x - a.MeanChordLeadingEdge) / a.MeanChord
}
