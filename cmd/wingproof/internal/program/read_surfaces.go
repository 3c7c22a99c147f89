package program

import (
	"fmt"
	"math"
	"strings"

	"wingproof/aero"
)

func (l *loader) readSurfaces(top *scope) {
	type joint struct {
		s    *scope
		at   spot
		text string
		i    int
	}
	var joints []joint
	wings := 0
	for _, s := range top.groups("lifting_surface", "[[lifting_surface]]", true) {
		surface, at, joins := l.readSurface(s)
		if surface.Role == aero.RoleWing {
			wings++
		}
		if joins != "" {
			joints = append(joints, joint{s, at, joins, len(l.p.Surfaces)})
		}
		l.p.Surfaces = append(l.p.Surfaces, surface)
	}
	if wings == 0 && len(l.p.Surfaces) > 0 && !l.broken {
		top.wrong(spot{1, 1}, `no lifting surface has role = "wing"`, "give the main wing that role; the reference quantities come from it")
	}
	for _, j := range joints {
		l.joinSurface(j.s, j.at, j.text, &l.p.Surfaces[j.i])
	}
}

// joinSurface resolves joins = "wing tip".
func (l *loader) joinSurface(s *scope, at spot, text string, surface *aero.Surface) {
	text = strings.TrimSpace(text)
	cut := strings.LastIndex(text, " ")
	end := text[cut+1:]
	if cut < 0 || end != aero.AtTip && end != aero.AtRoot {
		s.wrong(at, "joins = "+quoted(text)+" does not say which end", `write the name of a surface and tip or root, such as joins = "wing tip"`)
		return
	}
	var others []string
	for _, name := range l.surfaceNames() {
		if name != surface.Name {
			others = append(others, name)
		}
	}
	host, ok := known(text[:cut], others)
	if !ok {
		s.wrong(at, "joins names "+quoted(text[:cut])+", which is no other lifting surface", suggest(text[:cut], others, "lifting surface"))
		return
	}
	surface.Joins, surface.JoinsAt = host, end
}

func (l *loader) readSurface(s *scope) (surface aero.Surface, joinsAt spot, joins string) {
	var at spot
	surface.Name, at = s.text("name", true)
	if _, twice := known(surface.Name, l.surfaceNames()); twice && surface.Name != "" {
		s.wrong(at, "the lifting surface "+quoted(surface.Name)+" is there twice", "give each surface a name of its own")
	}
	var roles []string
	for _, r := range aero.Roles() {
		roles = append(roles, string(r))
	}
	surface.Role = aero.Role(s.word("role", roles, ""))
	joins, joinsAt = s.text("joins", false)
	surface.Mirrored = s.truth("mirrored", true)
	file, fileAt := s.text("stations", true)
	if file != "" {
		var where stationPlace
		surface.Stations, where = l.readStations(s, fileAt, file)
		where.key = s.v.at
		l.stations[surface.Name] = where
	}
	for i, h := range s.groups("hinges", "a hinge of "+surface.Name, false) {
		hinge, sd := readHinge(h, len(surface.Stations))
		surface.Hinges = append(surface.Hinges, hinge)
		if sd != nil {
			l.p.HingeErrors = append(l.p.HingeErrors, HingeError{surface.Name, i, hinge.Control, *sd})
		}
	}
	l.readSurfaceMass(s, surface.Name)
	s.done()
	return surface, joinsAt, joins
}

// defaultEffectiveness of a control against the ideal flap: gap and boundary layer take a fifth. Common
// practice, no source; 10 to 30 % is usual.
const defaultEffectiveness = 0.8

// readSurfaceMass reads the structural mass of a surface.
func (l *loader) readSurfaceMass(s *scope, surface string) {
	weighs, stated := s.number(mass("mass").positive())
	sd, sdStated := s.number(mass("mass_sd"))
	switch {
	case stated:
		l.p.Masses = append(l.p.Masses, SurfaceMass{surface, weighs, sd})
	case sdStated && s.placeOf(mass("mass")) == nil:
		s.wrong(*s.placeOf(mass("mass_sd")), "surface "+quoted(surface)+" states mass_sd without mass", "add mass_kg, the structure of both halves together")
	}
}

// readHinge reads one hinge, and the standard deviation of its effectiveness where that is stated.
func readHinge(s *scope, stations int) (h aero.Hinge, effectivenessSD *float64) {
	h.Control, _ = s.text("control", true)
	last := int64(max(stations, 1000))
	if stations > 1 {
		last = int64(stations)
	}
	h.FromStation = int(s.whole("from_station", 1, last, true, 1))
	h.ToStation = int(s.whole("to_station", 1, last, true, last))
	if h.ToStation <= h.FromStation && s.v.get("to_station") != nil && s.v.get("from_station") != nil {
		s.wrong(s.v.get("to_station").value.at, fmt.Sprintf("the hinge runs from station %d to station %d", h.FromStation, h.ToStation), "name the inboard station first and a station outboard of it last")
	}
	h.HingeFraction, _ = s.number(percent("hinge_chord", 0, 99).required())
	travel := s.pair(angle("travel", -90, 90).required())
	h.TravelMin, h.TravelMax = travel[0], travel[1]
	h.Effectiveness, _ = s.number(number("effectiveness", 0, 1.5).or(defaultEffectiveness))
	effectivenessSD = s.pointer(number("effectiveness_sd", 0, 0.5))
	s.done()
	return h, effectivenessSD
}

// pair reads a key such as travel_deg = [-25, 25]: two numbers, the smaller first.
func (s *scope) pair(m measure) (out [2]float64) {
	k, u := s.find(m)
	if k == nil || !s.form(k.value, k.name, listForm) {
		return out
	}
	if len(k.value.list) != 2 {
		s.wrong(k.value.at, fmt.Sprintf("%s holds %d numbers", k.name, len(k.value.list)), "write "+k.name+" = [-25, 25], the smaller number first")
		return out
	}
	for i, v := range k.value.list {
		out[i], _ = s.convert(m, k.name, v, u)
	}
	if !(out[0] < out[1]) || math.IsNaN(out[0]) {
		s.wrong(k.value.at, k.name+" does not rise", "write the smaller number first, such as [-25, 25]")
	}
	return out
}
