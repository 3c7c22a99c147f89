package program

import (
	"fmt"
	"math"

	"wingproof/aero"
)

// wakeGap is how near, in parts of the mean aerodynamic chord, the wake of a foreplane may pass the wing
// before predictions behind it depend on where panels stand. Common practice, no source.
const wakeGap = 0.05

// arrangement collects the doubts about one combination of levels.
type arrangement struct {
	l    *loader
	a    aero.Airframe
	with string          // the levels, for messages
	told map[string]bool // pairs that are named already, in this combination or an earlier one
}

// doubtArrangement warns of surfaces that pass through one another, lie on one another, or stand in one
// plane with the wing behind them, in one combination of levels. told keeps each pair from being named again.
func (l *loader) doubtArrangement(a aero.Airframe, changes []departure, told map[string]bool) {
	d := arrangement{l: l, a: a, told: told}
	if len(changes) > 0 {
		d.with = " with " + wording(changes) + ":"
	}
	d.meetings()
	d.wakes()
}

func (d arrangement) say(pair, format string, parts ...any) {
	if !d.told[pair] {
		d.told[pair] = true
		d.l.warn("program.toml:%s %s", d.with, fmt.Sprintf(format, parts...))
	}
}

// meetings warns of surfaces that share a place. Those that join one another are meant to.
func (d arrangement) meetings() {
	for i, s := range d.a.Surfaces {
		for _, other := range d.a.Surfaces[i+1:] {
			if s.Joins == other.Name || other.Joins == s.Name {
				continue
			}
			tell := func(m meeting, does, right string) {
				d.say(s.Name+"\n"+other.Name, "surface %s %s surface %s between its stations %d and %d (stations %d and %d of %s), at x %.2f, y %.2f, z %.2f m; %s",
					quoted(s.Name), does, quoted(other.Name), m.station, m.station+1, m.other, m.other+1, quoted(other.Name), m.at.X, m.at.Y, m.at.Z, right)
			}
			if m, ok := overlapping(s, other); ok {
				tell(m, "lies on", "its area counts twice there, so end one where the other begins")
			} else if m, ok := crossing(s, other); ok {
				tell(m, "passes through", "shorten or move one of the two, or trust nothing that is computed there")
			}
		}
	}
}

// wakes warns of a foreplane in the plane of the wing or the strake behind it.
func (d arrangement) wakes() {
	for _, s := range d.a.Surfaces {
		for _, behind := range d.a.Surfaces {
			if s.Role != aero.RoleForeplane || behind.Role != aero.RoleWing && behind.Role != aero.RoleStrake {
				continue
			}
			if station, gap, ok := nearestWake(s, behind); ok && gap < wakeGap*d.a.Reference.MeanChord {
				d.say("wake\n"+s.Name+"\n"+behind.Name, "surface %s station %d: its wake passes %.0f mm from surface %s behind it, less than %.0f %% of the mean aerodynamic chord; loads there hang on where panels stand, so trust them to some per cent, or stand it higher or lower",
					quoted(s.Name), station, 1000*gap, quoted(behind.Name), 100*wakeGap)
			}
		}
	}
}

// nearestWake is the station of a foreplane whose wake, straight back along x, passes the surface behind it
// at the least height, and that height, m. ok is false when no station has that surface behind it.
func nearestWake(s, behind aero.Surface) (station int, gap float64, ok bool) {
	gap = math.Inf(1)
	for i, st := range s.Stations {
		low, high, front, has := heights(behind, st.TrailingEdge.Y)
		if !has || front < st.TrailingEdge.X {
			continue
		}
		z := st.TrailingEdge.Z
		if d := math.Max(0, math.Max(low-z, z-high)); d < gap {
			station, gap, ok = i+1, d, true
		}
	}
	return station, gap, ok
}

// heights are the lowest and highest z and the leading edge's x of the chord that a surface has at y.
func heights(s aero.Surface, y float64) (low, high, front float64, ok bool) {
	for i := 1; i < len(s.Stations); i++ {
		in, on := s.Stations[i-1], s.Stations[i]
		y0, y1 := in.LeadingEdge.Y, on.LeadingEdge.Y
		if y < y0 || y > y1 || y1 <= y0 {
			continue
		}
		t := (y - y0) / (y1 - y0)
		leading, trailing := in.LeadingEdge.Z+t*(on.LeadingEdge.Z-in.LeadingEdge.Z), in.TrailingEdge.Z+t*(on.TrailingEdge.Z-in.TrailingEdge.Z)
		return math.Min(leading, trailing), math.Max(leading, trailing), in.LeadingEdge.X + t*(on.LeadingEdge.X-in.LeadingEdge.X), true
	}
	return 0, 0, 0, false
}
