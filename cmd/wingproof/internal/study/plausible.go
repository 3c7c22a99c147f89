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

// checkElevators leaves out the flights whose elevator goes against what trim asks of it, or many times as far.
// The lattice knows how the controls of this aircraft work, so that no sign is taken for granted here.
func (s *Study) checkElevators() {
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
			why := strangeElevator(f.Reduction.Points, -c.ElevatorTrimRate*ahead, ahead/c.Airframe.Reference.MeanChord, f.Logger)
			if why != "" {
				*f = f.leaveOut(why)
			}
		}
	}
}

// strangeElevator compares the change of elevator with lift [rad] of a flight's points with the predicted one;
// margin is how far the CG lies ahead of the predicted neutral point, in mean chords.
func strangeElevator(points []reduce.TestPoint, predicted, margin float64, logger string) string {
	line, ok := elevatorOf(points)
	if !ok || margin < clearMargin || predicted == 0 || !finite(predicted) {
		return ""
	}
	size := line.slope / predicted
	clear := math.Abs(line.correlation) >= clearLine
	told := fmt.Sprintf("from fast to slow the elevator moves %+.3g° a unit of lift coefficient where theory asks for %+.3g°", line.slope*180/math.Pi, predicted*180/math.Pi)
	switch {
	case clear && size < -0.25:
		return fmt.Sprintf("%s: the sign of the elevator column in [logger.%s] is wrong (trailing edge down is positive; set sign = -1 or turn the calibration), or its CG lies behind the neutral point", told, logger)
	case margin < firmMargin:
		return ""
	case clear && size > strangeSize, math.Abs(size) < 1.0/strangeSize && math.Abs(predicted)*line.lift > clearTravel:
		return fmt.Sprintf("%s: look at column, unit and calibration of the elevator in [logger.%s]", told, logger)
	}
	return ""
}

// elevatorLine is elevator against lift coefficient: slope [rad], correlation, and the range of lift.
type elevatorLine struct{ slope, correlation, lift float64 }

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
	for _, p := range points {
		if !p.Kept || p.Power != most {
			continue
		}
		n, x, y = n+1, x+p.Lift, y+p.Elevator
		xx, xy, yy = xx+p.Lift*p.Lift, xy+p.Lift*p.Elevator, yy+p.Elevator*p.Elevator
		low, high = math.Min(low, p.Lift), math.Max(high, p.Lift)
	}
	if n < 4 || high-low < clearLift {
		return line, false
	}
	sxx, sxy, syy := xx-x*x/n, xy-x*y/n, yy-y*y/n
	if !(sxx > 0) || !(syy > 0) {
		return line, false
	}
	return elevatorLine{sxy / sxx, sxy / math.Sqrt(sxx*syy), high - low}, true
}
