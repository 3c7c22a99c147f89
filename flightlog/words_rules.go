package flightlog

import "strings"

// rule ties words of the trade to a quantity: every group must have one of its words in the head, none of
// the words in not may be there. The first rule that fits decides.
type rule struct {
	is      Quantity
	all     []string // each a group of words split by blanks
	not     string
	with    string // further words that change nothing
	strong  bool   // the words leave no other reading
	against bool   // the words name the opposite direction
	byUnit  bool   // holds only where a unit of the quantity is written
}

// Groups of words that several rules share.
const (
	rateWords   = "rate gyro gyroscope omega angular angularrate angvel w drehrate drehgeschwindigkeit winkelgeschwindigkeit"
	forceWords  = "acc accel acceleration accelerometer specific a f beschleunigung beschl"
	notAir      = "board cpu motor esc battery cell servo receiver box intern innen"
	overGround  = "ground grund gps sat satellite gnss"
	notTrue     = "true tas wahre pressure druck motor prop propeller wind rotor boden over über ueber " + overGround
	leftWords   = "left l links li port backbord"
	rightWords  = "right r rechts re starboard stbd steuerbord"
	speedWords  = "speed velocity geschwindigkeit"
	rudderWords = "rudder rud seitenruder"
)

// rules holds general words of flight testing in English and German (DIN 9300 uses the latter), most telling ones first.
func rules() []rule {
	return append(strongRules(), weakRules()...)
}

func strongRules() []rule {
	return []rule{
		{is: RudderLeft, all: []string{rudderWords, leftWords}, strong: true},
		{is: RudderRight, all: []string{rudderWords, rightWords}, strong: true},
		{is: AngleOfAttack, all: []string{"alpha aoa attack anstellwinkel"}, strong: true},
		{is: Sideslip, all: []string{"beta sideslip aos slip schiebewinkel"}, strong: true},
		{is: ClimbRate, all: []string{"sink sinkrate sinken", "sink sinkrate sinken rate speed velocity"}, strong: true, against: true},
		{is: ClimbRate, all: []string{"climb climbrate vertical vario variometer vspeed steigen steigrate steiggeschwindigkeit",
			"rate speed climb climbrate vario variometer velocity vspeed steigen steigrate steiggeschwindigkeit"}, not: "acc accel acceleration", strong: true},
		{is: RollRate, all: []string{"roll rollen", rateWords}, strong: true},
		{is: PitchRate, all: []string{"pitch nick nicken", rateWords}, strong: true},
		{is: YawRate, all: []string{"yaw gier gieren", rateWords}, strong: true},
		{is: RollRate, all: []string{"rollrate rollgeschwindigkeit"}, strong: true},
		{is: PitchRate, all: []string{"nickrate nickgeschwindigkeit"}, strong: true},
		{is: YawRate, all: []string{"gierrate giergeschwindigkeit"}, strong: true},
		{is: RollRate, all: []string{rateWords + " rot", "x"}, not: "mag", strong: true},
		{is: PitchRate, all: []string{rateWords + " rot", "y"}, not: "mag", strong: true},
		{is: YawRate, all: []string{rateWords + " rot", "z"}, not: "mag", strong: true},
		{is: ForwardAcceleration, all: []string{forceWords, "aft backward rearward hinten"}, strong: true, against: true},
		{is: ForwardAcceleration, all: []string{forceWords, "x forward forwards fwd ahead longitudinal längs laengs vorn vorne vorwärts"}, strong: true},
		{is: RightAcceleration, all: []string{forceWords, "left links port backbord"}, with: "wing", strong: true, against: true},
		{is: RightAcceleration, all: []string{forceWords, "y right lateral quer rechts starboard stbd steuerbord"}, with: "wing", strong: true},
		{is: DownAcceleration, all: []string{forceWords, "up hoch oben"}, strong: true, against: true},
		{is: DownAcceleration, all: []string{forceWords, "z down normal vertical unten"}, strong: true},
		{is: GroundTrack, all: []string{"track course"}, with: "over angle " + overGround, strong: true},
		{is: GroundTrack, all: []string{"kurs", "grund"}, with: "über ueber", strong: true},
		{is: GroundSpeed, all: []string{overGround, speedWords + " fahrt"}, with: "over über ueber", not: "vertical wind", strong: true},
		{is: GroundSpeed, all: []string{"groundspeed gs grundgeschwindigkeit"}, strong: true},
		{is: Airspeed, all: []string{"airspeed ias cas pitot fahrt fluggeschwindigkeit staudruckfahrt eigengeschwindigkeit"}, with: "indicated calibrated angezeigt " + speedWords, not: notTrue, strong: true},
		{is: Airspeed, all: []string{"air", "speed"}, with: "indicated calibrated", not: notTrue, strong: true},
		{is: AirTemperature, all: []string{"outside air ambient oat außenlufttemperatur außentemperatur lufttemperatur aussentemperatur",
			"temperature temp oat außenlufttemperatur außentemperatur lufttemperatur aussentemperatur"}, not: notAir, strong: true},
		{is: StaticPressure, all: []string{"static baro barometer barometric atmospheric ambient statisch statischer", "pressure press druck"}, strong: true},
		{is: StaticPressure, all: []string{"luftdruck statikdruck"}, strong: true},
		{is: Altitude, all: []string{"altitude alt height höhe flughöhe hoehe"}, with: "agl press pressure baro barometric barometrisch above over über ueber field platz ground grund",
			not: "gps satellite sat gnss", strong: true},
		{is: Elevator, all: []string{"elevator elev ele höhenruder hoehenruder"}, strong: true},
		{is: Aileron, all: []string{"aileron ail querruder"}, not: "left right l r links rechts port starboard stbd backbord steuerbord", strong: true},
		{is: Throttle, all: []string{"throttle thr drossel"}, strong: true},
		{is: Heading, all: []string{"heading hdg steuerkurs yaw psi gierwinkel"}, with: "true", not: "mag", strong: true},
		{is: RollAngle, all: []string{"roll bank phi rollwinkel querlage querneigung hängewinkel"}, strong: true},
		{is: PitchAngle, all: []string{"pitch theta nickwinkel längsneigung laengsneigung"}, strong: true},
	}
}

// weakRules have other readings too, so that the unit or the numbers must speak for them.
func weakRules() []rule {
	return append(unitRules(), []rule{
		{is: RollRate, all: []string{"wx p gyrox"}, not: "static baro pressure"},
		{is: PitchRate, all: []string{"wy q gyroy"}, not: "dynamic pressure"},
		{is: YawRate, all: []string{"wz r gyroz"}},
		{is: ForwardAcceleration, all: []string{"ax fx accelx nx"}},
		{is: RightAcceleration, all: []string{"ay fy accely ny"}},
		{is: DownAcceleration, all: []string{"az fz accelz nz"}},
		{is: AirTemperature, all: []string{"temperature temp temperatur t"}, not: notAir},
		{is: StaticPressure, all: []string{"pressure press static baro druck p"}, not: "differential diff dynamic pitot fuel impact total gesamt differenz"},
		{is: Elevator, all: []string{"de"}},
		{is: Aileron, all: []string{"da"}},
		{is: RudderLeft, all: []string{rudderWords + " dr"}, not: rightWords},
		{is: Throttle, all: []string{"gas motor"}, not: "temp temperature rpm"},
		{is: Heading, all: []string{"kurs compass kompass"}, not: "grund ground"},
		{is: Altitude, all: []string{"h"}},
		{is: Airspeed, all: []string{"speed v geschwindigkeit tube staurohr"}, not: notTrue},
	}...)
}

// unitRules hold where a unit of the quantity is written beside the words: a pitch speed in degrees a second is a rate, and whatever is
// over ground in knots is the ground speed.
func unitRules() []rule {
	const notRate = "angle winkel attitude att euler"
	return []rule{
		{is: RollRate, all: []string{"roll rollen"}, with: speedWords, not: notRate, strong: true, byUnit: true},
		{is: PitchRate, all: []string{"pitch nick nicken"}, with: speedWords, not: notRate, strong: true, byUnit: true},
		{is: YawRate, all: []string{"yaw gier gieren"}, with: speedWords, not: notRate, strong: true, byUnit: true},
		{is: AirTemperature, all: []string{"outside ambient außen aussen", "outside air ambient luft außen aussen"}, not: notAir, strong: true, byUnit: true},
		{is: GroundSpeed, all: []string{"over über ueber", "ground grund"}, not: "vertical wind", strong: true, byUnit: true},
		{is: GroundTrack, all: []string{"weg richtung", "grund"}, with: "über ueber", strong: true, byUnit: true},
		{is: GroundTrack, all: []string{"made", "good"}, strong: true, byUnit: true},
		{is: PitchAngle, all: []string{"nose nase", "above up horizon über hoch horizont"}, byUnit: true},
		{is: RollAngle, all: []string{"rollen"}, byUnit: true},
		{is: PitchAngle, all: []string{"nick nicken"}, byUnit: true},
		{is: Heading, all: []string{"gier gieren"}, byUnit: true},
		{is: Throttle, all: []string{"power leistung"}, not: "battery motor electric", byUnit: true},
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

// readings lists the rules that the words of a head fit: the first that leaves no other reading, with those that a unit may speak for, else all
// the weak ones.
func readings(head []string) []rule {
	w := words{}.of(head)
	// what somebody asked for, or how sure a number is, is no measurement
	if w.any("cmd command commanded setpoint target demand demanded desired trim error sd variance accuracy stick soll vorgabe ziel") {
		return nil
	}
	var out []rule
	plain := false // a strong rule that needs no unit is there
	for _, r := range rules() {
		if !w.fit(r) || plain && !r.byUnit {
			continue
		}
		out = append(out, r)
		plain = plain || r.strong && !r.byUnit
	}
	return out
}

// quantityOf reads a quantity from the words of a head without its unit; empty when no rule fits.
func quantityOf(head []string) Quantity {
	for _, r := range readings(head) {
		if !r.byUnit {
			return r.is
		}
	}
	return ""
}
