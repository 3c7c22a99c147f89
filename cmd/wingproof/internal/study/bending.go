package study

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero/lattice"
	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/program"
)

// bend works out the loads of every flight that the program states the figures for, and keeps along the wing, and along the
// surface of every built part, the greatest bending at each station, up or down, as a size.
//
// A built part is judged from that one line. The greatest is taken over the flights before the errors are drawn, not within each
// draw. With the stated errors that is the same: they are common to all flights, so that one factor a draw multiplies every
// flight at every station. The line stands on the heavy side in two ways: between stations the straight line over peaks
// lies above the peaks themselves, and the greater of up and down is held against one allowable. If flights erred each for
// itself, the greatest of them would lie a little higher than this line says; where one flight governs that is nothing.
//
// The errors stated for bending are relative to what is left after inertia has been taken off.
func (c *Configuration) bend(solution *lattice.Solution, p *program.Program, point r3.Vec) error {
	var err error
	if c.Loads, err = prediction.Loads(p, c.Airframe, solution, prediction.LoadsSetup{CG: point, Body: c.Analysis.Body}); err != nil {
		return err
	}
	for _, station := range greatest(c.wingLoads()) {
		c.BendingAxis, c.Bending = append(c.BendingAxis, station.Y), append(c.Bending, station.Moment)
	}
	c.spars = map[string][]decide.BendingStation{}
	for _, b := range p.Built {
		if beam, ok := c.Loads.Beam(b.Surface); ok {
			c.spars[b.Surface] = greatest(beam)
		}
	}
	return nil
}

// wingLoads is the envelope along the main wing, which comes first; a program has one.
func (c Configuration) wingLoads() prediction.BeamLoads {
	if len(c.Loads.Beams) == 0 {
		return prediction.BeamLoads{}
	}
	return c.Loads.Beams[0]
}

// greatest is the size of the greatest bending at each station of an envelope.
func greatest(beam prediction.BeamLoads) []decide.BendingStation {
	line := make([]decide.BendingStation, len(beam.Envelope))
	for i, e := range beam.Envelope {
		line[i] = decide.BendingStation{Y: e.Y, Moment: math.Abs(e.Bending.Greatest().Value)}
	}
	return line
}

// atRoot says in an estimate which flight bends the wing most in the plane of symmetry, and where the loads stand on
// flights that the aircraft does not reach.
func (s *Study) atRoot(c Configuration, e *evidence.Estimate) {
	wing := c.wingLoads()
	if len(wing.Envelope) == 0 {
		return
	}
	peak := wing.Envelope[0].Bending.Greatest()
	e.Method = evidence.Pointer(fmt.Sprintf("vortex lattice, greatest of %d load conditions: %s", len(c.Loads.Conditions), peak.Condition))
	e.Warnings = nonNil(slices.Concat(e.Warnings, c.Loads.Warnings))
	flown, ok := c.Loads.Flown(peak)
	if !ok {
		return
	}
	e.At = evidence.At{
		CG: evidence.Pointer(flown.CG.X), CGPercent: evidence.Pointer(s.percent(flown.CG.X)),
		LiftCoefficient: evidence.Pointer(flown.LiftCoefficient), LoadFactor: evidence.Pointer(flown.LoadFactor),
	}
	if s.Program.FullSize.ManoeuvreSpeed > 0 { // else the speed is made up
		e.At.Speed = evidence.Pointer(flown.Speed)
	}
}

// Ratio is bending over what a part carries, with its 95 % interval.
type Ratio struct{ Value, Low, High float64 }

// BendingRatios gives, at each station of a built part's table, the greatest predicted bending over
// what the part carries, with the stated errors of theory (model scale and full size) and of the part. It is NaN,
// within no bounds, where nothing is predicted or the part carries nothing.
func (s *Study) BendingRatios(c Configuration, b program.Built) []Ratio {
	errors := TheoryErrors(s.Program, c.Airframe.Reference.MeanChord)
	own, common, _ := ModelError(errors, c.Levels, evidence.RootBendingMoment, 1, evidence.FullSize)
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
