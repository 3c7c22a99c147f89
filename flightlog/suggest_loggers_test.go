package flightlog_test

import (
	"fmt"
	"math"
	"strconv"

	"wingproof/flightlog"
	"wingproof/flightlog/unit"
)

// cellOf is how an invented logger writes one column: the head, what it holds, in which unit, and which way round.
type cellOf struct {
	head  string
	is    flightlog.Quantity // empty: a column that means nothing to a map
	unit  string             // of the table of units; pulse: µs about 1500
	sign  float64            // 0 counts as 1
	times float64            // further factor of the number, 0 counts as 1
	half  bool               // a heading from −180 to 180°
	table unit.Unit          // looked up once
}

// dialect is an invented logger with heads of its own.
type dialect struct {
	name      string
	separator string
	comma     bool // decimal
	time      string
	clock     func(t float64) string
	timeUnit  string
	units     []string // a row of units below the heads
	columns   []cellOf
}

func seconds(t float64) string { return strconv.FormatFloat(t, 'f', 3, 64) }
func millis(t float64) string  { return strconv.FormatFloat(1000*t, 'f', 0, 64) }
func micros(t float64) string  { return strconv.FormatFloat(1e6*t+88_000_000, 'f', 0, 64) }
func ofDay(t float64) string {
	t += 14*3600 + 3*60 + 7.5
	return fmt.Sprintf("%02d:%02d:%06.3f", int(t)/3600, int(t)/60%60, math.Mod(t, 60))
}

// dialects are the invented loggers that the suggestion was made for.
func dialects() []dialect {
	return []dialect{
		{name: "words and units", separator: ",", time: "elapsed [s]", clock: seconds, timeUnit: "s", columns: []cellOf{
			{"roll rate [deg/s]", flightlog.RollRate, "deg_s", 1, 0, false, unit.Unit{}}, {"pitch rate [deg/s]", flightlog.PitchRate, "deg_s", 1, 0, false, unit.Unit{}}, {"yaw rate [deg/s]", flightlog.YawRate, "deg_s", 1, 0, false, unit.Unit{}},
			{"accel forward [m/s²]", flightlog.ForwardAcceleration, "m_s2", 1, 0, false, unit.Unit{}}, {"accel right [m/s²]", flightlog.RightAcceleration, "m_s2", 1, 0, false, unit.Unit{}}, {"accel down [m/s²]", flightlog.DownAcceleration, "m_s2", 1, 0, false, unit.Unit{}},
			{"bank [deg]", flightlog.RollAngle, "deg", 1, 0, false, unit.Unit{}}, {"pitch [deg]", flightlog.PitchAngle, "deg", 1, 0, false, unit.Unit{}}, {"heading [deg]", flightlog.Heading, "deg", 1, 0, false, unit.Unit{}},
			{"airspeed [m/s]", flightlog.Airspeed, "m_s", 1, 0, false, unit.Unit{}}, {"static pressure [hPa]", flightlog.StaticPressure, "hpa", 1, 0, false, unit.Unit{}}, {"outside temperature [°C]", flightlog.AirTemperature, "c", 1, 0, false, unit.Unit{}},
			{"altitude [m]", flightlog.Altitude, "m", 1, 0, false, unit.Unit{}}, {"ground speed [m/s]", flightlog.GroundSpeed, "m_s", 1, 0, false, unit.Unit{}}, {"ground track [deg]", flightlog.GroundTrack, "deg", 1, 0, false, unit.Unit{}}, {"climb rate [m/s]", flightlog.ClimbRate, "m_s", 1, 0, false, unit.Unit{}},
			{"elevator [deg]", flightlog.Elevator, "deg", 1, 0, false, unit.Unit{}}, {"aileron [deg]", flightlog.Aileron, "deg", 1, 0, false, unit.Unit{}}, {"left rudder [deg]", flightlog.RudderLeft, "deg", 1, 0, false, unit.Unit{}}, {"right rudder [deg]", flightlog.RudderRight, "deg", 1, 0, false, unit.Unit{}}, {"throttle [%]", flightlog.Throttle, "percent", 1, 0, false, unit.Unit{}},
			{"battery [V]", "", "", 1, 0, false, unit.Unit{}}, {"satellites", "", "", 1, 0, false, unit.Unit{}}}},
		{name: "German words, decimal comma, time of day, upwards axes", separator: ";", comma: true, time: "Uhrzeit", clock: ofDay, timeUnit: "iso", columns: []cellOf{
			{"Drehrate x (°/s)", flightlog.RollRate, "deg_s", 1, 0, false, unit.Unit{}}, {"Drehrate y (°/s)", flightlog.PitchRate, "deg_s", -1, 0, false, unit.Unit{}}, {"Drehrate z (°/s)", flightlog.YawRate, "deg_s", -1, 0, false, unit.Unit{}},
			{"Beschleunigung x (g)", flightlog.ForwardAcceleration, "gee", 1, 0, false, unit.Unit{}}, {"Beschleunigung y (g)", flightlog.RightAcceleration, "gee", -1, 0, false, unit.Unit{}}, {"Beschleunigung z (g)", flightlog.DownAcceleration, "gee", -1, 0, false, unit.Unit{}},
			{"Rollwinkel (°)", flightlog.RollAngle, "deg", 1, 0, false, unit.Unit{}}, {"Nickwinkel (°)", flightlog.PitchAngle, "deg", 1, 0, false, unit.Unit{}}, {"Steuerkurs (°)", flightlog.Heading, "deg", 1, 0, false, unit.Unit{}},
			{"Fahrt (km/h)", flightlog.Airspeed, "km_h", 1, 0, false, unit.Unit{}}, {"Luftdruck (hPa)", flightlog.StaticPressure, "hpa", 1, 0, false, unit.Unit{}}, {"Lufttemperatur (°C)", flightlog.AirTemperature, "c", 1, 0, false, unit.Unit{}},
			{"Höhe (m)", flightlog.Altitude, "m", 1, 0, false, unit.Unit{}}, {"Geschwindigkeit über Grund (km/h)", flightlog.GroundSpeed, "km_h", 1, 0, false, unit.Unit{}}, {"Kurs über Grund (°)", flightlog.GroundTrack, "deg", 1, 0, false, unit.Unit{}}, {"Sinken (m/s)", flightlog.ClimbRate, "m_s", -1, 0, false, unit.Unit{}},
			{"Höhenruder (µs)", flightlog.Elevator, "pulse", 1, 0, false, unit.Unit{}}, {"Querruder (µs)", flightlog.Aileron, "pulse", 1, 0, false, unit.Unit{}}, {"Seitenruder links (µs)", flightlog.RudderLeft, "pulse", 1, 0, false, unit.Unit{}}, {"Drossel (%)", flightlog.Throttle, "percent", 1, 0, false, unit.Unit{}},
			{"Soll Nickwinkel (°)", "", "deg", 1, 0, false, unit.Unit{}}}},
		{name: "terse letters without units", separator: ",", time: "t", clock: seconds, timeUnit: "s", columns: []cellOf{
			{"p", flightlog.RollRate, "deg_s", 1, 0, false, unit.Unit{}}, {"q", flightlog.PitchRate, "deg_s", 1, 0, false, unit.Unit{}}, {"r", flightlog.YawRate, "deg_s", 1, 0, false, unit.Unit{}},
			{"ax", flightlog.ForwardAcceleration, "gee", 1, 0, false, unit.Unit{}}, {"ay", flightlog.RightAcceleration, "gee", 1, 0, false, unit.Unit{}}, {"az", flightlog.DownAcceleration, "gee", -1, 0, false, unit.Unit{}},
			{"phi", flightlog.RollAngle, "rad", 1, 0, false, unit.Unit{}}, {"theta", flightlog.PitchAngle, "rad", 1, 0, false, unit.Unit{}}, {"psi", flightlog.Heading, "rad", 1, 0, false, unit.Unit{}},
			{"V", flightlog.Airspeed, "m_s", 1, 0, false, unit.Unit{}}, {"P", "", "", 1, 0, false, unit.Unit{}}, {"T", flightlog.AirTemperature, "c", 1, 0, false, unit.Unit{}}, {"h", flightlog.Altitude, "m", 1, 0, false, unit.Unit{}},
			{"de", flightlog.Elevator, "deg", 1, 0, false, unit.Unit{}}, {"da", flightlog.Aileron, "deg", 1, 0, false, unit.Unit{}}, {"thr", flightlog.Throttle, "share", 1, 0, false, unit.Unit{}}}},
		{name: "mixed units in a row below, milliseconds, reversed elevator", separator: "\t", time: "clock", clock: millis, timeUnit: "ms",
			units: []string{"ms", "rad/s", "rad/s", "rad/s", "ft/s²", "ft/s²", "ft/s²", "deg", "deg", "deg", "kt", "inHg", "°F", "ft", "kt", "deg", "ft/min", "deg", "deg", "deg", "-"}, columns: []cellOf{
				{"gyro_x", flightlog.RollRate, "rad_s", 1, 0, false, unit.Unit{}}, {"gyro_y", flightlog.PitchRate, "rad_s", 1, 0, false, unit.Unit{}}, {"gyro_z", flightlog.YawRate, "rad_s", 1, 0, false, unit.Unit{}},
				{"accel_x", flightlog.ForwardAcceleration, "ft_s2", 1, 0, false, unit.Unit{}}, {"accel_y", flightlog.RightAcceleration, "ft_s2", 1, 0, false, unit.Unit{}}, {"accel_z", flightlog.DownAcceleration, "ft_s2", 1, 0, false, unit.Unit{}},
				{"roll", flightlog.RollAngle, "deg", 1, 0, false, unit.Unit{}}, {"pitch", flightlog.PitchAngle, "deg", 1, 0, false, unit.Unit{}}, {"yaw", flightlog.Heading, "deg", 1, 0, false, unit.Unit{}},
				{"IAS", flightlog.Airspeed, "kt", 1, 0, false, unit.Unit{}}, {"baro pressure", flightlog.StaticPressure, "inhg", 1, 0, false, unit.Unit{}}, {"OAT", flightlog.AirTemperature, "f", 1, 0, false, unit.Unit{}},
				{"baro alt", flightlog.Altitude, "ft", 1, 0, false, unit.Unit{}}, {"GS", flightlog.GroundSpeed, "kt", 1, 0, false, unit.Unit{}}, {"course", flightlog.GroundTrack, "deg", 1, 0, false, unit.Unit{}}, {"vertical speed", flightlog.ClimbRate, "ft_s", 1, 60, false, unit.Unit{}},
				{"elevator", flightlog.Elevator, "deg", -1, 0, false, unit.Unit{}}, {"aileron", flightlog.Aileron, "deg", 1, 0, false, unit.Unit{}}, {"rudder", flightlog.RudderLeft, "deg", 1, 0, false, unit.Unit{}}, {"throttle", flightlog.Throttle, "share", 1, 0, false, unit.Unit{}}}},
		{name: "a language that nobody knows", separator: ";", time: "nü [ms]", clock: millis, timeUnit: "ms", columns: []cellOf{
			{"vex [rad/s]", flightlog.RollRate, "rad_s", 1, 0, false, unit.Unit{}}, {"vey [rad/s]", flightlog.PitchRate, "rad_s", 1, 0, false, unit.Unit{}}, {"vez [rad/s]", flightlog.YawRate, "rad_s", 1, 0, false, unit.Unit{}},
			{"zug-1 [m/s²]", flightlog.ForwardAcceleration, "m_s2", 1, 0, false, unit.Unit{}}, {"zug-2 [m/s²]", flightlog.RightAcceleration, "m_s2", 1, 0, false, unit.Unit{}}, {"zug-3 [m/s²]", flightlog.DownAcceleration, "m_s2", 1, 0, false, unit.Unit{}},
			{"kippa [deg]", flightlog.RollAngle, "deg", 1, 0, false, unit.Unit{}}, {"nosu [deg]", flightlog.PitchAngle, "deg", 1, 0, false, unit.Unit{}}, {"nordo [deg]", flightlog.Heading, "deg", 1, 0, false, unit.Unit{}},
			{"luv [m/s]", flightlog.Airspeed, "m_s", 1, 0, false, unit.Unit{}}, {"tryk [Pa]", flightlog.StaticPressure, "pa", 1, 0, false, unit.Unit{}}, {"varmo [°C]", flightlog.AirTemperature, "c", 1, 0, false, unit.Unit{}},
			{"hupi [m]", flightlog.Altitude, "m", 1, 0, false, unit.Unit{}}, {"stigo [m/s]", flightlog.ClimbRate, "m_s", 1, 0, false, unit.Unit{}}, {"foreklap [µs]", flightlog.Elevator, "pulse", 1, 0, false, unit.Unit{}}, {"gazo [%]", flightlog.Throttle, "percent", 1, 0, false, unit.Unit{}}}},
		{name: "box on its side: axes exchanged, microseconds, pulses", separator: ",", time: "timestamp", clock: micros, timeUnit: "us", columns: []cellOf{
			{"gyro x dps", flightlog.PitchRate, "deg_s", 1, 0, false, unit.Unit{}}, {"gyro y dps", flightlog.RollRate, "deg_s", -1, 0, false, unit.Unit{}}, {"gyro z dps", flightlog.YawRate, "deg_s", 1, 0, false, unit.Unit{}},
			{"acc x m/s2", flightlog.DownAcceleration, "m_s2", -1, 0, false, unit.Unit{}}, {"acc y m/s2", flightlog.RightAcceleration, "m_s2", 1, 0, false, unit.Unit{}}, {"acc z m/s2", flightlog.ForwardAcceleration, "m_s2", 1, 0, false, unit.Unit{}},
			{"roll deg", flightlog.RollAngle, "deg", 1, 0, false, unit.Unit{}}, {"pitch deg", flightlog.PitchAngle, "deg", 1, 0, false, unit.Unit{}}, {"hdg deg", flightlog.Heading, "deg", 1, 0, false, unit.Unit{}},
			{"pitot speed", flightlog.Airspeed, "km_h", 1, 0, false, unit.Unit{}}, {"gps speed m/s", flightlog.GroundSpeed, "m_s", 1, 0, false, unit.Unit{}}, {"gps course deg", flightlog.GroundTrack, "deg", 1, 0, false, unit.Unit{}}, {"gps altitude m", "", "m", 1, 0, false, unit.Unit{}},
			{"baro hPa", flightlog.StaticPressure, "hpa", 1, 0, false, unit.Unit{}}, {"vario m/s", flightlog.ClimbRate, "m_s", 1, 0, false, unit.Unit{}},
			{"ele us", flightlog.Elevator, "pulse", 1, 0, false, unit.Unit{}}, {"ail us", flightlog.Aileron, "pulse", 1, 0, false, unit.Unit{}}, {"rud l us", flightlog.RudderLeft, "pulse", 1, 0, false, unit.Unit{}}, {"rud r us", flightlog.RudderRight, "pulse", 1, 0, false, unit.Unit{}}, {"thr us", flightlog.Throttle, "pulse", 1, 0, false, unit.Unit{}}}},
		{name: "wrong unit in the head, pitch nose down positive", separator: ";", comma: true, time: "Zeit s", clock: seconds, timeUnit: "s", columns: []cellOf{
			{"roll rate [rad/s]", flightlog.RollRate, "deg_s", 1, 0, false, unit.Unit{}}, {"pitch rate [deg/s]", flightlog.PitchRate, "deg_s", 1, 0, false, unit.Unit{}},
			{"acc x [g]", flightlog.ForwardAcceleration, "m_s2", 1, 0, false, unit.Unit{}}, {"acc z [m/s2]", flightlog.DownAcceleration, "m_s2", -1, 0, false, unit.Unit{}},
			{"roll [deg]", flightlog.RollAngle, "deg", 1, 0, false, unit.Unit{}}, {"pitch [deg]", flightlog.PitchAngle, "deg", -1, 0, false, unit.Unit{}}, {"heading [deg]", flightlog.Heading, "deg", 1, 0, false, unit.Unit{}},
			{"airspeed [kt]", flightlog.Airspeed, "m_s", 1, 0, false, unit.Unit{}}, {"ground speed [m/s]", flightlog.GroundSpeed, "m_s", 1, 0, false, unit.Unit{}}, {"track [deg]", flightlog.GroundTrack, "deg", 1, 0, false, unit.Unit{}},
			{"static pressure [Pa]", flightlog.StaticPressure, "hpa", 1, 0, false, unit.Unit{}}, {"altitude [m]", flightlog.Altitude, "m", 1, 0, false, unit.Unit{}}, {"climb rate [m/s]", flightlog.ClimbRate, "m_s", 1, 0, false, unit.Unit{}},
			{"elevator [deg]", flightlog.Elevator, "deg", 1, 0, false, unit.Unit{}}, {"aileron [%]", flightlog.Aileron, "deg", 1, 0, false, unit.Unit{}}, {"throttle [%]", flightlog.Throttle, "percent", 1, 0, false, unit.Unit{}}}},
	}
}

// strangers are invented loggers that were written down after the suggestion worked for those above.
func strangers() []dialect {
	return []dialect{
		{name: "French words", separator: ";", comma: true, time: "temps (ms)", clock: millis, timeUnit: "ms", columns: []cellOf{
			{head: "vitesse air (km/h)", is: flightlog.Airspeed, unit: "km_h"}, {head: "vitesse sol (km/h)", is: flightlog.GroundSpeed, unit: "km_h"}, {head: "cap (deg)", is: flightlog.Heading, unit: "deg"},
			{head: "assiette (deg)", is: flightlog.PitchAngle, unit: "deg"}, {head: "inclinaison (deg)", is: flightlog.RollAngle, unit: "deg"}, {head: "pression (hPa)", is: flightlog.StaticPressure, unit: "hpa"},
			{head: "altitude (m)", is: flightlog.Altitude, unit: "m"}, {head: "accélération X (g)", is: flightlog.ForwardAcceleration, unit: "gee"}, {head: "accélération Z (g)", is: flightlog.DownAcceleration, unit: "gee", sign: -1},
			{head: "profondeur (%)", is: "", unit: ""}, {head: "gaz (%)", is: flightlog.Throttle, unit: "percent"}}},
		{name: "load factors, half circles, normalised sticks", separator: ",", time: "tick_us", clock: micros, timeUnit: "us", columns: []cellOf{
			{head: "nx", is: flightlog.ForwardAcceleration, unit: "gee"}, {head: "ny", is: flightlog.RightAcceleration, unit: "gee"}, {head: "nz", is: flightlog.DownAcceleration, unit: "gee", sign: -1},
			{head: "rollDeg", is: flightlog.RollAngle, unit: "deg"}, {head: "pitchDeg", is: flightlog.PitchAngle, unit: "deg"}, {head: "yawDeg", is: flightlog.Heading, unit: "deg", half: true},
			{head: "rollRateDps", is: flightlog.RollRate, unit: "deg_s"}, {head: "pitchRateDps", is: flightlog.PitchRate, unit: "deg_s"}, {head: "yawRateDps", is: flightlog.YawRate, unit: "deg_s"},
			{head: "iasKt", is: flightlog.Airspeed, unit: "kt"}, {head: "pressAltFt", is: flightlog.Altitude, unit: "ft"}, {head: "stickPitch", is: "", unit: ""}, {head: "elevNorm", is: flightlog.Elevator, unit: "rad", times: 2}, {head: "thrNorm", is: flightlog.Throttle, unit: "share"}}},
		{name: "upwards and to the left, everything in radians", separator: "\t", time: "T", clock: seconds, timeUnit: "s", columns: []cellOf{
			{head: "omega_roll", is: flightlog.RollRate, unit: "rad_s"}, {head: "omega_pitch", is: flightlog.PitchRate, unit: "rad_s", sign: -1}, {head: "omega_yaw", is: flightlog.YawRate, unit: "rad_s", sign: -1},
			{head: "specific force forward", is: flightlog.ForwardAcceleration, unit: "m_s2"}, {head: "specific force left", is: flightlog.RightAcceleration, unit: "m_s2", sign: -1}, {head: "specific force up", is: flightlog.DownAcceleration, unit: "m_s2", sign: -1},
			{head: "euler phi", is: flightlog.RollAngle, unit: "rad"}, {head: "euler theta", is: flightlog.PitchAngle, unit: "rad", sign: -1}, {head: "euler psi", is: flightlog.Heading, unit: "rad", sign: -1, half: true},
			{head: "air speed mph", is: flightlog.Airspeed, unit: "mph"}, {head: "gps speed mph", is: flightlog.GroundSpeed, unit: "mph"}, {head: "gps track", is: flightlog.GroundTrack, unit: "rad"}, {head: "sink rate ft/s", is: flightlog.ClimbRate, unit: "ft_s", sign: -1},
			{head: "elevator angle rad", is: flightlog.Elevator, unit: "rad"}, {head: "rudder angle rad", is: flightlog.RudderLeft, unit: "rad", sign: -1}, {head: "altimeter", is: flightlog.Altitude, unit: "ft"}, {head: "static mbar", is: flightlog.StaticPressure, unit: "hpa"}, {head: "outside temp", is: flightlog.AirTemperature, unit: "f"}}},
	}
}
