package study

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
	"wingproof/aero/lattice"
	"wingproof/aero/loads"
	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/program"
)

// bend works out the bending moment along the wing, and along every other surface that a built part lies in, at
// limit load and gross mass: the lift of the whole aircraft is load factor times weight, with the load shape
// of PredictionLift. The wing is trimmed at the aftmost loading, where the foreplane carries least and the wing
// most, another surface at the foremost one. Inertia relief is left out, which errs on the heavy side.
func (c *Configuration) bend(solution *lattice.Solution, p *program.Program, point r3.Vec) error {
	forward, aft, ok := prediction.LoadedRange(p)
	if !ok {
		forward, aft = point.X, point.X
	}
	wing := wingSurfaces(c.Airframe)
	c.BendingAxis = bendingStations(p, wing, c.Airframe.Reference.Span/2)
	line, err := c.bendingAlong(solution, p, r3.Vec{X: aft, Z: point.Z}, wing, c.BendingAxis)
	if err != nil {
		return err
	}
	for _, station := range line {
		c.Bending = append(c.Bending, station.Moment)
	}
	c.spars = map[string][]decide.BendingStation{}
	for _, b := range p.Built {
		switch {
		case !spansSideways(c.Airframe, b.Surface): // judgeable says so
		case slices.Contains(wing, b.Surface):
			c.spars[b.Surface] = line
		default:
			own := []string{b.Surface}
			if c.spars[b.Surface], err = c.bendingAlong(solution, p, r3.Vec{X: forward, Z: point.Z}, own, bendingStations(p, own, 0)); err != nil {
				return err
			}
		}
	}
	return nil
}

// bendingAlong is the bending along surfaces with the aircraft trimmed about a point.
func (c *Configuration) bendingAlong(solution *lattice.Solution, p *program.Program, point r3.Vec, surfaces []string, stations []float64) ([]decide.BendingStation, error) {
	state, err := trimState(solution, c.Airframe, point, &Configuration{})
	if err != nil {
		return nil, err
	}
	pressure := loads.Scale(p.FullSize.Mass.Value*gravity, p.FullSize.LimitLoadFactor, PredictionLift, c.Airframe.Reference.Area)
	line := make([]decide.BendingStation, len(stations))
	for i, section := range loads.Along(solution.Strips(state), surfaces, stations, point.X) {
		line[i] = decide.BendingStation{Y: section.Y, Moment: pressure * section.Bending}
	}
	return line, nil
}

// wingSurfaces names the surfaces whose load the wing carries: wing, strake and the winglets at its tips. A part
// in any of them but a winglet has the wing's bending.
func wingSurfaces(airframe aero.Airframe) []string {
	var names []string
	for _, surface := range airframe.Surfaces {
		switch surface.Role {
		case aero.RoleWing, aero.RoleStrake, aero.RoleWinglet:
			names = append(names, surface.Name)
		}
	}
	return names
}

// spansSideways tells whether distances from the plane of symmetry say where on a surface one is: not so on
// winglets and fins, which stand up.
func spansSideways(airframe aero.Airframe, name string) bool {
	for _, surface := range airframe.Surfaces {
		if surface.Name == name {
			return surface.Role != aero.RoleWinglet && surface.Role != aero.RoleFin
		}
	}
	return false
}

// bendingStations are the plane of symmetry and the stations of every built part in the surfaces, rising; where none lies
// in them, eleven from there to tip.
func bendingStations(p *program.Program, surfaces []string, tip float64) []float64 {
	stations := []float64{0}
	for _, b := range p.Built {
		if slices.Contains(surfaces, b.Surface) {
			stations = append(stations, b.Y...)
		}
	}
	if len(stations) == 1 {
		for i := 1; i <= 10; i++ {
			stations = append(stations, tip*float64(i)/10)
		}
	}
	slices.Sort(stations)
	return slices.Compact(stations)
}

// Ratio is bending over what a part carries, with its 95 % interval.
type Ratio struct{ Value, Low, High float64 }

// BendingRatios gives, at each station of a built part's table, the predicted bending at limit load over
// what the part carries, with the stated errors of theory (model scale and full size) and of the part. It is NaN,
// within no bounds, where nothing is predicted or the part carries nothing.
func (s *Study) BendingRatios(c Configuration, b program.Built) []Ratio {
	errors := TheoryErrors(s.Program, c.Airframe.Reference.MeanChord)
	own, common, _ := modelError(errors, c, evidence.RootBendingMoment, 1, evidence.FullSize)
	sd := math.Hypot(b.SD, evidence.Total(own, common))
	carried, line := decideBuilt(b).Allowable, c.spars[b.Surface]
	out := make([]Ratio, len(carried))
	for i, station := range carried {
		moment := math.Abs(interpolate(line, station.Y))
		if station.Moment <= 0 || math.IsNaN(moment) {
			out[i] = Ratio{math.NaN(), math.Inf(-1), math.Inf(1)}
			continue
		}
		value := moment / station.Moment
		out[i] = Ratio{value, value * math.Max(0, 1-normal95*sd), value * (1 + normal95*sd)}
	}
	return out
}

// interpolate reads a line with rising stations at y; it holds the ends, and is NaN without any.
func interpolate(line []decide.BendingStation, y float64) float64 {
	if len(line) == 0 {
		return math.NaN()
	}
	if y <= line[0].Y {
		return line[0].Moment
	}
	for i := 1; i < len(line); i++ {
		if y <= line[i].Y {
			a, b := line[i-1], line[i]
			return a.Moment + (y-a.Y)/(b.Y-a.Y)*(b.Moment-a.Moment)
		}
	}
	return line[len(line)-1].Moment
}
