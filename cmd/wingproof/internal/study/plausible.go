package study

import (
	"fmt"
	"math"
	"slices"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/flightlog/reduce"
)

// Bounds from which a flight is left out because only a mistake in its row or its logger map explains it.
// Common practice, no source: wide against the errors of theory.
const (
	highLift = 2.5  // lift coefficients that no model of this kind reaches in steady flight
	lowLift  = 0.02 // and below which none flies straight and level

	clearLine   = 0.8  // correlation of elevator with lift from which its slope says anything
	clearLift   = 0.2  // range of lift coefficients that this takes
	clearTravel = 0.03 // rad of predicted elevator travel that a log must show
	clearMargin = 0.05 // of the mean chord: how far ahead of the predicted neutral point the sign is beyond doubt
	firmMargin  = 0.10 // the same for the size of the slope
	strangeSize = 4    // measured over predicted elevator travel, or the other way round

	// The slope goes through zero at the neutral point, so that a small or a turned slope close ahead of the predicted one may as well say that
	// the real one lies elsewhere, which is what flights are for. By how many mean chords it would have to lie elsewhere before
	// a mistake is the better explanation:
	farNeutralPoint = 0.15
	farWithSign     = 0.10
	stillElevator   = 0.004 // rad: the range of a column that moves with nothing
)

// strangeLift tells why a flight's lift coefficients cannot be true; empty when they can.
func strangeLift(points []reduce.TestPoint) string {
	var lift []float64
	for _, p := range points {
		if p.Kept {
			lift = append(lift, p.Lift)
		}
	}
	if len(lift) == 0 {
		return ""
	}
	slices.Sort(lift)
	middle := lift[len(lift)/2]
	if middle >= lowLift && middle <= highLift {
		return ""
	}
	return fmt.Sprintf("its lift coefficients lie about %.3g, where a model flies at 0.1 to 1.5: look at the unit of the airspeed, at the mass and at length_ratio", middle)
}

// checkElevators leaves out the flights whose elevator goes against what trim asks of it, or many times as far, and with them every
// flight of a logger most of whose flights show a wrong sign: the sign stands in the map that they share.
// The lattice knows how the controls of this aircraft work, so that no sign is taken for granted here.
func (s *Study) checkElevators() {
	turned, judged := map[string]string{}, map[string]int{}
	count := map[string]int{}
	for i := range s.Flights {
		f := &s.Flights[i]
		if !f.Used {
			continue
		}
		for _, c := range s.Configurations {
			if evidence.Name(c.Levels) != evidence.Name(f.Levels) || c.Airframe.Reference.MeanChord <= 0 {
				continue
			}
			ahead := c.NeutralPoint - f.CG
			predicted, margin := -c.ElevatorTrimRate*ahead, ahead/c.Airframe.Reference.MeanChord
			why, sign := strangeElevator(f.Reduction.Points, predicted, margin, f.Logger)
			if line, ok := elevatorOf(f.Reduction.Points); ok && margin >= firmMargin && math.Abs(line.correlation) >= clearLine {
				judged[f.Logger]++
				if sign { // nearer to the neutral point a turned slope speaks of its own flight only
					turned[f.Logger], count[f.Logger] = f.Name, count[f.Logger]+1
				}
			}
			if why != "" {
				*f = f.leaveOut(why)
			}
		}
	}
	for i := range s.Flights {
		if f := &s.Flights[i]; f.Used && count[f.Logger] > 0 && 2*count[f.Logger] >= judged[f.Logger] {
			*f = f.leaveOut(fmt.Sprintf("flight %s shows that the sign of the elevator column in [logger.%s] is wrong, and this flight was read with it too", turned[f.Logger], f.Logger))
		}
	}
}

// strangeElevator compares the change of elevator with lift [rad] of a flight's points with the predicted one;
// margin is how far the CG lies ahead of the predicted neutral point, in mean chords.
// sign tells that it is the sign.
func strangeElevator(points []reduce.TestPoint, predicted, margin float64, logger string) (why string, sign bool) {
	line, ok := elevatorOf(points)
	if !ok || margin < clearMargin || predicted == 0 || !finite(predicted) {
		return "", false
	}
	size := line.slope / predicted
	clear := math.Abs(line.correlation) >= clearLine
	told := fmt.Sprintf("from fast to slow the elevator moves %+.3g° a unit of lift coefficient where theory asks for %+.3g°", line.slope*180/math.Pi, predicted*180/math.Pi)
	elsewhere := margin * math.Abs(1-size) // chords that the neutral point would have to lie off its prediction
	still := line.travel < stillElevator
	switch {
	case clear && size < -0.25 && elsewhere > farWithSign:
		return fmt.Sprintf("%s: the sign of the elevator column in [logger.%s] is wrong (trailing edge down is positive; set sign = -1 or turn the calibration), or its CG lies behind the neutral point", told, logger), true
	case margin < firmMargin:
		return "", false
	case clear && size > strangeSize && elsewhere > farNeutralPoint,
		math.Abs(size) < 1.0/strangeSize && math.Abs(predicted)*line.lift > clearTravel && (still || elsewhere > farNeutralPoint):
		return fmt.Sprintf("%s: look at column, unit and calibration of the elevator in [logger.%s]", told, logger), false
	}
	return "", false
}

// elevatorLine is elevator against lift coefficient: slope [rad], correlation, and the ranges of lift and elevator [rad].
type elevatorLine struct{ slope, correlation, lift, travel float64 }

// elevatorOf draws the line through the kept points of the power state that most of them hold.
func elevatorOf(points []reduce.TestPoint) (line elevatorLine, ok bool) {
	count := map[reduce.Power]int{}
	var most reduce.Power
	for _, p := range points {
		if p.Kept {
			count[p.Power]++
			if count[p.Power] > count[most] {
				most = p.Power
			}
		}
	}
	var n, x, y, xx, xy, yy float64
	low, high := math.Inf(1), math.Inf(-1)
	least, greatest := math.Inf(1), math.Inf(-1)
	for _, p := range points {
		if !p.Kept || p.Power != most {
			continue
		}
		n, x, y = n+1, x+p.Lift, y+p.Elevator
		xx, xy, yy = xx+p.Lift*p.Lift, xy+p.Lift*p.Elevator, yy+p.Elevator*p.Elevator
		low, high = math.Min(low, p.Lift), math.Max(high, p.Lift)
		least, greatest = math.Min(least, p.Elevator), math.Max(greatest, p.Elevator)
	}
	if n < 4 || high-low < clearLift {
		return line, false
	}
	sxx, sxy, syy := xx-x*x/n, xy-x*y/n, yy-y*y/n
	if !(sxx > 0) || !(syy > 0) {
		return line, false
	}
	return elevatorLine{sxy / sxx, sxy / math.Sqrt(sxx*syy), high - low, greatest - least}, true
}
