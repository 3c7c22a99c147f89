package program

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// stationPlace says where the stations of a surface stand.
type stationPlace struct {
	file string
	rows []spot
	key  spot // of the surface in program.toml
}

// place finds a station (from 1; 0 for the whole surface) in its file.
func (l *loader) place(surface string, station int) (file string, at spot) {
	p, ok := l.stations[surface]
	switch {
	case !ok:
		return ProgramFile, spot{1, 1}
	case station >= 1 && station <= len(p.rows):
		return p.file, p.rows[station-1]
	}
	return ProgramFile, p.key
}

// readStations reads a table of stations: leading and trailing edge in full-size datum axes.
func (l *loader) readStations(s *scope, at spot, file string) ([]aero.Station, stationPlace) {
	path, raw, ok := l.open(s, at, file)
	if !ok {
		return nil, stationPlace{}
	}
	t := l.readTable(path, raw)
	if t == nil {
		return nil, stationPlace{}
	}
	where := stationPlace{file: path}
	count := t.measured(number("station", 1, 1000).required())
	var points [6]column
	for i, stem := range []string{"le_x", "le_y", "le_z", "te_x", "te_y", "te_z"} {
		points[i] = t.measured(length(stem).in("mm").required())
	}
	aerofoil := t.text("aerofoil", false)
	t.done()
	var stations []aero.Station
	for i, r := range t.rows {
		if n, ok := t.needNumber(r, count); ok && n != float64(i+1) {
			t.wrong(r, count, fmt.Sprintf("station %g stands in the place of station %d", n, i+1), "number the stations 1, 2, 3 from the inboard end outboard")
		}
		var v [6]float64
		for j, c := range points {
			v[j], _ = t.needNumber(r, c)
		}
		station := aero.Station{LeadingEdge: r3.Vec{X: v[0], Y: v[1], Z: v[2]}, TrailingEdge: r3.Vec{X: v[3], Y: v[4], Z: v[5]}}
		station.Aerofoil = t.named(r, aerofoil, l.aerofoilNames(), "aerofoil")
		if data, ok := l.aerofoils[station.Aerofoil]; ok {
			station.MeanLine, station.Thickness = data.Line, data.Thickness
		}
		stations = append(stations, station)
		where.rows = append(where.rows, r.at)
	}
	if len(stations) < 2 {
		l.wrong(path, t.headSpot, "", "a surface needs two stations or more", "add a row for each cut through the surface, from the inboard end outboard")
	}
	return stations, where
}
