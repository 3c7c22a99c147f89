package program

import (
	"fmt"
	"strconv"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
)

// tomlWriter puts program.toml together.
type tomlWriter struct{ strings.Builder }

func (w *tomlWriter) lines(lines ...string) {
	for _, l := range lines {
		w.WriteString(l + "\n")
	}
}

func (w *tomlWriter) linef(format string, parts ...any) { fmt.Fprintf(w, format+"\n", parts...) }

// figure writes a number with enough digits and no more.
func figure(x float64) string {
	text := strconv.FormatFloat(x, 'f', 4, 64)
	text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	if text == "-0" || text == "" {
		return "0"
	}
	return text
}

// programText writes program.toml with a comment wherever a figure is only a place holder.
func (o NewOptions) programText(choices []Choice, logs []draftLog) string {
	w := &tomlWriter{}
	o.writeTop(w)
	o.writeFullSize(w)
	o.writeSurfaces(w)
	writeChoices(w, choices)
	o.writeLoadings(w)
	writeLimits(w)
	w.lines("",
		"# Parts that are built become limits: what they carry is compared with what each combination asks of",
		"# them. The name is that of parts.csv. Take the # away once the part is laid up, and write its own table.",
		"# [built.main_spar]",
		"# surface = \"wing\"",
		"# bending_allowable = \"shape/spar-allowable.csv\"   # heads y_m, bending_nm: moment that it carries, from the middle outboard",
		"# basis = \"limit\"                                  # or \"ultimate\"",
		"# knock_down = 0.9                                  # damp, warm, shop quality",
		"# sd_percent = 7",
		"", "# How each control surface of the model follows its command: film it with a protractor on the bench. Without this no",
		"# damping is told, because a late servo passes for damping. Take the # away and write your own.",
		"# [servo.elevator]",
		"# delay_ms = 20",
		"# lag_ms = 40                                       # time constant of what follows the delay",
		"# rate_deg_s = 350",
		"# backlash_deg = 0.3",
		"# lag_sd_ms = 8                                     # of the lag",
		"# source = \"bench test, date\"",
		"# [servo.aileron] and [servo.rudder] likewise")
	writeLoggers(w, logs)
	return w.String()
}

func (o NewOptions) writeTop(w *tomlWriter) {
	w.lines("# Program folder of wingproof. Lines behind # are for people; the program does not read them.",
		"# Every figure marked \"replace\" is a place holder: put your own in its place, and where it comes from as its source.",
		"# Axes: metres from the datum at full size, x aft, y right, z up. A key may carry another unit of its kind:",
		"# span_ft instead of span_m, mass_lb instead of mass_kg.",
		"format = 1",
		"name = "+tomlText(o.Name),
		`cautions_read = ""             # initials and date of who has read the cautions before the first flight`,
		"seed = 1                       # of random draws: same folder, same result",
		`date_order = "year_first"      # how 03/04/2026 is read in the tables: year_first refuses it, day_first and month_first decide`,
		"", "[model]")
	w.linef("length_ratio = %s            # model over full size", strconv.FormatFloat(o.LengthRatio, 'g', 8, 64))
	w.lines(`weighings = "weighings.csv"`,
		"test_altitude_m = 0            # replace: height of the flying field",
		"[model.errors]                 # one standard deviation of what all flights share (common practice, no source)",
		"airspeed_scale_percent = 1.5",
		"density_percent = 0.5",
		"alpha_deg = 0.3                # how the inertial unit is mounted",
		"elevator_deg = 0.3             # zero of the elevator calibration",
		"elevator_scale_percent = 3",
		"aileron_scale_percent = 3",
		"rudder_scale_percent = 3",
		"vertical_air_m_s = 0.2         # rising or sinking air, one draw a flight",
		"# Where the model takes ballast, at model size from the model's datum; 'wingproof scale' then says how much goes where.",
		"# [[model.bay]]",
		"# name = \"nose tray\"",
		"# x_from_mm = 60                 # a tray along which ballast may be spread; x_mm = 60 is one place",
		"# x_to_mm = 160",
		"# z_mm = 20",
		"# most_kg = 1.0",
		"# [[model.bay]]",
		"# name = \"wing roots\"",
		"# x_mm = 900",
		"# y_mm = 200                     # not 0: one on either side, most_kg is that of both together",
		"# z_mm = 0",
		"# most_kg = 0.6")
}

func (o NewOptions) writeFullSize(w *tomlWriter) {
	estimate := func(key string, value, sd float64) {
		w.linef("%s = { value = %s, sd = %s, status = \"estimated\", source = %s }", key, figure(value), figure(sd), tomlText(placeHolder))
	}
	w.lines("", "# The aircraft that is built. sd is one standard deviation; status becomes \"weighed\" when it was on the scales.", "[full_size]")
	estimate("mass_kg", o.Mass, 0.02*o.Mass)
	estimate("empty_mass_kg", o.EmptyMass, 0.03*o.EmptyMass)
	b := o.balance()
	estimate("empty_cg_x_m", b.emptyX, 0.005*o.Span)
	estimate("empty_cg_z_m", b.emptyZ, 0.005*o.Span)
	w.linef("cruise = { speed_m_s = %s, altitude_m = %s }", figure(o.CruiseSpeed), figure(o.CruiseAltitude))
	w.linef("limit_load_factor = %s", figure(o.LimitLoadFactor))
	w.lines("# For the load envelope, from the requirement that you build to. Speeds here are equivalent airspeeds; gusts are vertical.",
		"# negative_limit_load_factor = -1.9",
		"# manoeuvre_speed_kt = 105",
		"# dive_speed_kt = 170",
		"# gust_cruise_m_s = 15",
		"# gust_dive_m_s = 7.5",
		"", "# The body, for its own moments. Heads station, x_mm, width_mm, height_mm, z_mm (of the middle): cuts from the nose aft.",
		"# [fuselage]",
		`# stations = "shape/fuselage.csv"`)
	w.lines("", "[gear]                         # where the wheels touch the ground", sourceLine())
	w.linef("nose_x_m = %s", figure(b.noseX))
	w.linef("main_x_m = %s", figure(b.mainX))
	w.linef("track_m = %s", figure(0.26*o.Span))
	w.linef("ground_z_m = %s", figure(b.groundZ))
}

// sourceLine marks a table as one whose figures nobody has stated.
func sourceLine() string { return "source = " + tomlText(placeHolder) }

func (o NewOptions) writeSurfaces(w *tomlWriter) {
	w.lines("", "# Lifting surfaces, right half; the left half is the mirror image. Stations run from inboard to outboard.",
		"# hinge_chord_percent counts from the leading edge. effectiveness is real flap over ideal flap; effectiveness_sd = 0.1 says",
		"# that it is known to a tenth of itself. mass_kg = 85, mass_sd_kg = 8 state the structure of both halves, which relieves bending.",
		"[[lifting_surface]]", `name = "wing"`, `role = "wing"`, `stations = "shape/wing.csv"`,
		`hinges = [{ control = "aileron", from_station = 2, to_station = 3, hinge_chord_percent = 75, travel_deg = [-20, 20], effectiveness = 0.8 }]`)
	if o.StrakeSpan > 0 {
		w.lines("", "[[lifting_surface]]", `name = "strake"`, `role = "strake"`, `joins = "wing root"`, `stations = "shape/strake.csv"`)
	}
	if o.noWinglets() {
		w.lines("", "# No winglets: whatever keeps it straight in yaw belongs here, or no limit on directional stiffness can hold.",
			"# [[lifting_surface]]", `# name = "fin"`, `# role = "fin"`, `# mirrored = false            # one fin in the middle, on y = 0`, `# stations = "shape/fin.csv"`)
	} else {
		w.lines("", "[[lifting_surface]]", `name = "winglet"`, `role = "winglet"`, `joins = "wing tip"              # its root is drawn onto the wing's tip`,
			`stations = "shape/winglet.csv"`,
			`hinges = [{ control = "rudder", from_station = 1, to_station = 3, hinge_chord_percent = 70, travel_deg = [-25, 25], effectiveness = 0.8 }]`)
	}
	w.lines("", "[[lifting_surface]]", `name = "foreplane"`, `role = "foreplane"`, `stations = "shape/foreplane.csv"`,
		`hinges = [{ control = "elevator", from_station = 1, to_station = 3, hinge_chord_percent = 65, travel_deg = [-15, 25], effectiveness = 0.8 }]`,
		"", "# Sections: naca with four or five digits, or outline = \"shape/NAME.csv\" with heads x, y (fractions of the chord), or",
		"# mean_line = \"shape/NAME.csv\" with the same heads and thickness_percent = 12 beside it.",
		"# The largest lift of a section, for stall: polar = \"shape/NAME-polar.csv\" with heads reynolds, flap_deg,",
		"# state (clean or contaminated), max_lift, profile_drag (may stay empty), source.",
		"[[aerofoil]]", `name = "wing section"`, `naca = "2415"`, sourceLine(),
		"[[aerofoil]]", `name = "foreplane section"`, `naca = "3416"`, sourceLine())
	if !o.noWinglets() {
		w.lines("[[aerofoil]]", `name = "winglet section"`, `naca = "0012"`, sourceLine())
	}
}

func writeChoices(w *tomlWriter, choices []Choice) {
	w.lines("", "# What is still discussed. Each level lists what it changes on the surfaces above; the baseline changes nothing.",
		"# Changes: height_m, span_m, chord_scale, cant_deg, toe_deg, incidence_deg, move_x_m, move_z_m, or stations = \"shape/OTHER.csv\".",
		"# What is joined to a surface (joins = ...) goes along with it.")
	for _, c := range choices {
		w.lines("[[choice]]", "name = "+tomlText(c.Name), "baseline = "+tomlText(c.Baseline))
		for _, level := range c.Levels {
			var edits []string
			for _, e := range level.Edits {
				edits = append(edits, e.text())
			}
			w.linef("level.%s = [%s]", tomlText(level.Name), strings.Join(edits, ", "))
		}
	}
}

// text writes the edit as program.toml holds it.
func (e Edit) text() string {
	parts := []string{"surface = " + tomlText(e.Surface)}
	for _, size := range editSizes() {
		if v := *size.field(&e); v != nil {
			parts = append(parts, size.measure.name()+" = "+figure(size.usualUnit().From(*v)))
		}
	}
	return "{ " + strings.Join(parts, ", ") + " }"
}

func (o NewOptions) writeLoadings(w *tomlWriter) {
	b := o.balance()
	w.lines("", "# What is carried, and where. flies = false is a case on the ground only.",
		"# A tank in the wing may say where it lies, on both sides: span_from_m = 0.3, span_to_m = 1.2 from the middle.")
	for _, l := range b.loads {
		w.lines("[[loading]]", "name = "+tomlText(l.name), sourceLine())
		w.linef("items = [{ what = \"people\", mass_kg = %s, x_m = %s, z_m = %s }, { what = \"fuel\", mass_kg = %s, x_m = %s, z_m = 0 }]",
			figure(l.people), figure(b.seatX), figure(b.peopleZ), figure(l.fuel), figure(b.tankX))
	}
	w.lines("[[loading]]", `name = "nobody aboard"`, "flies = false", "items = []")
}

func writeLimits(w *tomlWriter) {
	w.lines("", "# What every combination must keep. evidence = \"flight\": a size is proven only with flights behind it; until then",
		"# theory with its stated errors speaks, and 'wingproof parts --why PART' says so.",
		"# The figures are common practice, no source: replace them by your own and name who asks for them.")
	w.WriteString(commentedBy("#", "quantity may be "+strings.Join(evidence.Judged(), ", ")+"."))
	for _, l := range []struct{ name, quantity, bound, evidence string }{
		{"aft margin", "static_margin", "at_least_percent = 5", "flight"},
		{"directional stiffness", "directional_stiffness", "at_least = 0.04                 # per radian", "analysis"},
		{"tip-back", "tip_back_angle", "at_least_deg = 12", "analysis"},
		{"nose-wheel load", "nose_gear_share", "at_least_percent = 6\nat_most_percent = 25", "analysis"},
		{"overturn", "overturn_angle", "at_most_deg = 63", "analysis"},
		{"fuel travel", "fuel_cg_travel", "at_most_percent = 15", "analysis"},
	} {
		w.lines("[[limit]]", "name = "+tomlText(l.name), "quantity = "+tomlText(l.quantity), l.bound, "evidence = "+tomlText(l.evidence), `source = "common practice, no source"`)
	}
	w.lines("", "# Errors of the theory have defaults. To state your own, state every part, in percent of the predicted value",
		"# (of the mean aerodynamic chord for neutral_point):",
		"# [theory_error.neutral_point]",
		"# bias_percent = 2.0",
		"# level_percent = { CHOICE = 1.0 }                  # one entry a choice",
		"# interaction_percent = 0.5",
		"# full_size_percent = { reynolds = 0.5, power = 1.0, shape = 0.5 }",
		"# source = \"...\"")
}

func writeLoggers(w *tomlWriter, logs []draftLog) {
	w.lines("", "# How the columns of a log are read: your own heads, what each is, and its unit. Check every line, signs above all,",
		"# by moving the model by hand. A servo command needs calibration = [[1000, -20], [1500, 0], [2000, 20]]: what the cell",
		"# holds, and the measured angle in the unit; trailing edge down is positive.")
	drafted := false
	for _, log := range logs {
		if log.draft != nil {
			w.WriteString(log.draft.text())
			drafted = true
		}
	}
	if !drafted {
		w.lines("# [logger.field-box]", `# time = { column = "t", unit = "s" }`, "# channels = [",
			`#   { column = "wy", is = "pitch_rate", unit = "deg/s", sign = -1 },`, "# ]")
	}
}
