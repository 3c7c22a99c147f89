package reduce

import (
	"math"
	"slices"

	"wingproof/flightlog"
	"wingproof/flightlog/manoeuvre"
)

// stallBreaks finds the instants at which the load factor falls while the nose drops and the elevator is
// held, from near the greatest lift of the flight. Without a pitch gyro there are none.
func stallBreaks(g *grid, a air, load []float64, barred []bool) []float64 {
	pitch, elevator := g.get(flightlog.PitchRate), g.get(flightlog.Elevator)
	if pitch == nil {
		return nil
	}
	lift := make([]float64, g.n) // in proportion to the lift coefficient
	var flown []float64
	for i := range lift {
		lift[i] = load[i] / a.pressure[i]
		if !barred[i] && !math.IsNaN(lift[i]) {
			flown = append(flown, lift[i])
		}
	}
	if len(flown) == 0 {
		return nil
	}
	slices.Sort(flown)
	near := breakLift * flown[len(flown)*99/100]
	span := int(math.Round(breakSpan / gridStep))
	var out []float64
	for i := 0; i+span < g.n; i++ {
		if barred[i] || barred[i+span] || !(lift[i] >= near) {
			continue
		}
		falls := load[i]-load[i+span] > breakFall
		held := heldOver(elevator, max(0, i-span/2), i+span)
		dropping := false
		for k := i; k <= i+span; k++ {
			dropping = dropping || pitch[k] < breakPitch
		}
		if falls && held && dropping && (len(out) == 0 || g.time(i)-out[len(out)-1] > breakSpan) {
			out = append(out, g.time(i))
		}
	}
	return out
}

// heldOver tells whether the elevator stays within breakElevator over a stretch: a doublet, which comes back to where it began, is
// no held elevator, and neither is one that has just been let go.
func heldOver(elevator []float64, from, to int) bool {
	low, high := math.Inf(1), math.Inf(-1)
	for _, e := range elevator[from : to+1] {
		low, high = math.Min(low, e), math.Max(high, e)
	}
	return high-low < breakElevator
}

// breaksOf lists the stall breaks that end a deceleration.
func breaksOf(manoeuvres []manoeuvre.Manoeuvre) []float64 {
	var out []float64
	for _, m := range manoeuvres {
		if m.Kind == manoeuvre.Deceleration && m.Break > 0 {
			out = append(out, m.Break)
		}
	}
	return out
}

// together merges two lists of breaks in order of time; one that both hold counts once.
func together(a, b []float64) []float64 {
	all := append(slices.Clone(a), b...)
	slices.Sort(all)
	var out []float64
	for _, t := range all {
		if n := len(out); n == 0 || t-out[n-1] > breakMargin {
			out = append(out, t)
		}
	}
	return out
}
