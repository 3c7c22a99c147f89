package lattice

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// A winglet's root chord is usually shorter than the tip chord that it stands on. Panels of the two then do not share nodes,
// circulation cannot run from one into the other, and what is left scatters by per cents however fine the grid. The
// chord of the joining surface is therefore drawn out to that of its host over a short fairing: its root takes the host's
// leading edge and chord and reaches its own shape a little further along. The fairing is part of the
// geometry and does not depend on the grid, so that grids converge to one answer.

// fairingLength is the length of the fairing in chords of the host at the joint: some 60 mm on a tip of 750 mm, a fillet that a
// builder would make anyway. On an invented foreplane aircraft half of it moves lift slope, root bending and induced drag by
// 0.1 to 0.5 %, side force and yawing moment by up to 1.5 %, mostly less than the grid's stated error. Much shorter ones ask
// for panels so narrow that grids scatter again.
const fairingLength = 0.08

// fairingReach is the largest share of the joining surface's first bay that the fairing takes.
const fairingReach = 0.5

// places says, for every station as panelled, where it stands in the user's table: 2.5 is midway between stations 2 and 3.
type places []float64

// numbered are the places of n stations as the user gave them.
func numbered(n int) places {
	out := make(places, n)
	for i := range out {
		out[i] = float64(i + 1)
	}
	return out
}

// fairJoints draws the chord of every surface whose end stands on the chord line of the one that it joins, but on another
// stretch of it, out to the whole chord there. lengths are in chords of the host. The doubts that Join had about those
// surfaces give way to one that says what was done.
func fairJoints(surfaces []aero.Surface, at []places, length float64, warnings []aero.Warning) []aero.Warning {
	for i := range surfaces {
		s := &surfaces[i]
		host := slices.IndexFunc(surfaces, func(o aero.Surface) bool { return o.Name == s.Joins })
		if s.Joins == "" || host < 0 || host == i {
			continue
		}
		end, station := 0, len(surfaces[host].Stations)-1
		if s.JoinsAt == aero.AtRoot {
			end, station = len(s.Stations)-1, 0
		}
		onto := surfaces[host].Stations[station]
		if !standsOn(s.Stations[end], onto) {
			continue
		}
		own := s.Stations[end]
		faired := fairEnd(s, &at[i], end, onto, length)
		warnings = slices.DeleteFunc(warnings, func(w aero.Warning) bool { return w.Surface == s.Name && w.Station == end+1 })
		warnings = append(warnings, aero.Warning{
			Surface: s.Name, Station: end + 1,
			What: fmt.Sprintf("its chord is %.0f mm where that of %q is %.0f mm (leading edges %.0f mm apart); it was drawn out to it over %.0f mm",
				1000*own.Chord(), surfaces[host].Name, 1000*onto.Chord(), 1000*math.Abs(own.LeadingEdge.X-onto.LeadingEdge.X), 1000*faired),
			Right: "give the fillet that the part will have as stations of its own; half that length moves side force and yawing moment by about 1 %",
		})
	}
	return warnings
}

// standsOn tells whether a station stands on the chord line of another without covering it end to end.
func standsOn(s, host aero.Station) bool {
	if meets(s.LeadingEdge, host.LeadingEdge, s.Chord(), host.Chord()) {
		return false
	}
	chord := r3.Sub(host.TrailingEdge, host.LeadingEdge)
	off := func(p r3.Vec) float64 { // distance from the host's chord line, drawn on beyond both ends
		d := r3.Sub(p, host.LeadingEdge)
		return r3.Norm(r3.Sub(d, r3.Scale(r3.Dot(d, chord)/r3.Norm2(chord), chord)))
	}
	overlap := math.Min(s.TrailingEdge.X, host.TrailingEdge.X) - math.Max(s.LeadingEdge.X, host.LeadingEdge.X)
	return overlap > 0 && off(s.LeadingEdge) <= jointGap*host.Chord()
}

// jointGap is how far, in chords, a root may stand off the chord line that it joins sideways or in height: what Join draws
// together as well.
const jointGap = 0.05

// fairEnd gives an end of a surface the chord of its host and puts a station with its own shape a little further along. It
// returns the length of the fairing, m.
func fairEnd(s *aero.Surface, at *places, end int, host aero.Station, length float64) float64 {
	next, insert := 1, 1
	if end > 0 {
		next, insert = end-1, end
	}
	own, beyond := s.Stations[end], s.Stations[next]
	step := r3.Sub(beyond.LeadingEdge, own.LeadingEdge)
	bayLength := math.Hypot(step.Y, step.Z)
	t := math.Min(length*host.Chord()/bayLength, fairingReach)
	along := r3.Unit(r3.Sub(own.TrailingEdge, own.LeadingEdge))
	root := own
	root.LeadingEdge = host.LeadingEdge
	root.TrailingEdge = r3.Add(host.LeadingEdge, r3.Scale(host.Chord(), along))
	s.Stations[end] = root
	s.Stations = slices.Insert(s.Stations, insert, betweenStations(own, beyond, t))
	*at = slices.Insert(*at, insert, (*at)[end]+t*((*at)[next]-(*at)[end]))
	if end == 0 { // controls end at the fairing
		for j := range s.Hinges {
			s.Hinges[j].FromStation++
			s.Hinges[j].ToStation++
		}
	}
	return t * bayLength
}

// betweenStations is the station a fraction of the way from one to another.
func betweenStations(a, b aero.Station, t float64) aero.Station {
	out := a
	out.LeadingEdge = r3.Add(a.LeadingEdge, r3.Scale(t, r3.Sub(b.LeadingEdge, a.LeadingEdge)))
	out.TrailingEdge = r3.Add(a.TrailingEdge, r3.Scale(t, r3.Sub(b.TrailingEdge, a.TrailingEdge)))
	out.Thickness = a.Thickness + t*(b.Thickness-a.Thickness)
	if a.MeanLine != nil || b.MeanLine != nil {
		out.MeanLine = blend{a.MeanLine, b.MeanLine, t}
	}
	return out
}

// blend is a mean line between two others, either of which may be nil.
type blend struct {
	from, to aero.MeanLine
	share    float64
}

// Slope returns dz/dx of the blend.
func (b blend) Slope(x float64) float64 {
	slope := 0.0
	if b.from != nil {
		slope += (1 - b.share) * b.from.Slope(x)
	}
	if b.to != nil {
		slope += b.share * b.to.Slope(x)
	}
	return slope
}
