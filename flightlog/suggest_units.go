package flightlog

import (
	"fmt"
	"math"

	"wingproof/flightlog/statistic"
	"wingproof/flightlog/unit"
)

// unitFromNumbers guesses a unit from the size of a column's numbers; empty when they do not tell.
func unitFromNumbers(q Quantity, values []float64) (name, why string) {
	if len(values) == 0 {
		return "", "the column holds no numbers in the sample"
	}
	size := statistic.Magnitudes(values)
	middle, largest := statistic.Median(size), statistic.Quantile(size, 0.999)
	says := func(name string) (string, string) {
		return name, fmt.Sprintf("no unit in the head; the numbers (median %.4g, largest %.4g) look like %s", middle, largest, name)
	}
	switch q.Dimension() {
	case unit.Acceleration:
		if largest < 8 && (q != DownAcceleration || middle < 2) {
			return says("gee")
		}
		return says("m_s2")
	case unit.AngularRate:
		if largest > 6 { // rad/s would be a turn in a second
			return says("deg_s")
		}
		return says("rad_s")
	case unit.Angle:
		if largest > 2*math.Pi+0.01 {
			return says("deg")
		}
		return says("rad")
	case unit.Share:
		if largest > 1.5 {
			return says("percent")
		}
		return says("share")
	case unit.Pressure:
		return says(pressureUnit(middle))
	case unit.Temperature:
		if middle > 200 {
			return says("k")
		}
		return says("c")
	case unit.Speed:
		return says("m_s")
	case unit.Length:
		return says("m")
	}
	return "", "the numbers do not tell the unit"
}

// pressureUnit tells apart the sizes that one atmosphere has.
func pressureUnit(middle float64) string {
	switch {
	case middle > 20000:
		return "pa"
	case middle > 200:
		return "hpa"
	case middle > 40:
		return "kpa"
	}
	return "inhg"
}

// shareRateUnit gives the three gyros one unit where the head names none: the one whose numbers can only be degrees
// decides.
func shareRateUnit(guesses []Guess, taken map[Quantity]int) {
	rates := []Quantity{RollRate, PitchRate, YawRate}
	degrees := false
	for _, q := range rates {
		i, ok := taken[q]
		degrees = degrees || ok && guesses[i].unread && guesses[i].Unit == "deg_s"
	}
	for _, q := range rates {
		if i, ok := taken[q]; ok && degrees && guesses[i].unread && guesses[i].Unit == "rad_s" {
			guesses[i].Unit = "deg_s"
			guesses[i].Why += "; taken as deg_s like the other rates"
		}
	}
}

// checkSigns reads signs from the numbers where physics tells them: gravity on the down axis, gravity along
// the forward axis against pitch angle, angular rate against the change of its angle.
func (s Sniffed) checkSigns(guesses []Guess, taken map[Quantity]int, timeColumn int) {
	if i, ok := taken[DownAcceleration]; ok && guesses[i].Mapped {
		if values, _ := s.numbers(i); statistic.Median(values) > 0 {
			guesses[i].flip("gravity reads positive here; specific force along Z is negative at rest. If the logger's axes point up and left, flip Y as well")
		}
	}
	if i, ok := taken[ForwardAcceleration]; ok && guesses[i].Mapped {
		s.agree(guesses, i, taken, PitchAngle, -1)
	}
	for _, pair := range [][2]Quantity{{RollRate, RollAngle}, {PitchRate, PitchAngle}} {
		if i, ok := taken[pair[0]]; ok && guesses[i].Mapped {
			s.agree(guesses, i, taken, pair[1], timeColumn)
		}
	}
}

// agree flips column i when it runs against another quantity, or against its change per row when a time column
// is given.
func (s Sniffed) agree(guesses []Guess, i int, taken map[Quantity]int, other Quantity, timeColumn int) {
	j, ok := taken[other]
	if !ok || !guesses[j].Mapped {
		return
	}
	var x, y []float64
	xs, rows := s.numbers(i)
	ys, otherRows := s.numbers(j)
	at := map[int]float64{}
	for k, row := range otherRows {
		at[row] = ys[k]
	}
	for k, row := range rows {
		here, ok := at[row]
		if timeColumn >= 0 {
			before, ok1 := at[row-signStep]
			after, ok2 := at[row+signStep]
			here, ok = after-before, ok1 && ok2
		}
		if ok {
			x, y = append(x, xs[k]), append(y, here)
		}
	}
	if r := statistic.Correlation(x, y); len(x) >= 50 && r < -0.5 {
		guesses[i].flip(fmt.Sprintf("it runs against %s (correlation %.2f), so one of the two signs is wrong; this one is flipped", other, r))
	}
}

// signStep is how many rows lie on each side of a difference: enough to rise above noise at 50 Hz.
const signStep = 5

func (g *Guess) flip(why string) {
	g.Sign = -g.Sign
	g.Sure = guessed
	g.Why += "; " + why
}
