package report

import (
	"slices"
	"strings"

	"wingproof/flightlog/source"
)

// sourceWords names an error that all flights share, and says what makes it smaller. Common practice, no source.
func sourceWords(name string) (words, remedy string) {
	switch name {
	case source.AirspeedScale:
		return "scale of the airspeed", "fly full circles, which calibrate the airspeed"
	case source.Mass:
		return "mass", "weigh the model on better scales"
	case source.Density:
		return "density of the air", "read pressure and temperature at the field with better instruments"
	case source.CG:
		return "position of the CG", "weigh the CG more exactly"
	case source.CGScale:
		return "distance between CGs", "weigh the CG more exactly at each ballast"
	case source.Alpha:
		return "mounting of the inertial unit", "measure how squarely the inertial unit sits"
	case source.ElevatorScale, source.AileronScale, source.RudderScale:
		control := strings.TrimSuffix(name, "_scale")
		return "calibration of the " + control, "calibrate the " + control + " on the bench again"
	case source.GlideDrag:
		return "rising and sinking air of glides", "glide in calmer air"
	case source.InertiaX, source.InertiaY, source.InertiaZ:
		return "moment of inertia in " + map[string]string{source.InertiaX: "roll", source.InertiaY: "pitch", source.InertiaZ: "yaw"}[name], "swing the model more exactly"
	case source.UnsteadyFlow:
		return "flow that lags behind the motion", ""
	case source.LinearSwing:
		return "swings that are not small", ""
	}
	if control, ok := strings.CutPrefix(name, source.Lag("")); ok {
		return "lag of the servo of the " + controlWord(control), "film the servo of the " + controlWord(control) + " on the bench more exactly"
	}
	return strings.ReplaceAll(name, "_", " "), ""
}

func controlWord(control string) string {
	if strings.HasPrefix(control, "rudder") {
		return "rudder"
	}
	return control
}

func sourceNames(sources []string) []string {
	var out []string
	for _, s := range sources {
		if words, _ := sourceWords(s); !slices.Contains(out, words) {
			out = append(out, words)
		}
	}
	return out
}
