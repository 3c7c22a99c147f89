package program

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// asking is a limit put before the others, with a pointer to it.
func asking(quantity, bound string) string {
	return "[[" + pointer + "limit]]\nname = \"slow\"\nquantity = \"" + quantity + "\"\n" + bound + "\nevidence = \"analysis\"\nsource = \"invented\"\n[[limit]]\nname = \"aft margin\""
}

const firstLimit = "[[limit]]\nname = \"aft margin\""

// Each thing that a limit on slow flight or take-off cannot be judged without is asked for at that limit.
func TestSlowLimitsAreToldWhatTheyNeed(t *testing.T) {
	const polars = "polar = \"shape/fore-polar.csv\"\n"
	flies := "items = [{ what = \"crew\", mass_kg = 170, x_m = 2.9, z_m = 0.1 }, { what = \"fuel\", mass_lb = 400, x_m = 3.9, z_m = 0.0, span_from_m = 0.4, span_to_m = 1.2 }]"
	for _, s := range []struct{ name, quantity, bound, old, fresh, want string }{
		{"no polar of the foreplane", "stall_order_margin", "at_least_deg = 0", polars, "",
			`limit "slow" on stall_order_margin needs the largest lift of aerofoil "fore-16"; add polar = "shape/fore-16-polar.csv" to [[aerofoil]] "fore-16"`},
		{"no polar of the wing", "stalling_speed", "at_most_kt = 61", "naca = \"2415\"\npolar = \"shape/fore-polar.csv\"", "naca = \"2415\"",
			`limit "slow" on stalling_speed needs the largest lift of some aerofoil of the wing; add polar = "shape/NAME-polar.csv" to the [[aerofoil]] of the wing`},
		{"no loading flies", "stalling_speed", "at_most_kt = 61", "[[loading]]\nname = \"two aboard\"\n" + flies, "[[loading]]\nname = \"two aboard\"\nflies = false\n" + flies,
			`limit "slow" on stalling_speed needs a loading that flies; add [[loading]] with its items`},
		{"no gear", "rotation_speed", "at_most_kt = 60", "[gear]\nnose_x_m = 1.1\nmain_x_m = 4.6\ntrack_m = 2.2\nground_z_m = -1.1\n", "",
			`limit "slow" on rotation_speed needs to know where the wheels stand; add [gear] with nose_x_m, main_x_m, track_m and ground_z_m`},
		{"ground above the datum", "rotation_speed", "at_most_kt = 60", "ground_z_m = -1.1", "ground_z_m = 1.1",
			`limit "slow" on rotation_speed needs the ground below the datum; write a ground_z below 0 in [gear]; z counts up`},
		{"no approach speed", "elevator_room", "at_least_deg = 2", "seed = 7", "seed = 8",
			`limit "slow" on elevator_room needs the approach speed; add approach = { speed_kt = 75 } to [full_size], an equivalent airspeed`},
		{"no elevator", "rotation_speed", "at_most_kt = 60", `control = "elevator"`, `control = "flap"`,
			`limit "slow" on rotation_speed needs an elevator with its travel; add hinges = [{ control = "elevator", from_station = 1, to_station = 2, hinge_chord_percent = 70, travel_deg = [-15, 25] }] to the foreplane`},
	} {
		t.Run(s.name, func(t *testing.T) {
			files := furnished(t)
			change(t, files, "program.toml", "naca = \"2415\"\n", "naca = \"2415\"\n"+polars)
			if s.name == "no polar of the foreplane" {
				change(t, files, "program.toml", "naca = \"2415\"\n"+polars, "naca = \"2415\"\npolar = \"shape/fore-polar.csv\" # of the wing\n")
			}
			change(t, files, "program.toml", s.old, s.fresh)
			change(t, files, "program.toml", firstLimit, asking(s.quantity, s.bound))
			want := place(t, "program.toml", files["program.toml"]) + s.want
			change(t, files, "program.toml", pointer, "")
			_, err := Load(build(t, files))
			require.ErrorContains(t, err, want) // other limits of the folder may lack the same
		})
	}
}

// With all of it, the bounds are read in metres per second and radians, the approach speed too.
func TestSlowLimitsAreRead(t *testing.T) {
	files := furnished(t)
	change(t, files, "program.toml", "naca = \"2415\"\n", "naca = \"2415\"\npolar = \"shape/fore-polar.csv\"\n")
	change(t, files, "program.toml", "cruise = {", "approach = { speed_kt = 75 }\ncruise = {")
	change(t, files, "program.toml", "[[limit]]\nname = \"tip-back\"", `[[limit]]
name = "order"
quantity = "stall_order_margin"
at_least_deg = 0
evidence = "analysis"
source = "invented"
[[limit]]
name = "stall"
quantity = "stalling_speed"
at_most_kt = 61
evidence = "analysis"
source = "invented"
[[limit]]
name = "room"
quantity = "elevator_room"
at_least_deg = 3
evidence = "analysis"
source = "invented"
[[limit]]
name = "rotation"
quantity = "rotation_speed"
at_most_km_h = 90
evidence = "analysis"
source = "invented"
[[limit]]
name = "tip-back"`)
	p, err := Load(build(t, files))
	require.NoError(t, err)
	require.InDelta(t, 75*1852.0/3600, p.FullSize.ApproachSpeed, 1e-12)
	require.Zero(t, *p.Limits[1].AtLeast)
	require.InDelta(t, 61*1852.0/3600, *p.Limits[2].AtMost, 1e-12)
	require.InDelta(t, 3*math.Pi/180, *p.Limits[3].AtLeast, 1e-15)
	require.InDelta(t, 25, *p.Limits[4].AtMost, 1e-12)
}

func TestMistakesInSlowFigures(t *testing.T) {
	for _, s := range []slip{
		{"approach without unit", "", "cruise = {", "approach = { ‸speed = 75 }\ncruise = {", `"speed" does not say its unit; write speed_kt; units of speed are ft_s, km_h, kt, m_s, mph`},
		{"approach without speed", "", "cruise = {", "approach = ‸{ }\ncruise = {", `approach has no speed_kt; add speed_kt = ...`},
		{"approach of nothing", "", "cruise = {", "approach = { speed_kt = ‸0 }\ncruise = {", `speed_kt = 0 is out of range; write more than 0 and at most 660.907 kt`},
		{"speed in degrees", "", firstLimit, "[[limit]]\nname = \"s\"\nquantity = \"rotation_speed\"\n‸at_most_deg = 61\nevidence = \"analysis\"\nsource = \"x\"\n" + firstLimit,
			`the unit of "at_most_deg" is not one of speed; write at_most_kt; units of speed are ft_s, km_h, kt, m_s, mph`},
	} {
		if s.file == "" {
			s.file = "program.toml"
		}
		t.Run(s.name, func(t *testing.T) { requireSlip(t, s) })
	}
}
