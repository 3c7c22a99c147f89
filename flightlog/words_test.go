package flightlog

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// The words and the unit together: the quantity that a head names, and how it is scaled.
func TestHeadsReadWithTheirUnits(t *testing.T) {
	for head, want := range map[string]struct {
		is    Quantity
		unit  string
		scale float64
	}{
		"pitch speed (deg/s)": {PitchRate, "deg_s", 1}, "roll speed (deg/s)": {RollRate, "deg_s", 1}, "yaw speed (rad/s)": {YawRate, "rad_s", 1},
		"pitch (deg)": {PitchAngle, "deg", 1}, "Nicken [°/s]": {PitchRate, "deg_s", 1}, "Rollen [°]": {RollAngle, "deg", 1},
		"rudder stbd (°)": {RudderRight, "deg", 1}, "rudder port (°)": {RudderLeft, "deg", 1}, "Seitenruder Steuerbord [°]": {RudderRight, "deg", 1}, "Seitenruder Backbord [°]": {RudderLeft, "deg", 1},
		"outside air (°F)": {AirTemperature, "f", 1}, "power (%)": {Throttle, "percent", 1}, "nose above horizon (°)": {PitchAngle, "deg", 1},
		"over ground (kt)": {GroundSpeed, "kt", 1}, "made good (°)": {GroundTrack, "deg", 1}, "Fahrt über Grund [km/h]": {GroundSpeed, "km_h", 1}, "Weg über Grund [°]": {GroundTrack, "deg", 1},
		"Höhe über Grund [m]": {Altitude, "m", 1}, "Staudruckfahrt [km/h]": {Airspeed, "km_h", 1}, "Druck statisch [hPa]": {StaticPressure, "hpa", 1},
		"accel ahead (g)": {ForwardAcceleration, "gee", 1}, "vario (ft/min)": {ClimbRate, "m_s", 0.00508}, "vario (m/min)": {ClimbRate, "km_h", 0.06},
		"Weg über Grund [m]": {}, "power (W)": {}, "outside air (V)": {}, "nose (mm)": {}, "Staudruck [Pa]": {},
	} {
		d := draft{Sniffed: Sniffed{Heads: []string{head}, Decimal: "."}, time: -1, parsed: make([]parsedColumn, 1)}
		g := d.guess(0)
		if want.is == "" {
			require.False(t, g.Mapped, head)
			continue
		}
		require.Equal(t, want.is, g.Is, head)
		require.Equal(t, want.unit, g.Unit, head)
		require.Equal(t, want.scale, g.Scale, head)
		require.Empty(t, g.foreign, head)
	}
}

// Factors are as a person would write them, and exact enough.
func TestScaledUnitsAreShortAndTrue(t *testing.T) {
	for written, want := range map[string]float64{"ft/min": 0.3048 / 60, "fpm": 0.3048 / 60, "m/min": 1.0 / 60, "cm/s": 0.01, "deg/min": math.Pi / 180 / 60} {
		for _, dimension := range everyDimension() {
			if u, scale, ok := scaledUnit(written, dimension); ok {
				require.InEpsilon(t, want, scale*u.Factor, 3e-6, written)
				require.Equal(t, math.Round(scale*1e7), math.Round(scale*1e12)/1e5, "%s: %v has more than seven decimals", written, scale)
				want = 0
			}
		}
		require.Zero(t, want, "%s is known", written)
	}
}

func TestForeignWords(t *testing.T) {
	for head, want := range map[string][]string{
		"airspeed": nil, "AoA [deg]": nil, "gyro_roll_rad_s": nil, "att_pitch_rad": nil, "airspeed delta [m/s]": {"delta"}, "wet rudder left": {"wet"}, "static pressure [hPa]": nil,
		"accel right wing (g)": nil, "height MSL (ft)": {"msl"},
	} {
		words, _ := headWords(head)
		require.Equal(t, want, readings(words)[0].foreign(words), head)
	}
}
