package identify

import (
	"errors"
	"fmt"
	"math"

	"wingproof/flightlog/leastsquares"
)

// Margin is how the pitching moment about the moment point changes with lift while elevator and pitch rate stay: dCm/dCL, minus a
// hundredth of the static margin in percent.
type Margin struct {
	Flights          []string
	Segments         int
	Power            string
	MomentX, MomentZ float64 // model-size m
	LiftCoefficient  float64 // before the inputs
	Value            float64 // dCm/dCL
	SD               float64 // random part, residual colour included
	WhiteSD          float64 // as if residuals were white
	Common           map[string]float64
	Determined       bool
	Why              string
	Warnings         []string
}

// StaticMargin is the margin in percent of the mean aerodynamic chord for a CG at the moment point, positive stable.
func (m Margin) StaticMargin() float64 { return -100 * m.Value }

// MarginByForce regresses the pitching moment on *measured lift*, dimensionless pitch rate and elevator, each segment with a constant of its
// own. With
//
//	CL = CL_0 + CL_α·α + CL_q·q̂ + CL_δe·δe    Cm = Cm_0 + Cm_α·α + Cm_q·q̂ + Cm_δe·δe
//
// the angle of attack drops out: Cm = … + (Cm_α/CL_α)·CL + (Cm_q − CL_q·Cm_α/CL_α)·q̂ + (Cm_δe − CL_δe·Cm_α/CL_α)·δe, and with it every gust,
// which moves lift and moment by way of the angle alone. What remains of noise is that of accelerometers and gyros. The angle of attack of
// the segments only turns the specific forces into lift.
//
// Left out: gusts shorter than the distance from foreplane to wing, which they reach one after the other.
//
// Derived above; the idea is that of the stick-fixed manoeuvre margin by accelerometer, for instance Perkins and Hage, section 5 (from
// memory).
func MarginByForce(segments []Segment, setup Setup) (Margin, error) {
	g, err := gather(segments, Longitudinal, setup)
	if err != nil {
		return Margin{}, err
	}
	samples := g.blocks(asReported())
	head := g.header("", samples)
	out := Margin{
		Flights: head.Flights, Segments: head.Segments, Power: head.Power, MomentX: head.MomentX, MomentZ: head.MomentZ,
		LiftCoefficient: head.LiftCoefficient, Warnings: append(g.lonely(), g.warnings...), Common: map[string]float64{},
	}
	used := movedColumns(samples, axisTerms(Longitudinal))
	r, err := regress(byLift(samples, used))
	if errors.Is(err, leastsquares.ErrUndetermined) {
		out.Why = "lift, pitch rate and elevator always moved together; fly elevator doublets of two different lengths, hands off after each"
		return out, nil
	}
	if err != nil {
		return Margin{}, err
	}
	out.Value, out.SD, out.WhiteSD = r.values[0][0], math.Sqrt(r.widened(r.coloured())[0][0]), math.Sqrt(r.white[0][0])
	for _, s := range g.shifts() {
		if change := r.again(byLift(g.shifted(s), used))[0][0] - out.Value; math.Abs(change) > negligible*out.SD {
			out.Common[s.source] = change
		}
	}
	out.Why = g.marginLacks(&out)
	out.Determined = out.Why == ""
	return out, nil
}

// byLift puts measured lift in the place of the angle of attack, and leaves the moment as the only response.
func byLift(samples []block, used []int) []block {
	out := narrowed(samples, used)
	for i := range out {
		out[i].columns[0] = samples[i].responses[0]
		out[i].responses = samples[i].responses[1:]
	}
	return out
}

// widestMargin is the standard deviation of dCm/dCL from which it is not worth quoting: ten percent of the chord, as much as the
// margin of most models. Common practice, no source.
const widestMargin = 0.10

func (g *gathered) marginLacks(m *Margin) string {
	for _, e := range axisResponses(Longitudinal) {
		if why := g.unmeasured(e); why != "" {
			return why
		}
	}
	if !(m.SD <= widestMargin) {
		return fmt.Sprintf("the inputs moved the model too little against its noise: the static margin comes out as %.0f %% ± %.0f %% of the chord; fly larger elevator doublets",
			m.StaticMargin(), 100*m.SD)
	}
	return ""
}
