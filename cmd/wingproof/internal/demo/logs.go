package demo

import (
	"bufio"
	"os"

	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

// dialect is how an invented recorder writes. There are two: one writes commas and degrees, the other semicolons, decimal
// commas, milliseconds and servo pulses. program.toml maps them like any user's own.
func dialect(logger string) rehearse.Dialect {
	if logger == "spare-box" {
		return rehearse.Dialect{Separator: ';', DecimalComma: true, Milliseconds: true, ServoPulse: true, Time: "clock ms", Heads: spareHeads()}
	}
	return rehearse.Dialect{Time: "t", Heads: fieldHeads()}
}

func fieldHeads() map[flightlog.Quantity]string {
	return map[flightlog.Quantity]string{
		flightlog.RollRate: "wx", flightlog.PitchRate: "wy", flightlog.YawRate: "wz",
		flightlog.ForwardAcceleration: "fx", flightlog.RightAcceleration: "fy", flightlog.DownAcceleration: "fz",
		flightlog.RollAngle: "bank", flightlog.PitchAngle: "nose", flightlog.Heading: "head",
		flightlog.Airspeed: "tube", flightlog.StaticPressure: "static", flightlog.AirTemperature: "outside", flightlog.Altitude: "height",
		flightlog.GroundSpeed: "sat speed", flightlog.GroundTrack: "sat track", flightlog.ClimbRate: "sat climb",
		flightlog.Elevator: "elev", flightlog.Aileron: "ail", flightlog.RudderLeft: "rud L", flightlog.RudderRight: "rud R", flightlog.Throttle: "thr",
	}
}

func spareHeads() map[flightlog.Quantity]string {
	return map[flightlog.Quantity]string{
		flightlog.RollRate: "roll rate °/s", flightlog.PitchRate: "pitch rate °/s", flightlog.YawRate: "yaw rate °/s",
		flightlog.ForwardAcceleration: "acc forward m/s²", flightlog.RightAcceleration: "acc right m/s²", flightlog.DownAcceleration: "acc down m/s²",
		flightlog.RollAngle: "roll °", flightlog.PitchAngle: "pitch °", flightlog.Heading: "heading °",
		flightlog.Airspeed: "airspeed m/s", flightlog.StaticPressure: "pressure Pa", flightlog.AirTemperature: "temperature °C", flightlog.Altitude: "altitude m",
		flightlog.GroundSpeed: "ground speed m/s", flightlog.GroundTrack: "track °", flightlog.ClimbRate: "climb m/s",
		flightlog.Elevator: "elevator µs", flightlog.Aileron: "aileron µs", flightlog.RudderLeft: "rudder left µs", flightlog.RudderRight: "rudder right µs", flightlog.Throttle: "throttle %",
	}
}

// writeLog writes a log as the recorder would.
func writeLog(path, logger string, log rehearse.Log) error {
	f, err := os.Create(path)
	if err != nil {
		return err
	}
	w := bufio.NewWriter(f)
	if err := log.WriteCSV(w, dialect(logger)); err != nil {
		f.Close()
		return err
	}
	if err := w.Flush(); err != nil {
		f.Close()
		return err
	}
	return f.Close()
}
