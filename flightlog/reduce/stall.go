package reduce

import (
	"math"
	"slices"

	"wingproof/flightlog"
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
		held := math.Abs(elevator[i+span]-elevator[i]) < breakElevator
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
