package report

// methodSection is one way of working: what it answers, its equations with their symbols, what it assumes and where it comes from.
type methodSection struct {
	ID, Title string
	Lead      string
	Equations []equation
	Assumed   []string
	Sources   string
}

// equation is one or more lines of mathematics (see formula) with what their symbols mean.
type equation struct {
	Lines   []string
	Symbols []symbol
}

// symbol is a sign with its meaning and unit; "1" is a pure number.
type symbol struct{ Sign, Means, Unit string }

// methodSections are the methods in the order of the work: from the recording to the word on the wall.
func methodSections() []methodSection {
	var all []methodSection
	for _, part := range [][]methodSection{recordingMethods(), flightMethods(), derivativeMethods(), theoryMethods(), judgingMethods()} {
		all = append(all, part...)
	}
	return all
}

func recordingMethods() []methodSection {
	return []methodSection{
		{
			ID: "path", Title: "The path through the air",
			Lead: "A model rarely carries vanes. Angle of attack and sideslip are worked out from how it moved and turned, with a Kalman filter forward over the flight and a smoother back.",
			Equations: []equation{{
				[]string{"Ṙ = R·[ω]_×    v̇ = R·f + g    ḣ = −v_{down}", "V = R^T·(v − w_{steady} − w_{vertical} − w_{gust})", "α = atan(V_z / V_x)    β = asin(V_y / |V|)"},
				[]symbol{{"R", "turns body axes (X forward, Y right, Z down) into north, east, down", "1"}, {"ω, f", "rates of turn and specific forces at the centre of gravity, less their biases", "rad/s, m/s²"},
					{"g", "acceleration of gravity, down", "m/s²"}, {"v, h", "velocity over the earth, height", "m/s, m"}, {"V", "flow through the air in body axes", "m/s"}, {"w", "velocity of the air: steady wind, vertical air, gusts", "m/s"}, {"α, β", "angle of attack, sideslip", "rad"}},
			}, {
				[]string{"|v − w| = a·V_h    (v − w)·d_⊥ = sin κ·a·V_h"},
				[]symbol{{"a", "true over indicated airspeed", "1"}, {"V_h", "horizontal part of the logged true airspeed", "m/s"}, {"d_⊥", "across where the model points", "1"}, {"κ", "mean angle by which it moves aside of where it points", "rad"}},
			}},
			Assumed: []string{"The model's own lift and side force never enter, so that curves drawn over these angles are not circular.",
				"Without vanes nothing shows what blows across the path: 0.3 m/s of vertical air at 22 m/s are 0.8° of angle of attack. The standard deviations say it.",
				"Left out: rotation of the earth, wind that changes with height, pressure errors that depend on angle of attack."},
			Sources: "Klein and Morelli, Aircraft System Identification, chapter 10; Bryson and Ho, Applied Optimal Control, chapters 12 and 13; Rauch, Tung and Striebel, AIAA Journal 3, 1965; Bierman, International Journal of Control 18, 1973. That opposite headings part wind and airspeed scale: common practice, no source.",
		},
		{
			ID: "points", Title: "Steady test points",
			Lead: "A test point is a stretch of three to eight seconds in which speed, attitude, elevator and throttle stood still enough. Each is kept, or dropped with its reason.",
			Equations: []equation{{
				[]string{"L = m·(X·sin α − Z·cos α)    C_L = L / (½ρV²·S)", "D = −m·d(g·h + V²/2)/ds    C_D = D / (½ρV²·S)"},
				[]symbol{{"L, D", "lift and drag", "N"}, {"m", "mass of the model on that day", "kg"}, {"X, Z", "specific force forward and down", "m/s²"}, {"ρ, V", "density of the air, true airspeed", "kg/m³, m/s"}, {"S", "reference area of the main wing", "m²"}, {"s", "way through the air", "m"}, {"h", "height", "m"}},
			}},
			Assumed: []string{"Drag is taken in glides only, propeller at idle. With power on, the thrust's share of lift is not removed and the point says so.",
				"Steady: airspeed changes by less than 2 % a second and 5 % in all, load factor within 0.15 of one, bank below 10° (common practice, no source)."},
			Sources: "The relations are those of every textbook of flight mechanics. Air: ISO 2533 and U.S. Standard Atmosphere, 1976, corrected to the day.",
		},
	}
}
