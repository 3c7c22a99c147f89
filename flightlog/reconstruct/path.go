package reconstruct

import (
	"math"

	"wingproof/flightlog/statistic"
)

// Path is the motion of the model through the air and over the earth on a uniform grid, at the CG, SI and radians, with
// standard deviations. Where the model does not fly faster than 6 m/s, flow angles are NaN; where nothing was recorded for ten seconds or
// more, everything but Time is.
//
// The attitude, and with it Alpha, is that of the inertial unit; how far the unit is mounted nose up against the datum axis cannot be
// seen in flight. AlphaSD holds its declared standard deviation.
type Path struct {
	Time     []float64 // s
	Airborne []bool

	Alpha, AlphaSD         []float64 // angle of attack
	Beta, BetaSD           []float64 // sideslip, positive with the wind from the right
	AlphaCommonSD          []float64 // the part of AlphaSD that a flight shares for minutes: mounting, steady vertical air, attitude; it cancels in changes
	BetaCommonSD           []float64 // the same for Beta: wind, heading, attitude
	Airspeed, AirspeedSD   []float64 // true, without the error of the scale
	Roll, Pitch, Heading   []float64 // heading from 0 to 2π
	PitchSD, HeadingSD     []float64
	Height                 []float64 // m above the start
	VelocityNorth          []float64 // over the earth
	VelocityEast           []float64
	VelocityDown           []float64
	WindNorth, WindEast    []float64 // velocity of the air over the earth, gusts included
	WindDown               []float64
	SteadyNorth            []float64 // the same without gusts
	SteadyEast             []float64
	SteadyDown             []float64
	SteadyNorthSD          []float64
	SteadyEastSD           []float64
	SteadyDownSD           []float64
	RollRate               []float64 // as logged, without bias
	PitchRate              []float64
	YawRate                []float64
	ForwardForce           []float64 // specific force at the CG as logged, without bias and without what the distance of the unit adds
	RightForce             []float64
	DownForce              []float64
	AirspeedScale, ScaleSD float64 // indicated over calibrated airspeed − 1, at the end of the flight; the sd holds both that follow
	ScaleOwnSD             float64 // of the scale as far as this flight's measurements tell it
	ScaleTemperatureSD     float64 // what the error of the air temperature adds, which flights of one day share

	RateBias, RateBiasSD         [3]float64 // taken off the rates at the end of the flight, rad/s
	ForceBias, ForceBiasSD       [3]float64 // the same of the forces, m/s²
	AttitudeBias, AttitudeBiasSD [3]float64 // of the logged roll, pitch and heading, at the end, rad

	SatelliteLag Lag      // of ground speed and track, taken off
	ClimbLag     Lag      // of climb rate
	Triangle     Triangle // wind and scale by the second road
	GustLevel    float64  // m/s, sd of each horizontal component
	GustLength   float64  // m
	Whiteness    []Whiteness
	Enough       bool // false: there is no path, and a finding says why
}

// newPath has the times of a grid and nothing else: NaN wherever nothing is written.
func newPath(tl *timeline) *Path {
	n := tl.grid
	p := &Path{Time: make([]float64, n), Airborne: make([]bool, n)}
	for i := range p.Time {
		p.Time[i] = tl.start + float64(i)*tl.step
	}
	for _, series := range p.series() {
		*series = make([]float64, n)
		for i := range *series {
			(*series)[i] = math.NaN()
		}
	}
	return p
}

// series lists what has one value an instant, but for Time.
func (p *Path) series() []*[]float64 {
	return []*[]float64{&p.Alpha, &p.AlphaSD, &p.Beta, &p.BetaSD, &p.AlphaCommonSD, &p.BetaCommonSD, &p.Airspeed, &p.AirspeedSD,
		&p.Roll, &p.Pitch, &p.Heading, &p.PitchSD, &p.HeadingSD, &p.Height, &p.VelocityNorth, &p.VelocityEast, &p.VelocityDown,
		&p.WindNorth, &p.WindEast, &p.WindDown, &p.SteadyNorth, &p.SteadyEast, &p.SteadyDown, &p.SteadyNorthSD, &p.SteadyEastSD, &p.SteadyDownSD,
		&p.RollRate, &p.PitchRate, &p.YawRate, &p.ForwardForce, &p.RightForce, &p.DownForce}
}

// writer fills a path from the smoother, from the end to the start.
type writer struct {
	path      *Path
	boresight float64
	last      bool // the values at the end of the flight are written
}

// put writes one instant.
func (w *writer) put(e *event, b *belief, a *adjoint) {
	i := int(e.grid)
	p := w.path
	s := smoothedEstimate(b, a)
	p.Time[i] = e.time
	p.putMotion(i, &s)
	spin := s.spin(e.rate)
	p.RollRate[i], p.PitchRate[i], p.YawRate[i] = spin[0], spin[1], spin[2]
	w.putFlow(i, &s, b, a)
	p.SteadyNorthSD[i] = oneState(atWind, b, a)
	p.SteadyEastSD[i] = oneState(atWind+1, b, a)
	p.SteadyDownSD[i] = oneState(atVertical, b, a)
	rows, _ := s.attitude.angleSlopes()
	p.PitchSD[i] = tiltDeviation(rows[1], b, a)
	p.HeadingSD[i] = tiltDeviation(rows[2], b, a)
	if !w.last {
		w.last = true
		p.putEnd(&s, b, a)
	}
	for k, force := range [3]*[]float64{&p.ForwardForce, &p.RightForce, &p.DownForce} {
		(*force)[i] = -s.x[atForceBias+k] // the logged part is added by putForces
	}
}

// smoothedEstimate is the estimate with everything known: x − P·λ.
func smoothedEstimate(b *belief, a *adjoint) estimate {
	b.p.times(&a.first, &a.told, b.n)
	var d vector
	for i := range b.n {
		d[i] = -a.told[i]
	}
	s := b.estimate
	s.correct(&d)
	return s
}

func (p *Path) putMotion(i int, s *estimate) {
	roll, pitch, heading := s.attitude.angles()
	p.Roll[i], p.Pitch[i], p.Heading[i] = roll, pitch, math.Mod(heading+2*math.Pi, 2*math.Pi)
	x := &s.x
	p.Height[i] = x[atHeight]
	p.VelocityNorth[i], p.VelocityEast[i], p.VelocityDown[i] = x[atVelocity], x[atVelocity+1], x[atVelocity+2]
	p.SteadyNorth[i], p.SteadyEast[i], p.SteadyDown[i] = x[atWind], x[atWind+1], x[atVertical]
	p.WindNorth[i], p.WindEast[i], p.WindDown[i] = x[atWind]+x[atGust], x[atWind+1]+x[atGust+1], x[atVertical]+x[atGust+2]
}

// putFlow writes airspeed and flow angles with their standard deviations.
func (w *writer) putFlow(i int, s *estimate, b *belief, a *adjoint) {
	p := w.path
	v := s.attitude.body(s.flow())
	speed := math.Sqrt(dot(v, v))
	p.Airspeed[i] = speed
	if speed < slowestTube {
		return
	}
	along := s.alongFlow([3]float64{v[0] / speed, v[1] / speed, v[2] / speed})
	p.AirspeedSD[i] = a.deviation(b, &along)
	alpha, gradient := flowAngle(vaneAlpha, v)
	total, common := flowDeviations(s, b, a, gradient)
	p.Alpha[i], p.AlphaSD[i], p.AlphaCommonSD[i] = alpha, math.Hypot(total, w.boresight), math.Hypot(common, w.boresight)
	beta, gradient := sideslip(v)
	p.Beta[i] = beta
	p.BetaSD[i], p.BetaCommonSD[i] = flowDeviations(s, b, a, gradient)
}

// alongFlow are the slopes of a function of the flow with a gradient in body axes.
func (b *estimate) alongFlow(gradient [3]float64) (h slopes) {
	b.flowSlopes(&h, gradient)
	return h
}

// flowDeviations are the standard deviation of a function of the flow, and that of the part that comes from everything but gusts,
// which stays for minutes.
func flowDeviations(s *estimate, b *belief, a *adjoint, gradient [3]float64) (total, common float64) {
	h := s.alongFlow(gradient)
	total = a.deviation(b, &h)
	h.n -= 3 // the gusts stand last
	return total, math.Min(total, a.deviation(b, &h))
}

func oneState(at int, b *belief, a *adjoint) float64 {
	var h slopes
	h.add(at, 1)
	return a.deviation(b, &h)
}

func tiltDeviation(row [3]float64, b *belief, a *adjoint) float64 {
	var h slopes
	h.addThree(atTilt, row)
	return a.deviation(b, &h)
}

// putEnd writes what is told once, at the last instant.
func (p *Path) putEnd(s *estimate, b *belief, a *adjoint) {
	p.AirspeedScale, p.ScaleOwnSD = s.x[atScale], oneState(atScale, b, a)
	for k := range 3 {
		p.RateBias[k], p.RateBiasSD[k] = s.x[atRateBias+k], oneState(atRateBias+k, b, a)
		p.ForceBias[k], p.ForceBiasSD[k] = s.x[atForceBias+k], oneState(atForceBias+k, b, a)
		p.AttitudeBias[k], p.AttitudeBiasSD[k] = s.x[atAttitudeBias+k], oneState(atAttitudeBias+k, b, a)
	}
}

// putForces adds the logged forces at the CG to the negative biases.
func (p *Path) putForces(in *input) {
	for k, force := range [3][]float64{p.ForwardForce, p.RightForce, p.DownForce} {
		l := newLine(in.forces[k])
		for i, t := range p.Time {
			force[i] += l.at(t)
		}
	}
}

// putAirborne marks the instants in flight: faster than a take-off run's half and off the ground where the recording starts there.
func (p *Path) putAirborne(fast float64) {
	const offGround = 1.5 // m: above the noise of a barometer
	ground := len(p.Airspeed) > 0 && !(p.Airspeed[0] >= fast)
	for i, v := range p.Airspeed {
		p.Airborne[i] = v >= fast && (!ground || p.Height[i] > offGround)
	}
}

// sound tells whether all that is claimed is a number.
func (p *Path) sound() bool {
	claimed := p.AirspeedScale + p.ScaleSD
	for _, series := range p.series() {
		for i, v := range *series {
			if p.Airborne[i] {
				claimed += v
			}
		}
	}
	return statistic.Finite(claimed)
}
