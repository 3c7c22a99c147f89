package program

import "wingproof/flightlog/unit"

func (l *loader) readFullSize(s *scope) {
	if s == nil {
		return
	}
	f := &l.p.FullSize
	f.Mass = s.figure(mass("mass").positive().required())
	f.EmptyMass = s.figure(mass("empty_mass").positive())
	f.EmptyX = s.figure(length("empty_cg_x"))
	f.EmptyZ = s.figure(length("empty_cg_z"))
	for _, i := range []struct {
		stem string
		into *Figure
	}{{"ix", &f.Ix}, {"iy", &f.Iy}, {"iz", &f.Iz}} {
		*i.into = s.figure(measure{stem: i.stem, dimension: unit.Inertia, usual: "kg_m2", high: 1e7, open: true})
	}
	f.Ixz = s.figure(measure{stem: "ixz", dimension: unit.Inertia, usual: "kg_m2", low: -1e7, high: 1e7})
	if cruise := s.group("cruise", "cruise = { speed_kt = 120, altitude_m = 1500 }", true); cruise != nil {
		cruise.name = "cruise"
		f.CruiseSpeed, _ = cruise.number(speed("speed", 340).positive().required())
		f.CruiseAltitude, _ = cruise.number(length("altitude").atLeast(-500).atMost(15000))
		cruise.done()
	}
	if approach := s.group("approach", "approach = { speed_kt = 75 }", false); approach != nil {
		approach.name = "approach"
		f.ApproachSpeed, _ = approach.number(speed("speed", 340).positive().required())
		approach.done()
	}
	f.LimitLoadFactor, _ = s.number(number("limit_load_factor", 1, 15).required())
	l.readEnvelope(s)
	empty := []Figure{f.EmptyMass, f.EmptyX, f.EmptyZ}
	stated := 0
	for _, e := range empty {
		if e.Status != "" {
			stated++
		}
	}
	if stated != 0 && stated != len(empty) && !l.broken && s.clean() {
		s.wrong(s.v.at, "the empty weight is stated in part only", "state empty_mass, empty_cg_x and empty_cg_z, all three")
	}
	s.done()
}

// figure reads a table { value, sd, status, source } whose key carries the unit of value and sd.
func (s *scope) figure(m measure) Figure {
	k, u := s.find(m)
	shape := k.nameOr(m.name()) + ` = { value = 1.0, sd = 0.1, status = "estimated", source = "..." }`
	if k == nil {
		return Figure{}
	}
	if k.value.form != groupForm {
		s.wrong(k.value.at, k.name+" is "+k.value.form.String()+", not a table with its standard deviation and source", "write "+shape)
		return Figure{}
	}
	sub := s.l.scope(k.value, k.name)
	var f Figure
	if v := sub.ask("value", true, shape); v != nil {
		f.Value, _ = sub.convert(m, "value", v, u)
	}
	if v := sub.ask("sd", true, shape); v != nil && sub.form(v, "sd", numberForm) {
		if !(v.number >= 0) {
			sub.wrong(v.at, "sd = "+v.text+" is out of range", "write one standard deviation, at least 0")
		}
		f.SD = v.number * u.Factor
	}
	f.Status = sub.word("status", []string{"estimated", "weighed"}, "")
	f.Source, _ = sub.text("source", true)
	sub.done()
	return f
}

func (k *key) nameOr(name string) string {
	if k == nil {
		return name
	}
	return k.name
}

func (l *loader) readGear(s *scope) {
	if s == nil {
		return
	}
	var g Gear
	g.NoseX, _ = s.number(length("nose_x").required())
	g.MainX, _ = s.number(length("main_x").required())
	g.Track, _ = s.number(length("track").positive().required())
	g.GroundZ, _ = s.number(length("ground_z").required())
	s.readSource("where the wheels stand")
	if g.MainX <= g.NoseX && s.clean() {
		s.wrong(s.v.at, "the main wheels do not stand behind the nose wheel", "write main_x larger than nose_x; x counts aft")
	}
	l.p.Gear = &g
	s.done()
}

// clean tells whether no mistake was reported inside the table so far.
func (s *scope) clean() bool {
	for _, m := range s.l.mistakes {
		if m.File == ProgramFile && m.Line >= s.v.at.line && m.Line <= s.last() {
			return false
		}
	}
	return true
}

// last is the last line on which a key of the table stands.
func (s *scope) last() int {
	line := s.v.at.line
	for _, k := range s.v.keys {
		line = max(line, k.at.line, k.value.at.line)
	}
	return line
}

func (l *loader) readReference(s *scope) {
	if s == nil {
		return
	}
	d := &l.p.Declared
	d.Area, _ = s.number(measure{stem: "area", dimension: unit.Area, usual: "m2", high: 1e4, open: true})
	d.Span, _ = s.number(length("span").positive())
	d.MeanChord, _ = s.number(length("mean_aerodynamic_chord").positive())
	d.MeanChordLeadingEdge, _ = s.number(length("mean_aerodynamic_chord_leading_edge_x"))
	s.done()
}
