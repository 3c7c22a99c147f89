package demo

// sortie is one planned flight of the invented season.
type sortie struct {
	name      string
	date      string
	winglet   string
	foreplane string
	ballast   string // forward, middle or aft
	logger    string
	wind      float64 // m/s
	gusts     float64 // m/s, standard deviation
	slow      bool    // decelerations, turns and pull-ups at the end
	blocked   bool    // sand in the airspeed tube: the crew does not use it
}

// season lists the flights: five configurations of six, three CGs, light wind at dawn and dusk.
func season() []sortie {
	return []sortie{
		{"F01", "2026-03-14", "mid", "long", "forward", "field-box", 2.0, 0.25, true, false},
		{"F02", "2026-03-14", "mid", "long", "middle", "field-box", 2.4, 0.30, true, false},
		{"F03", "2026-03-21", "mid", "long", "aft", "field-box", 1.2, 0.20, true, false},
		{"F04", "2026-03-21", "mid", "long", "forward", "field-box", 1.6, 0.25, true, false},
		{"F05", "2026-03-28", "mid", "long", "aft", "field-box", 3.0, 0.40, true, false},
		{"F06", "2026-04-04", "small", "long", "forward", "field-box", 1.5, 0.20, true, false},
		{"F07", "2026-04-04", "small", "long", "aft", "field-box", 1.8, 0.25, false, true},
		{"F08", "2026-04-11", "small", "long", "aft", "field-box", 2.2, 0.30, true, false},
		{"F09", "2026-04-11", "small", "long", "middle", "field-box", 2.6, 0.30, true, false},
		{"F10", "2026-04-18", "tall", "long", "forward", "spare-box", 1.0, 0.20, true, false},
		{"F11", "2026-04-18", "tall", "long", "middle", "spare-box", 1.4, 0.20, true, false},
		{"F12", "2026-04-25", "tall", "long", "aft", "spare-box", 2.0, 0.30, true, false},
		{"F13", "2026-05-02", "mid", "short", "forward", "spare-box", 1.7, 0.25, true, false},
		{"F14", "2026-05-02", "mid", "short", "middle", "spare-box", 2.3, 0.30, true, false},
		{"F15", "2026-05-09", "mid", "short", "aft", "spare-box", 1.5, 0.20, true, false},
		{"F16", "2026-05-16", "mid", "short", "forward", "spare-box", 2.8, 0.35, true, false},
		{"F17", "2026-05-23", "small", "short", "forward", "spare-box", 1.9, 0.25, true, false},
		{"F18", "2026-05-23", "small", "short", "aft", "spare-box", 2.1, 0.30, true, false},
	}
}

// ballasts are the places of the CG that are flown, the foremost first.
func ballasts() []string { return []string{"forward", "middle", "aft"} }

// ballast is a true CG of the model as flown, full-size metres aft of datum.
func ballast(name string) float64 {
	switch name {
	case "forward":
		return 3.56
	case "middle":
		return 3.69
	}
	return 3.82
}
