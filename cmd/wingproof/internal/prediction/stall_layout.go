package prediction

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
	"wingproof/aero/stall"
)

// layout is what the strips of an airframe have whatever the flight condition.
type layout struct {
	strips   []stall.Strip // without arms
	stations []float64     // m from the plane of symmetry
	x        []float64     // of the quarter chord, m aft of datum
	chord    []float64     // m, full size
	at       []place
	sweep    []float64 // of the quarter-chord line, rad, aft positive
	elevator []bool    // the strip is covered by the control asked for
	others   []bool    // not mirrored: its load does not count in symmetric flight
}

// layoutOf places the strips of a solution between the stations of their surfaces.
func layoutOf(a *Analysis, strips []aero.StripLoad, elevator string) layout {
	var l layout
	surfaces := map[string]aero.Surface{}
	for _, s := range a.Airframe.Surfaces {
		surfaces[s.Name] = s
	}
	spans := map[stall.Part]float64{}
	for _, s := range a.Airframe.Surfaces {
		for _, st := range s.Stations {
			part := partOf(s.Role)
			spans[part] = math.Max(spans[part], math.Max(st.LeadingEdge.Y, st.TrailingEdge.Y))
		}
	}
	for _, load := range strips {
		s := surfaces[load.Surface]
		inner, outer := s.Stations[load.Station-1], s.Stations[min(load.Station, len(s.Stations)-1)]
		run := r3.Sub(quarter(outer), quarter(inner))
		width := math.Hypot(run.Y, run.Z)
		level, sweep := 1.0, 0.0
		if width > 0 {
			level, sweep = math.Abs(run.Y)/width, math.Atan2(run.X, width)
		}
		part := partOf(s.Role)
		along := 0.0
		if b := spans[part]; b > 0 {
			along = math.Min(1, math.Max(0, load.Centre.Y/b))
		}
		area := load.Chord * load.Width * level
		if part == stall.Other && !s.Mirrored {
			area = 0
		}
		l.strips = append(l.strips, stall.Strip{Surface: load.Surface, Part: part, Along: along, Area: area})
		l.stations = append(l.stations, load.Centre.Y)
		l.x = append(l.x, load.Centre.X)
		l.chord = append(l.chord, load.Chord)
		l.at = append(l.at, place{inner.Aerofoil, outer.Aerofoil, load.Between})
		l.sweep = append(l.sweep, sweep)
		l.elevator = append(l.elevator, covered(s, load.Station, elevator))
		l.others = append(l.others, !s.Mirrored)
	}
	return l
}

func quarter(s aero.Station) r3.Vec {
	return r3.Add(s.LeadingEdge, r3.Scale(0.25, r3.Sub(s.TrailingEdge, s.LeadingEdge)))
}

// covered tells whether a control lies on the stretch outboard of a station.
func covered(s aero.Surface, station int, control string) bool {
	for _, h := range s.Hinges {
		if h.Control == control && station >= h.FromStation && station < h.ToStation {
			return true
		}
	}
	return false
}

// partOf is what a surface counts as in the stall order.
func partOf(role aero.Role) stall.Part {
	switch role {
	case aero.RoleForeplane:
		return stall.Foreplane
	case aero.RoleWing, aero.RoleStrake:
		return stall.Wing
	}
	return stall.Other
}
