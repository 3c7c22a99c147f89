package main

import (
	"fmt"
	"math"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
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

// A model counts as standing when for this long its gyros and its speed stay below these: common practice, no source.
const (
	restLeast = 3.0                 // s
	restRate  = 3 * math.Pi / 180   // rad/s about the middle
	restSpeed = 3.0                 // m/s; wind on the tube reads as much
	restForce = 0.6                 // m/s² about the middle
	restMost  = 1.5 * math.Pi / 180 // rad of attitude about the middle
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

// restBefore is the longest stretch before the flight in which the model stood still.
func (l *look) restBefore() (start, end float64, ok bool) {
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
	from := c.Time[0]
	best := 0.0
	for t := from; t+1 <= math.Min(until, c.Time[len(c.Time)-1])+1e-9; t++ {
		if !l.still(t, t+1) {
			from = t + 1
			continue
		}
		if t+1-from > best {
			start, end, best = from, t+1, t+1-from
		}
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
		x := within(l.recording.Channels[limit.q], start, end)
		middle := statistic.Median(x)
		for _, v := range x {
			if math.Abs(v-middle) > limit.most {
				return false
			}
		}
	}
	for _, q := range []flightlog.Quantity{flightlog.Airspeed, flightlog.GroundSpeed} {
		if x := within(l.recording.Channels[q], start, end); len(x) > 0 && statistic.Median(x) > restSpeed {
			return false
		}
	}
	return true
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
		length := math.Sqrt(*x**x + side*side + *z**z)
		r.Force = &length
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
