package flightlog

import "strings"

// rule ties words of the trade to a quantity: every group must have one of its words in the head, none of
// the words in not may be there. The first rule that fits decides.
type rule struct {
	is      Quantity
	all     []string // each a group of words split by blanks
	not     string
	strong  bool // the words leave no other reading
	against bool // the words name the opposite direction
}

// Groups of words that several rules share.
const (
	rateWords  = "rate gyro gyroscope omega angular angularrate angvel w drehrate"
	forceWords = "acc accel acceleration accelerometer specific a f beschleunigung beschl"
	notAir     = "board cpu motor esc battery cell servo receiver box intern innen"
	notTrue    = "true tas pressure druck motor prop propeller wind rotor"
)

// rules holds general words of flight testing in English and German (DIN 9300 uses the latter), most telling ones first.
func rules() []rule {
	return append(strongRules(), weakRules()...)
}

func strongRules() []rule {
	return []rule{
		{is: RudderLeft, all: []string{"rudder rud seitenruder", "left l links li"}, strong: true},
		{is: RudderRight, all: []string{"rudder rud seitenruder", "right r rechts re"}, strong: true},
		{is: AngleOfAttack, all: []string{"alpha aoa attack anstellwinkel"}, strong: true},
		{is: Sideslip, all: []string{"beta sideslip aos slip schiebewinkel"}, strong: true},
		{is: ClimbRate, all: []string{"sink sinkrate sinken", "sink sinkrate sinken rate speed velocity"}, strong: true, against: true},
		{is: ClimbRate, all: []string{"climb climbrate vertical vario variometer vspeed steigen steigrate steiggeschwindigkeit",
			"rate speed climb climbrate vario variometer velocity vspeed steigen steigrate steiggeschwindigkeit"}, not: "acc accel acceleration", strong: true},
		{is: RollRate, all: []string{"roll", rateWords}, strong: true},
		{is: PitchRate, all: []string{"pitch", rateWords}, strong: true},
		{is: YawRate, all: []string{"yaw", rateWords}, strong: true},
		{is: RollRate, all: []string{"rollrate rollgeschwindigkeit"}, strong: true},
		{is: PitchRate, all: []string{"nickrate nickgeschwindigkeit"}, strong: true},
		{is: YawRate, all: []string{"gierrate giergeschwindigkeit"}, strong: true},
		{is: RollRate, all: []string{rateWords + " rot", "x"}, not: "mag", strong: true},
		{is: PitchRate, all: []string{rateWords + " rot", "y"}, not: "mag", strong: true},
		{is: YawRate, all: []string{rateWords + " rot", "z"}, not: "mag", strong: true},
		{is: ForwardAcceleration, all: []string{forceWords, "x forward longitudinal längs vorn"}, strong: true},
		{is: RightAcceleration, all: []string{forceWords, "left links"}, strong: true, against: true},
		{is: RightAcceleration, all: []string{forceWords, "y right lateral quer rechts"}, strong: true},
		{is: DownAcceleration, all: []string{forceWords, "up hoch oben"}, strong: true, against: true},
		{is: DownAcceleration, all: []string{forceWords, "z down normal vertical unten"}, strong: true},
		{is: GroundTrack, all: []string{"track course"}, strong: true},
		{is: GroundTrack, all: []string{"kurs", "grund"}, strong: true},
		{is: GroundSpeed, all: []string{"ground gps grund sat satellite gnss", "speed velocity geschwindigkeit"}, strong: true},
		{is: GroundSpeed, all: []string{"groundspeed gs grundgeschwindigkeit"}, strong: true},
		{is: Airspeed, all: []string{"airspeed ias cas pitot fahrt fluggeschwindigkeit"}, not: notTrue, strong: true},
		{is: Airspeed, all: []string{"air", "speed"}, not: notTrue, strong: true},
		{is: AirTemperature, all: []string{"outside air ambient oat außenlufttemperatur außentemperatur lufttemperatur aussentemperatur",
			"temperature temp oat außenlufttemperatur außentemperatur lufttemperatur aussentemperatur"}, not: notAir, strong: true},
		{is: StaticPressure, all: []string{"static baro barometer barometric atmospheric ambient", "pressure press"}, strong: true},
		{is: StaticPressure, all: []string{"luftdruck statikdruck"}, strong: true},
		{is: Altitude, all: []string{"altitude alt height höhe flughöhe hoehe"}, not: "gps satellite sat gnss", strong: true},
		{is: Elevator, all: []string{"elevator elev ele höhenruder hoehenruder"}, strong: true},
		{is: Aileron, all: []string{"aileron ail querruder"}, not: "left right l r links rechts", strong: true},
		{is: Throttle, all: []string{"throttle thr drossel"}, strong: true},
		{is: Heading, all: []string{"heading hdg steuerkurs yaw psi gierwinkel"}, not: "mag", strong: true},
		{is: RollAngle, all: []string{"roll bank phi rollwinkel querlage querneigung hängewinkel"}, strong: true},
		{is: PitchAngle, all: []string{"pitch theta nickwinkel längsneigung"}, strong: true},
	}
}

// weakRules have other readings too, so that the unit or the numbers must speak for them.
func weakRules() []rule {
	return []rule{
		{is: RollRate, all: []string{"wx p gyrox"}, not: "static baro pressure"},
		{is: PitchRate, all: []string{"wy q gyroy"}, not: "dynamic pressure"},
		{is: YawRate, all: []string{"wz r gyroz"}},
		{is: ForwardAcceleration, all: []string{"ax fx accelx nx"}},
		{is: RightAcceleration, all: []string{"ay fy accely ny"}},
		{is: DownAcceleration, all: []string{"az fz accelz nz"}},
		{is: AirTemperature, all: []string{"temperature temp temperatur t"}, not: notAir},
		{is: StaticPressure, all: []string{"pressure press static baro druck p"}, not: "differential diff dynamic pitot fuel impact"},
		{is: Elevator, all: []string{"de"}},
		{is: Aileron, all: []string{"da"}},
		{is: RudderLeft, all: []string{"rudder rud seitenruder dr"}},
		{is: Throttle, all: []string{"gas motor"}, not: "temp temperature rpm"},
		{is: Heading, all: []string{"kurs"}},
		{is: Altitude, all: []string{"h"}},
		{is: Airspeed, all: []string{"speed v geschwindigkeit tube staurohr"}, not: notTrue},
	}
}

// words is the words of one head, for rules to look into.
type words map[string]bool

// of adds the words of a head.
func (w words) of(head []string) words {
	for _, one := range head {
		w[one] = true
	}
	return w
}

// any tells whether one of a group's words is there.
func (w words) any(group string) bool {
	for _, one := range strings.Fields(group) {
		if w[one] {
			return true
		}
	}
	return false
}

func (w words) fit(r rule) bool {
	if w.any(r.not) {
		return false
	}
	for _, group := range r.all {
		if !w.any(group) {
			return false
		}
	}
	return true
}

// readings lists the rules that the words of a head fit: one that leaves no other reading, else all the weak ones.
func readings(head []string) []rule {
	w := words{}.of(head)
	// what somebody asked for, or how sure a number is, is no measurement
	if w.any("cmd command commanded setpoint target demand demanded desired trim error sd variance accuracy stick soll vorgabe ziel") {
		return nil
	}
	var out []rule
	for _, r := range rules() {
		if !w.fit(r) {
			continue
		}
		if out = append(out, r); r.strong {
			return out
		}
	}
	return out
}

// quantityOf reads a quantity from the words of a head; empty when no rule fits.
func quantityOf(head []string) Quantity {
	if found := readings(head); len(found) > 0 {
		return found[0].is
	}
	return ""
}
