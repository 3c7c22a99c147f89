package main

import (
	"fmt"
	"math"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
	"wingproof/flightlog/quality"
	"wingproof/flightlog/statistic"
)

// lookCalibration is how the sensors read at rest, and which calibrations the map holds.
type lookCalibration struct {
	Rest   *lookRest   `json:"rest"` // null when the model never stood still before the flight
	Servos []lookServo `json:"servos"`
}

// lookRest is what the sensors read while the model stood still. SI; null where the channel is not logged.
type lookRest struct {
	Start     float64  `json:"start_s"`
	End       float64  `json:"end_s"`
	Force     *float64 `json:"specific_force_m_s2"` // length; gravity is 9.80665
	RollRate  *float64 `json:"roll_rate_rad_s"`
	PitchRate *float64 `json:"pitch_rate_rad_s"`
	YawRate   *float64 `json:"yaw_rate_rad_s"`
	Airspeed  *float64 `json:"airspeed_m_s"`
	Roll      *float64 `json:"roll_angle_rad"`
	Pitch     *float64 `json:"pitch_angle_rad"`
}

// lookServo is how a control comes to its angle.
type lookServo struct {
	Control string `json:"control"`
	Words   string `json:"words"`
}

// A model counts as standing when for this long its gyros, forces and attitude scatter and drift by no more than these in each second:
// common practice, no source. They bound standard deviations and means, which do not grow with the rate of the log as the largest of
// its samples does; a mean may drift by half as much.
const (
	restLeast = 3.0                 // s
	restRate  = 3 * math.Pi / 180   // rad/s
	restSpeed = 3.0                 // m/s; wind on the tube reads as much
	restForce = 0.6                 // m/s²
	restMost  = 1.5 * math.Pi / 180 // rad of attitude
)

// calibration looks at the ground before the flight, and at the map.
func (l *look) calibration() lookCalibration {
	out := lookCalibration{Servos: []lookServo{}}
	if start, end, ok := l.restBefore(); ok {
		out.Rest = l.restOver(start, end)
	}
	mapped := map[flightlog.Quantity]flightlog.Column{}
	for _, c := range l.logger.Columns {
		mapped[c.Is] = c
	}
	for _, q := range []flightlog.Quantity{flightlog.Elevator, flightlog.Aileron, flightlog.RudderLeft, flightlog.RudderRight, flightlog.Throttle} {
		out.Servos = append(out.Servos, lookServo{string(q), servoWords(mapped, q)})
	}
	return out
}

func servoWords(mapped map[flightlog.Quantity]flightlog.Column, q flightlog.Quantity) string {
	c, ok := mapped[q]
	if n := len(c.Calibration); ok && n > 0 {
		first, last := c.Calibration[0], c.Calibration[n-1]
		return fmt.Sprintf("calibration of %d points, %g to %g %s over %g to %g in column %q", n, first[1], last[1], c.Unit, first[0], last[0], c.Column)
	}
	if ok {
		return fmt.Sprintf("no calibration: column %q is taken as it is, in %s", c.Column, c.Unit)
	}
	return "not in the logger map"
}

// restBefore is the longest stretch before the flight in which the model stood still. It goes from sample to sample, never by
// the clock alone: one wrong time would make that endless.
func (l *look) restBefore() (start, end float64, ok bool) {
	if quality.ClockRefused(l.recording) {
		return 0, 0, false
	}
	take := l.flying()
	until := math.Inf(1)
	if take.seconds > 0 {
		until = take.start
	}
	c := l.recording.Channels[flightlog.DownAcceleration]
	if len(c.Time) == 0 {
		c = l.recording.Channels[flightlog.PitchRate]
	}
	if len(c.Time) == 0 {
		return 0, 0, false
	}
	const second, pause = 1.0, 2.0 // s; behind a longer pause nobody knows that it stood still
	until = math.Min(until, c.Time[len(c.Time)-1])
	from := c.Time[0]
	best := 0.0
	for i := 0; i < len(c.Time) && c.Time[i]+second <= until+1e-9; {
		t := c.Time[i]
		next := max(i+1, firstAt(c.Time, t+second-1e-9))
		if next < len(c.Time) && c.Time[next]-t > pause {
			from = c.Time[next]
		} else if !l.still(t, t+second) {
			from = t + second
		} else if length := t + second - from; length > best {
			start, end, best = from, t+second, length
		}
		i = next
	}
	return start, end, best >= restLeast
}

// still tells whether nothing moved over a second.
func (l *look) still(start, end float64) bool {
	for _, limit := range []struct {
		q    flightlog.Quantity
		most float64
	}{{flightlog.RollRate, restRate}, {flightlog.PitchRate, restRate}, {flightlog.YawRate, restRate}, {flightlog.ForwardAcceleration, restForce},
		{flightlog.DownAcceleration, restForce}, {flightlog.RollAngle, restMost}, {flightlog.PitchAngle, restMost}} {
		if !calm(within(l.recording.Channels[limit.q], start, end), limit.most) {
			return false
		}
	}
	for _, q := range []flightlog.Quantity{flightlog.Airspeed, flightlog.GroundSpeed} {
		if x := within(l.recording.Channels[q], start, end); len(x) > 0 && statistic.Median(x) > restSpeed {
			return false
		}
	}
	return true
}

// calm tells whether samples scatter by no more than most, and drift by no more than half of it from the first half to the second
// beyond what their scatter does by chance.
func calm(x []float64, most float64) bool {
	if len(x) < 2 {
		return true
	}
	_, sd := meanAndSD(x)
	half := len(x) / 2
	first, _ := meanAndSD(x[:half])
	second, _ := meanAndSD(x[half:])
	const chance = 2.0 // standard deviations of the difference of two means
	return sd <= most && math.Abs(second-first) <= most/2+chance*sd*math.Sqrt(1/float64(half)+1/float64(len(x)-half))
}

func meanAndSD(x []float64) (mean, sd float64) {
	for _, v := range x {
		mean += v / float64(len(x))
	}
	for _, v := range x {
		sd += (v - mean) * (v - mean) / float64(len(x))
	}
	return mean, math.Sqrt(sd)
}

// within are the samples of a channel over a time.
func within(c flightlog.Channel, start, end float64) []float64 {
	i := firstAt(c.Time, start)
	j := firstAt(c.Time, end)
	return c.Value[i:j]
}

// firstAt is the index of the first time that is not before t.
func firstAt(times []float64, t float64) int {
	low, high := 0, len(times)
	for low < high {
		if middle := (low + high) / 2; times[middle] < t {
			low = middle + 1
		} else {
			high = middle
		}
	}
	return low
}

// restOver averages what stood still.
func (l *look) restOver(start, end float64) *lookRest {
	mean := func(q flightlog.Quantity) *float64 {
		x := within(l.recording.Channels[q], start, end)
		if len(x) == 0 {
			return nil
		}
		sum := 0.0
		for _, v := range x {
			sum += v
		}
		sum /= float64(len(x))
		if !statistic.Finite(sum) {
			return nil
		}
		return &sum
	}
	r := &lookRest{Start: start, End: end, RollRate: mean(flightlog.RollRate), PitchRate: mean(flightlog.PitchRate), YawRate: mean(flightlog.YawRate),
		Airspeed: mean(flightlog.Airspeed), Roll: mean(flightlog.RollAngle), Pitch: mean(flightlog.PitchAngle)}
	x, y, z := mean(flightlog.ForwardAcceleration), mean(flightlog.RightAcceleration), mean(flightlog.DownAcceleration)
	if x != nil && z != nil {
		side := 0.0
		if y != nil {
			side = *y
		}
		if length := math.Hypot(math.Hypot(*x, side), *z); statistic.Finite(length) {
			r.Force = &length
		}
	}
	return r
}

// words say what the rest shows, with what follows where a sensor is far off.
func (r lookRest) words() []string {
	const degree = math.Pi / 180
	lines := []string{fmt.Sprintf("the model stood still from %.0f to %.0f s:", r.Start, r.End)}
	if r.Force != nil {
		line := fmt.Sprintf("specific force %.3f m/s² where gravity is %.3f (%+.1f %%)", *r.Force, atmosphere.Gravity, 100*(*r.Force/atmosphere.Gravity-1))
		if math.Abs(*r.Force/atmosphere.Gravity-1) > 0.02 {
			line += ": more than 2 % off, lift will be as far off; calibrate the accelerometers"
		}
		lines = append(lines, line)
	}
	if r.RollRate != nil || r.PitchRate != nil || r.YawRate != nil {
		line := "gyros read"
		for _, g := range []struct {
			name string
			v    *float64
		}{{"roll", r.RollRate}, {"pitch", r.PitchRate}, {"yaw", r.YawRate}} {
			if g.v != nil {
				line += fmt.Sprintf(" %s %+.2f,", g.name, *g.v/degree)
			}
		}
		lines = append(lines, line[:len(line)-1]+" °/s")
	}
	if r.Airspeed != nil {
		lines = append(lines, fmt.Sprintf("airspeed %.1f m/s", *r.Airspeed))
	}
	if r.Pitch != nil && r.Roll != nil {
		lines = append(lines, fmt.Sprintf("attitude: nose %+.1f°, bank %+.1f°", *r.Pitch/degree, *r.Roll/degree))
	}
	return lines
}
