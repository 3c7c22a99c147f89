package lattice

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"wingproof/aero"
)

// circularArc is the mean line z = 4h x(1 − x).
type circularArc struct{ height float64 }

func (a circularArc) Slope(x float64) float64 { return 4 * a.height * (1 - 2*x) }

// drawn is a random but sane foreplane aircraft with elevator, aileron and rudder, of invented proportions.
type drawn struct {
	airframe aero.Airframe
	point    r3.Vec // moment point
}

// numbers draws from ranges: either evenly, or as rapid does, which favours ends and zero.
func numbers(t *rapid.T) func(label string, low, high float64) float64 {
	if rapid.Bool().Draw(t, "extremes") {
		return func(label string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, label) }
	}
	even := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1))
	return func(_ string, low, high float64) float64 { return low + (high-low)*even.Float64() }
}

func drawAircraft(t *rapid.T) drawn {
	number := numbers(t)
	wing := drawWing(number)
	tip := wing.Stations[2]
	// cant from the vertical: 0 stands up, 90° carries the wing on
	sin, cos := math.Sincos(number("winglet cant", 0, 90) * degreeOf)
	length := number("winglet length", 0.1, 0.3) * tip.LeadingEdge.Y
	rake := number("winglet rake", 0.2, 1) * length
	top := chordAt(r3.Add(tip.LeadingEdge, r3.Vec{X: rake, Y: length * sin, Z: length * cos}), number("winglet taper", 0.3, 0.9)*tip.Chord(), 0)
	// toe moves the trailing edge along the outward normal (cos, −sin) of the y–z plane
	toe := number("winglet toe", -2, 2) * degreeOf * top.Chord()
	top.TrailingEdge = r3.Add(top.TrailingEdge, r3.Vec{Y: toe * cos, Z: -toe * sin})
	winglet := aero.Surface{
		Name: "winglet", Role: aero.RoleWinglet, Mirrored: true, Joins: "wing", JoinsAt: aero.AtTip,
		Stations: []aero.Station{tip, top},
		Hinges:   []aero.Hinge{{Control: "rudder", FromStation: 1, ToStation: 2, HingeFraction: 0.7, Effectiveness: 1}},
	}
	foreplane := drawForeplane(number, wing, rapid.Bool().Draw(t, "foreplane above"))
	return drawn{
		airframe: aero.Airframe{Surfaces: []aero.Surface{wing, winglet, foreplane}},
		point:    r3.Vec{X: number("moment point", -1, 0), Z: number("moment point height", -0.3, 0.3)},
	}
}

// drawWing has three stations: root, kink and tip; the aileron hangs on the outboard stretch.
func drawWing(number func(string, float64, float64) float64) aero.Surface {
	half := number("wing half span", 3, 6)
	root := number("root chord", 0.2, 0.5) * half
	kink := number("kink", 0.25, 0.6) * half
	rise := math.Tan(number("dihedral", -3, 6) * degreeOf)
	inner, outer := math.Tan(number("inner sweep", 0, 50)*degreeOf), math.Tan(number("outer sweep", -5, 40)*degreeOf)
	middle := number("kink chord", 0.5, 1) * root
	x := inner * kink
	wing := aero.Surface{
		Name: "wing", Role: aero.RoleWing, Mirrored: true,
		Stations: []aero.Station{
			chordAt(r3.Vec{}, root, number("root incidence", 0, 2)),
			chordAt(r3.Vec{X: x, Y: kink, Z: rise * kink}, middle, number("kink incidence", -1, 2)),
			chordAt(r3.Vec{X: x + outer*(half-kink), Y: half, Z: rise * half}, number("tip chord", 0.4, 1)*middle, number("tip incidence", -3, 1)),
		},
		Hinges: []aero.Hinge{{Control: "aileron", FromStation: 2, ToStation: 3, HingeFraction: 0.75, Effectiveness: 1}},
	}
	camber := circularArc{number("camber", 0, 0.03)}
	for i := range wing.Stations {
		wing.Stations[i].MeanLine = camber
	}
	return wing
}

// drawForeplane stands ahead of the wing, its wake at least 0.1 m above or below it.
func drawForeplane(number func(string, float64, float64) float64, wing aero.Surface, above bool) aero.Surface {
	half := number("foreplane span", 0.3, 0.6) * wing.Stations[2].LeadingEdge.Y
	root := number("foreplane chord", 0.2, 0.45) * half
	tip := number("foreplane taper", 0.4, 1) * root
	sweep := math.Tan(number("foreplane sweep", -5, 30) * degreeOf)
	x := -number("foreplane arm", 0.5, 2)*wing.Stations[0].Chord() - root - math.Max(0, sweep)*half
	z := number("gap", 0.1, 0.6)
	slope := wing.Stations[2].LeadingEdge.Z / wing.Stations[2].LeadingEdge.Y // the wing rises evenly
	if above {
		z += math.Max(0, slope*half)
	} else {
		z = -z + math.Min(0, slope*half)
	}
	return aero.Surface{
		Name: "foreplane", Role: aero.RoleForeplane, Mirrored: true,
		Stations: []aero.Station{
			chordAt(r3.Vec{X: x, Z: z}, root, number("foreplane incidence", 0, 4)),
			chordAt(r3.Vec{X: x + sweep*half, Y: half, Z: z}, tip, number("foreplane tip incidence", 0, 4)),
		},
		Hinges: []aero.Hinge{{Control: "elevator", FromStation: 1, ToStation: 2, HingeFraction: 0.7, Effectiveness: 1}},
	}
}

// chordAt is a station with its leading edge at a point and an incidence in degrees.
func chordAt(le r3.Vec, chord, incidence float64) aero.Station {
	sin, cos := math.Sincos(incidence * degreeOf)
	return aero.Station{LeadingEdge: le, TrailingEdge: r3.Add(le, r3.Vec{X: chord * cos, Z: -chord * sin})}
}

// drawState is any motion and any deflection of the three controls.
func drawState(t *rapid.T) State {
	draw := numbers(t)
	number := func(label string, size float64) float64 { return draw(label, -size, size) }
	return State{
		Alpha: number("alpha", 0.2), Beta: number("beta", 0.2),
		RollRate: number("roll rate", 0.1), PitchRate: number("pitch rate", 0.02), YawRate: number("yaw rate", 0.1),
		Controls: map[string]float64{"elevator": number("elevator", 0.4), "aileron": number("aileron", 0.4), "rudder": number("rudder", 0.4)},
	}
}

// mirrorOf is the state seen in a mirror.
func mirrorOf(s State) State {
	return State{
		Alpha: s.Alpha, Beta: -s.Beta, RollRate: -s.RollRate, PitchRate: s.PitchRate, YawRate: -s.YawRate,
		Controls: map[string]float64{"elevator": s.Controls["elevator"], "aileron": -s.Controls["aileron"], "rudder": -s.Controls["rudder"]},
	}
}

// movedPoints moves every point of the airframe.
func movedPoints(a aero.Airframe, move func(r3.Vec) r3.Vec) aero.Airframe {
	out := a
	out.Surfaces = nil
	for _, s := range a.Surfaces {
		stations := s.Stations
		s.Stations = nil
		for _, st := range stations {
			st.LeadingEdge, st.TrailingEdge = move(st.LeadingEdge), move(st.TrailingEdge)
			s.Stations = append(s.Stations, st)
		}
		out.Surfaces = append(out.Surfaces, s)
	}
	return out
}
