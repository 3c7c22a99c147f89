package report

import (
	"strings"

	"wingproof/aero/similitude"
)

// scaleRow is one mass or inertia of the scaling sheet in words.
type scaleRow struct{ Quantity, Full, Target, Measured, Departure, Spoils string }

func scaleRows(s *similitude.Sheet) []scaleRow {
	var out []scaleRow
	for _, r := range s.Rows {
		row := scaleRow{Quantity: inertiaWords(r.Quantity), Full: figures(r.FullSize, 4) + " " + r.Unit, Target: figures(r.Target, 4) + " " + r.Unit,
			Measured: "not measured", Spoils: r.Spoils}
		if r.Measured != nil {
			row.Measured = figures(*r.Measured, 4) + " " + r.Unit
		}
		if r.Departure != nil {
			row.Departure = signed(*r.Departure, 1) + " %"
			if r.DepartureSD != nil && *r.DepartureSD > 0 {
				row.Departure = signed(*r.Departure, 1) + plusMinus(*r.DepartureSD, 1) + " %"
			}
		}
		out = append(out, row)
	}
	return out
}

func inertiaWords(quantity string) string {
	switch quantity {
	case "Ix":
		return "inertia in roll, Ix"
	case "Iy":
		return "inertia in pitch, Iy"
	case "Iz":
		return "inertia in yaw, Iz"
	case "Ixz":
		return "inertia mixed, Ixz"
	}
	return quantity
}

func signed(x float64, decimals int) string {
	s := number(x, decimals)
	if x > 0 && strings.Trim(s, "0.") != "" {
		return "+" + s
	}
	return s
}

// speedWords is one speed of the scaling sheet in words, m/s.
type speedWords struct{ Name, Full, Model, AsWeighed, Reynolds string }

func speedRows(s *similitude.Sheet) []speedWords {
	var out []speedWords
	for _, r := range s.Speeds {
		row := speedWords{Name: r.Name, Full: number(r.FullTrue, 1), Model: number(r.ModelCalibrated, 1), AsWeighed: "not weighed"}
		if r.BallastCalibrated != nil {
			row.AsWeighed = number(*r.BallastCalibrated, 1)
		}
		if r.FullReynolds != nil && r.ModelReynolds != nil {
			row.Reynolds = number(*r.FullReynolds/1e6, 2) + " / " + number(*r.ModelReynolds/1e6, 2) + " million"
		}
		out = append(out, row)
	}
	return out
}
