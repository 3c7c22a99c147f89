package report

import (
	"fmt"
	"io"
	"math"
	"strings"

	"wingproof/aero"
)

// LatticeHead is the condition that predicted numbers hold in, so that another program can be set up alike.
type LatticeHead struct {
	Program     string
	Reference   aero.Reference
	MomentX     float64 // of the moment point, full-size m aft of datum
	MomentZ     float64 // m above datum
	MomentWhy   string  // where the moment point comes from
	LengthRatio float64 // model over full size; 0 leaves the model's station out
	Lift        float64 // lift coefficient; of no use with Alpha
	Alpha       *float64
	Trimmed     bool
	Manoeuvre   string // speed and load factor behind the lift coefficient, in words; empty for none
	Mach        float64
	AlongStream bool    // wakes run along the stream, else along the body x axis
	Ground      float64 // height of the datum over the ground, m; 0 is free air
	Fuselage    bool
	Density     float64
	Panels      []int // on the right half, of each airframe
	GridErrors  bool
	Where       string // which numbers have their grid error estimated; empty: all
}

// write prints the head no wider than width.
func (h LatticeHead) write(w io.Writer, width int) error {
	for _, line := range h.lines() {
		if err := paragraph(w, line, width); err != nil {
			return err
		}
	}
	_, err := fmt.Fprintln(w)
	return err
}

func (h LatticeHead) lines() []string {
	r := h.Reference
	return []string{
		plain(h.Program) + ": predicted by the vortex lattice, full-size lengths",
		fmt.Sprintf("reference: area %s m², span %s m, mean aerodynamic chord %s m with its leading edge %s m aft of datum",
			number(r.Area, 4), number(r.Span, 4), number(r.MeanChord, 4), number(r.MeanChordLeadingEdge, 4)),
		fmt.Sprintf("moment point: %s aft of datum, z %s m (%s)", cgWords(h.MomentX, h.LengthRatio), number(h.MomentZ, 3), plain(h.MomentWhy)),
		"axes: lift and drag in wind axes; side force, moments and derivatives in body axes (X forward, Y right, Z down) about the moment point; " +
			"per radian, rates as pb/2V, qc/2V, rb/2V; positions in datum axes (x aft, y right, z up)",
		h.conditionLine(),
		"grid: " + h.gridWords(),
	}
}

// conditionLine says at which lift or angle of attack, and in which air, the lattice was solved.
func (h LatticeHead) conditionLine() string {
	return "condition: " + h.manoeuvreWords() + h.stateWords() + "; " + h.airWords()
}

func (h LatticeHead) manoeuvreWords() string {
	if h.Manoeuvre == "" {
		return ""
	}
	return h.Manoeuvre + ": "
}

func (h LatticeHead) stateWords() string {
	switch {
	case h.Alpha != nil:
		return "angle of attack " + trimmedFigures(*h.Alpha*180/math.Pi, 5) + "°, controls neutral, not trimmed"
	case h.Trimmed:
		return "lift coefficient " + trimmedFigures(h.Lift, 5) + ", trimmed by the elevator about the moment point"
	}
	return "lift coefficient " + trimmedFigures(h.Lift, 5) + ", controls neutral, not trimmed"
}

func (h LatticeHead) airWords() string {
	var parts []string
	if h.Mach == 0 {
		parts = append(parts, "Mach 0 (incompressible)")
	} else {
		parts = append(parts, "Mach "+trimmedFigures(h.Mach, 4)+" by Prandtl and Glauert's rule")
	}
	switch {
	case h.Ground > 0:
		parts = append(parts, "datum "+trimmedFigures(h.Ground, 4)+" m over level ground, pitched by the angle of attack, wakes along the ground")
	case h.AlongStream:
		parts = append(parts, "free air, wakes along the stream")
	default:
		parts = append(parts, "free air, wakes along the body x axis")
	}
	if h.Fuselage {
		parts = append(parts, "fuselage by slender-body theory in neutral point and derivatives, not in drag")
	} else {
		parts = append(parts, "no fuselage (program.toml states none)")
	}
	return strings.Join(append(parts, "propeller stopped"), "; ")
}

func (h LatticeHead) gridWords() string {
	words := fmt.Sprintf("density %s, %s on the right half; ", trimmedFigures(h.Density, 4), panelWords(h.Panels))
	if !h.GridErrors {
		return words + "the error of the grid was not estimated"
	}
	words += "± is the estimated error of the grid: the value at zero panel size is expected within it"
	if h.Where != "" {
		words += "; " + h.Where
	}
	return words
}

func panelWords(panels []int) string {
	if len(panels) == 0 {
		return "no panels"
	}
	low, high := panels[0], panels[0]
	for _, n := range panels {
		low, high = min(low, n), max(high, n)
	}
	if low == high {
		return fmt.Sprintf("%d panels", low)
	}
	return fmt.Sprintf("%d to %d panels", low, high)
}

// valueHead heads a column of numbers with the error of their grid, where it was estimated.
func (h LatticeHead) valueHead(words string) string {
	if h.GridErrors {
		return words + " ± grid"
	}
	return words
}
