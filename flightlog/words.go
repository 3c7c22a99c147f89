package flightlog

import (
	"strings"
	"unicode"

	"wingproof/flightlog/unit"
)

// headWords splits a head into lower-case words and the unit that stands in its brackets. Words end at blanks,
// marks, digits and a capital behind a small letter: "gyroY [deg/s]" holds gyro, y and the unit deg/s.
func headWords(head string) (words []string, bracket string) {
	if i := strings.IndexAny(head, "[({"); i >= 0 {
		if j := strings.IndexAny(head[i:], "])}"); j > 0 {
			bracket = strings.TrimSpace(head[i+1 : i+j])
			head = head[:i] + " " + head[i+j+1:]
		}
	}
	var word strings.Builder
	flush := func() {
		if word.Len() > 0 {
			words = append(words, strings.ToLower(word.String()))
			word.Reset()
		}
	}
	small := false
	for _, r := range head {
		if !unicode.IsLetter(r) {
			flush()
			small = false
			continue
		}
		if unicode.IsUpper(r) && small {
			flush()
		}
		small = unicode.IsLower(r)
		word.WriteRune(r)
	}
	flush()
	// a head without blanks or marks is a word as a whole too, whatever its capitals: AoA
	if whole := strings.TrimSpace(head); len(words) > 1 && strings.IndexFunc(whole, func(r rune) bool { return !unicode.IsLetter(r) }) < 0 {
		words = append(words, strings.ToLower(whole))
	}
	return words, bracket
}

// suffixUnit finds a unit written as the tail of a head, as in speed_kt, wing temp C or pitch_rate_deg_s.
func suffixUnit(head string, d unit.Dimension) (unit.Unit, bool) {
	parts := strings.FieldsFunc(head, func(r rune) bool { return strings.ContainsRune(" _-./", r) })
	for n := min(3, len(parts)-1); n > 0; n-- {
		if u, ok := unit.Lookup(strings.Join(parts[len(parts)-n:], "_"), d); ok {
			return u, true
		}
	}
	return unit.Unit{}, false
}

// rule ties words of the trade to a quantity: every group must have one of its words in the head, none of
// the words in not may be there. The first rule that fits decides.
type rule struct {
	is     Quantity
	all    []string // each a group of words split by blanks
	not    string
	strong bool // the words leave no other reading
}

const (
	rateWords  = "rate gyro gyroscope omega angular angularrate angvel w"
	forceWords = "acc accel acceleration accelerometer specific a f"
	notAir     = "board cpu motor esc battery cell servo receiver"
)

// rules holds general words of flight testing, most telling ones first.
func rules() []rule {
	return []rule{
		{RudderLeft, []string{"rudder rud", "left l"}, "", true},
		{RudderRight, []string{"rudder rud", "right r"}, "", true},
		{AngleOfAttack, []string{"alpha aoa attack"}, "", true},
		{Sideslip, []string{"beta sideslip aos slip"}, "", true},
		{ClimbRate, []string{"climb climbrate vertical vario variometer vspeed", "rate speed climb climbrate vario variometer velocity vspeed"}, "acc accel acceleration", true},
		{RollRate, []string{"roll", rateWords}, "", true},
		{PitchRate, []string{"pitch", rateWords}, "", true},
		{YawRate, []string{"yaw", rateWords}, "", true},
		{RollRate, []string{rateWords + " rot", "x"}, "mag", true},
		{PitchRate, []string{rateWords + " rot", "y"}, "mag", true},
		{YawRate, []string{rateWords + " rot", "z"}, "mag", true},
		{RollRate, []string{"wx p gyrox"}, "static baro pressure", false},
		{PitchRate, []string{"wy q gyroy"}, "dynamic pressure", false},
		{YawRate, []string{"wz r gyroz"}, "", false},
		{ForwardAcceleration, []string{forceWords, "x forward longitudinal"}, "", true},
		{RightAcceleration, []string{forceWords, "y right lateral"}, "", true},
		{DownAcceleration, []string{forceWords, "z down normal"}, "", true},
		{ForwardAcceleration, []string{"ax fx accelx"}, "", false},
		{RightAcceleration, []string{"ay fy accely"}, "", false},
		{DownAcceleration, []string{"az fz accelz"}, "", false},
		{GroundTrack, []string{"track course"}, "", true},
		{GroundSpeed, []string{"ground gps", "speed velocity"}, "", true},
		{GroundSpeed, []string{"groundspeed gs"}, "", true},
		{Airspeed, []string{"airspeed ias cas pitot"}, "pressure", true},
		{Airspeed, []string{"air", "speed"}, "", true},
		{AirTemperature, []string{"temperature temp oat"}, notAir, false},
		{StaticPressure, []string{"static baro barometer barometric atmospheric ambient", "pressure press"}, "", true},
		{StaticPressure, []string{"pressure press static"}, "differential diff dynamic pitot fuel impact", false},
		{Altitude, []string{"altitude alt height"}, "gps satellite", true},
		{Elevator, []string{"elevator elev ele"}, "", true},
		{Aileron, []string{"aileron ail"}, "left right", true},
		{Throttle, []string{"throttle thr"}, "", true},
		{Heading, []string{"heading yaw psi hdg"}, "mag", true},
		{RollAngle, []string{"roll bank phi"}, "", true},
		{PitchAngle, []string{"pitch theta"}, "", true},
		{Airspeed, []string{"speed"}, "motor prop propeller", false},
	}
}

// quantityOf reads a quantity from the words of a head; empty when no rule fits.
func quantityOf(words []string) (q Quantity, strong bool) {
	have := map[string]bool{}
	for _, w := range words {
		have[w] = true
	}
	any := func(group string) bool {
		for _, w := range strings.Fields(group) {
			if have[w] {
				return true
			}
		}
		return false
	}
	// what somebody asked for, or how sure a number is, is no measurement
	if any("cmd command commanded setpoint target demand demanded desired trim error sd variance accuracy") {
		return "", false
	}
rules:
	for _, r := range rules() {
		if any(r.not) {
			continue
		}
		for _, group := range r.all {
			if !any(group) {
				continue rules
			}
		}
		return r.is, r.strong
	}
	return "", false
}

// isTimeHead tells whether the words of a head name time.
func isTimeHead(words []string) bool {
	for _, w := range words {
		switch w {
		case "time", "t", "timestamp", "clock", "utc", "elapsed", "seconds", "millis", "micros":
			return true
		}
	}
	return false
}
