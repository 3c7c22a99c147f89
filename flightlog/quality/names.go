package quality

import (
	"fmt"
	"strings"

	"wingproof/flightlog"
)

// plainName is a quantity in words.
func plainName(q flightlog.Quantity) string { return strings.ReplaceAll(string(q), "_", " ") }

// feeds says which results a channel feeds, to stand behind "no".
func feeds(q flightlog.Quantity) string {
	switch q {
	case flightlog.Airspeed:
		return "lift, drag, test point or wind"
	case flightlog.StaticPressure, flightlog.Altitude:
		return "drag of glides and no path angle"
	case flightlog.AirTemperature:
		return "density, true airspeed or Reynolds number"
	case flightlog.DownAcceleration:
		return "lift or load factor"
	case flightlog.ForwardAcceleration:
		return "drag from accelerations and no reconstructed angle of attack"
	case flightlog.RightAcceleration:
		return "side force or sideslip"
	case flightlog.RollRate:
		return "roll manoeuvre and no roll derivatives"
	case flightlog.PitchRate:
		return "pitch manoeuvre and no pitch derivatives"
	case flightlog.YawRate:
		return "yaw manoeuvre and no yaw derivatives"
	case flightlog.PitchAngle:
		return "angle of attack, and so no test point"
	case flightlog.RollAngle:
		return "bank angle, and so no test point or turn"
	case flightlog.Heading:
		return "wind by heading and no sideslip"
	case flightlog.GroundSpeed, flightlog.GroundTrack:
		return "wind and no check of the airspeed scale"
	case flightlog.ClimbRate:
		return "vertical speed by satellite"
	case flightlog.Elevator:
		return "trim point and no elevator power"
	case flightlog.Aileron:
		return "roll manoeuvre and no aileron power"
	case flightlog.RudderLeft, flightlog.RudderRight:
		return "yaw manoeuvre, steady sideslip or rudder power"
	case flightlog.Throttle:
		return "glide, since idle cannot be told from power"
	case flightlog.AngleOfAttack:
		return "angle of attack by vane"
	case flightlog.Sideslip:
		return "sideslip by vane"
	}
	return "result of any kind"
}

// lost is the consequence of a stretch without a channel: what cannot be had, and when.
func lost(q flightlog.Quantity, start, end float64) string {
	return fmt.Sprintf("no %s %s", feeds(q), during(start, end))
}

// lostThroughout is the consequence of a channel that is wrong over the whole recording.
func lostThroughout(q flightlog.Quantity) string {
	return fmt.Sprintf("no %s from this log %s", feeds(q), flightlog.UntilPutRight)
}

// during is a time range in words, to the tenth of a second where it is short.
func during(start, end float64) string {
	if end-start < 10 {
		return fmt.Sprintf("from %.1f to %.1f s", start, end)
	}
	return fmt.Sprintf("from %.0f to %.0f s", start, end)
}
