package reduce

import (
	"fmt"
	"math"

	"wingproof/flightlog"
	"wingproof/flightlog/identify"
	"wingproof/flightlog/manoeuvre"
	"wingproof/flightlog/statistic"
)

// sampler brings all channels of an input onto one uniform grid.
type sampler struct {
	m        *measurement
	gyroStep float64
	rates    [3]flightlog.Channel // as logged
	forces   [3]flightlog.Channel
	speed    flightlog.Channel // calibrated, as logged
	tube     [3]float64        // from the CG to the airspeed tube, body axes
	unit     [3]float64        // to the inertial unit
}

func newSampler(m *measurement) *sampler {
	s := &sampler{m: m, gyroStep: evenStep(m.g.clean[flightlog.PitchRate], m.gyroStep()), speed: m.g.clean[flightlog.Airspeed]}
	s.tube, s.unit = fromCG(m.sensors.Tube, m.context.CG), fromCG(m.sensors.Inertial, m.context.CG)
	for k, q := range rateChannels() {
		s.rates[k] = m.g.clean[q]
	}
	for k, q := range forceChannels() {
		s.forces[k] = m.g.clean[q]
	}
	return s
}

func rateChannels() [3]flightlog.Quantity {
	return [3]flightlog.Quantity{flightlog.RollRate, flightlog.PitchRate, flightlog.YawRate}
}

func forceChannels() [3]flightlog.Quantity {
	return [3]flightlog.Quantity{flightlog.ForwardAcceleration, flightlog.RightAcceleration, flightlog.DownAcceleration}
}

// gyroStep is the time from one reading of the gyros to the next: from row to row, or that of the path where rows repeat a reading.
func (m *measurement) gyroStep() float64 {
	row, reading := math.Inf(1), math.Inf(1)
	for _, q := range rateChannels() {
		c := m.g.clean[q]
		row = math.Min(row, c.Step())
		reading = math.Min(reading, readings(c).Step())
	}
	if reading > 1.5*row {
		return math.Max(row, m.pathStep())
	}
	return row
}

func (m *measurement) pathStep() float64 { return m.flown.Time[1] - m.flown.Time[0] }

// segment samples an input over a span; why says that it cannot.
func (s *sampler) segment(in manoeuvre.Manoeuvre, over span) (out identify.Segment, why string) {
	if over.why != "" {
		return out, over.why
	}
	for _, q := range s.m.needs(in.Control) {
		if len(s.m.g.clean[q].Time) < 2 {
			return out, fmt.Sprintf("%s was not recorded, and what it did meanwhile is not known", spoken(q))
		}
	}
	r := s.newRaster(over)
	rate, force, why := s.inertial(r)
	if why != "" {
		return out, why
	}
	out = identify.Segment{
		Flight: s.m.context.Flight, Kind: string(in.Kind), Control: in.Control, Power: string(s.m.powerOver(over.start, over.end)),
		Start: r.start, Step: r.step * float64(r.every), Gusts: s.m.flown.GustLevel, Body: s.m.context.Inertia, CGX: s.m.context.CG.X, CGZ: s.m.context.CG.Z,
	}
	out.Body.Mass = s.m.context.Mass
	if out.Control == flightlog.RudderRight && len(s.m.g.clean[flightlog.RudderLeft].Time) > 1 {
		out.Control = flightlog.RudderLeft
	}
	p := s.m.flown
	roll, rollStep := s.attitude(r, flightlog.RollAngle, p.Roll)
	pitch, pitchStep := s.attitude(r, flightlog.PitchAngle, p.Pitch)
	out.AttitudeStep = slower(math.Max(rollStep, pitchStep), out.Step)
	alpha, beta := r.path(p.Time, p.Alpha), r.path(p.Time, p.Beta)
	speed, why := s.airspeed(r, rate, alpha, beta)
	if why != "" {
		return out, why
	}
	out.Airspeed, out.AirspeedStep = r.reduced(speed), slower(readings(between(s.speed, r.start, r.end())).Step(), out.Step)
	out.RollRate, out.PitchRate, out.YawRate = r.reduced(rate[0]), r.reduced(rate[1]), r.reduced(rate[2])
	out.ForwardForce, out.RightForce, out.DownForce = r.reduced(force[0]), r.reduced(force[1]), r.reduced(force[2])
	out.Roll, out.Pitch, out.Alpha, out.Beta = r.reduced(roll), r.reduced(pitch), r.reduced(alpha), r.reduced(beta)
	out.Elevator = r.reduced(r.held(s.m.g.clean[flightlog.Elevator]))
	out.Aileron = r.reduced(r.held(s.m.g.clean[flightlog.Aileron]))
	out.Rudder = r.reduced(s.rudder(r))
	i, j := s.m.instants(over.start, over.end)
	out.Density = meanFinite(s.m.air.density[i:j])
	if !soundSegment(out) {
		return out, "its samples give no finite numbers"
	}
	return out, ""
}

// needs lists the controls that must have been recorded for an input to be understood. Nobody's hand holds the other lateral
// control still.
func (m *measurement) needs(control flightlog.Quantity) []flightlog.Quantity {
	if control == flightlog.Elevator {
		return []flightlog.Quantity{flightlog.Elevator}
	}
	rudder := flightlog.RudderLeft
	if len(m.g.clean[rudder].Time) < 2 && len(m.g.clean[flightlog.RudderRight].Time) >= 2 {
		rudder = flightlog.RudderRight
	}
	return []flightlog.Quantity{flightlog.Aileron, rudder}
}

// inertial gives rates and specific forces at the CG on the fine raster. Their biases are what the reconstruction took off: it
// knows them over the whole flight.
func (s *sampler) inertial(r raster) (rate, force [3][]float64, why string) {
	const beside = 0.6 // s to either side: for slopes, and for readings of slow channels
	read := func(c flightlog.Channel, q flightlog.Quantity) []float64 {
		out, lack := r.read(readings(between(c, r.start-beside, r.end()+beside)), q)
		if lack != "" && why == "" {
			why = lack
		}
		return out
	}
	for k := range 3 {
		rate[k], force[k] = read(s.rates[k], rateChannels()[k]), read(s.forces[k], forceChannels()[k])
	}
	if why != "" {
		return rate, force, why
	}
	atCG(force, rate, s.unit, r.step)
	p := s.m.flown
	for k, series := range [3][]float64{p.RollRate, p.PitchRate, p.YawRate} {
		r.unbias(rate[k], p.Time, series)
	}
	for k, series := range [3][]float64{p.ForwardForce, p.RightForce, p.DownForce} {
		r.unbias(force[k], p.Time, series)
	}
	return rate, force, ""
}

// unbias takes off by how much a series on the fine raster stands above one of the path, on average over what stays.
func (r raster) unbias(fine, times, series []float64) {
	sum := 0.0
	l := reader{Channel: flightlog.Channel{Time: times, Value: series}}
	last := len(fine) - r.margin
	for i := r.margin; i < last; i++ {
		sum += fine[i] - l.straight(r.time(i))
	}
	for i := range fine {
		fine[i] -= sum / float64(last-r.margin)
	}
}

// airspeed is the true airspeed of the CG with the error of the tube's scale still in it: what the tube feels less what turning adds there.
func (s *sampler) airspeed(r raster, rate [3][]float64, alpha, beta []float64) (out []float64, why string) {
	const beside = 3.0 // s: readings of slow tubes
	calibrated := readings(between(s.speed, r.start-beside, r.end()+beside))
	if out, why = r.read(calibrated, flightlog.Airspeed); why != "" {
		return nil, why
	}
	trueness := s.trueness(r)
	for i := range out {
		a, b := clamp(alpha[i]), clamp(beta[i]) // angles of flight; clamped against nonsense
		along := [3]float64{math.Cos(a) * math.Cos(b), math.Sin(b), math.Sin(a) * math.Cos(b)}
		spin := cross([3]float64{rate[0][i], rate[1][i], rate[2][i]}, s.tube)
		out[i] = out[i]*trueness - (along[0]*spin[0] + along[1]*spin[1] + along[2]*spin[2])
	}
	return out, ""
}

// trueness is true over calibrated airspeed about a raster; height changes it by a thousandth in 20 m.
func (s *sampler) trueness(r raster) float64 {
	i, j := s.m.instants(r.start, r.end())
	return meanFinite(s.m.air.speed[i:j]) / meanFinite(s.m.g.get(flightlog.Airspeed)[i:j])
}

// rudder is the mean of both where both were logged, else the one that was.
func (s *sampler) rudder(r raster) []float64 {
	left, right := s.m.g.clean[flightlog.RudderLeft], s.m.g.clean[flightlog.RudderRight]
	switch {
	case len(right.Time) == 0:
		return r.held(left)
	case len(left.Time) == 0:
		return r.held(right)
	}
	out, other := r.held(left), r.held(right)
	for i := range out {
		out[i] = (out[i] + other[i]) / 2
	}
	return out
}

// meanFinite is the mean of the finite values; NaN when there is none.
func meanFinite(values []float64) float64 {
	sum, n := 0.0, 0.0
	for _, v := range values {
		if statistic.Finite(v) {
			sum, n = sum+v, n+1
		}
	}
	return sum / n
}

// soundSegment tells whether every number of a segment is one.
func soundSegment(s identify.Segment) bool {
	sum := s.Density + s.Start + s.Step
	for _, series := range [][]float64{s.RollRate, s.PitchRate, s.YawRate, s.ForwardForce, s.RightForce, s.DownForce,
		s.Roll, s.Pitch, s.Airspeed, s.Alpha, s.Beta, s.Elevator, s.Aileron, s.Rudder} {
		for _, v := range series {
			sum += math.Abs(v)
		}
	}
	return statistic.Finite(sum) && s.Density > 0
}

// evenStep is the mean step of a channel about a rough one, one and the same for all segments of a flight: of rounded times the median is off,
// and holes and repeated readings count as the steps that they span.
func evenStep(c flightlog.Channel, rough float64) float64 {
	time, steps := 0.0, 0.0
	for i := 1; i < len(c.Time); i++ {
		d := c.Time[i] - c.Time[i-1]
		if k := math.Round(d / rough); k >= 1 && k <= 5 {
			time, steps = time+d, steps+k
		}
	}
	if steps == 0 {
		return rough
	}
	return time / steps
}
