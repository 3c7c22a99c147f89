package reconstruct

import (
	"fmt"
	"math"
	"strings"

	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// mostRate is the highest rate [Hz] at which measurements are taken in: faster ones are averaged first. A model's motion is
// below 5 Hz; common practice, no source.
const mostRate = 100.0

// slowRate is the highest rate [Hz] of satellite speeds in the triangle and in the search for their lag: neighbours closer than that tell nothing
// new of a model's path; common practice, no source.
const slowRate = 20.0

// input is a recording made ready: everything true, clean and on its own time base.
type input struct {
	rates    [3]flightlog.Channel // body axes
	forces   [3]flightlog.Channel // at the CG
	measured [kinds]flightlog.Channel
	arms     arms
	air      *air
	start    float64
	end      float64
	vanes    bool
	lagSD    [kinds]float64 // s, of what is taken off the times of satellite speeds, where it is assumed
}

// essential are the channels without which there is no path.
func essential() []flightlog.Quantity {
	return []flightlog.Quantity{
		flightlog.RollRate, flightlog.PitchRate, flightlog.YawRate,
		flightlog.ForwardAcceleration, flightlog.RightAcceleration, flightlog.DownAcceleration,
		flightlog.RollAngle, flightlog.PitchAngle, flightlog.Heading,
		flightlog.Airspeed, flightlog.GroundSpeed, flightlog.GroundTrack,
	}
}

// gather makes the input, or says what is missing.
func gather(rec *flightlog.Recording, s Setup) (*input, []flightlog.Finding) {
	take := newTaker(rec, s)
	if missing := lacking(take); missing != "" {
		start, end := covered(rec)
		return nil, []flightlog.Finding{{Severity: flightlog.Note, Start: start, End: end,
			What:        "there is no usable " + missing,
			Consequence: "the path of the model through the air cannot be reconstructed: angle of attack is taken as pitch angle less path angle, and there is no sideslip"}}
	}
	in := &input{}
	findings := in.fill(rec, s, take)
	spans := in.span()
	if !spans {
		in.start, in.end = covered(rec)
	}
	for i := range findings { // each is about the whole recording
		findings[i].Start, findings[i].End = in.start, in.end
	}
	if !spans {
		return nil, append(findings, flightlog.Finding{Severity: flightlog.Note, Start: in.start, End: in.end, What: "rates, accelerations, attitude and satellite speeds have no time in common",
			Consequence: "the path of the model through the air cannot be reconstructed; check the time column"})
	}
	if long, is := in.tooLong(); is {
		return nil, append(findings, long)
	}
	return in, findings
}

// fill takes over every channel and says what had to be assumed.
func (in *input) fill(rec *flightlog.Recording, s Setup, take taker) []flightlog.Finding {
	for k, q := range [3]flightlog.Quantity{flightlog.RollRate, flightlog.PitchRate, flightlog.YawRate} {
		in.rates[k] = take(q)
	}
	findings := in.place(rec, s)
	for k, q := range [3]flightlog.Quantity{flightlog.ForwardAcceleration, flightlog.RightAcceleration, flightlog.DownAcceleration} {
		in.forces[k] = take(q)
	}
	in.forces = atCG(in.forces, in.rates, offset(rec.Sensors.Inertial, s.CG))
	in.measured[rollAngle] = unwrap(take(flightlog.RollAngle))
	in.measured[pitchAngle] = take(flightlog.PitchAngle)
	in.measured[headingAngle] = unwrap(take(flightlog.Heading))
	var more []flightlog.Finding
	in.air, more = newAir(take, s)
	findings = append(findings, more...)
	in.measured[airspeed] = in.air.trueAirspeed(take(flightlog.Airspeed))
	in.measured[height] = in.air.height()
	in.measured[northSpeed], in.measured[eastSpeed] = overGround(rec, s)
	in.measured[climbRate] = take(flightlog.ClimbRate)
	in.measured[vaneAlpha], in.measured[vaneBeta] = take(flightlog.AngleOfAttack), take(flightlog.Sideslip)
	if v := in.measured[airspeed]; len(v.Value) > 0 && v.Value[0] < flyingSpeed(v) {
		in.arms.lowest = groundAir
	}
	in.vanes = len(in.measured[vaneAlpha].Time)+len(in.measured[vaneBeta].Time) > 0
	return findings
}

// lacking names the essential quantities of which there are fewer than leastSamples.
func lacking(take taker) string {
	const leastSamples = 20 // four seconds of satellite navigation at 5 Hz
	var names []string
	usable := func(q flightlog.Quantity) bool { return len(take(q).Time) >= leastSamples }
	for _, q := range essential() {
		if !usable(q) {
			names = append(names, strings.ReplaceAll(string(q), "_", " "))
		}
	}
	if !usable(flightlog.StaticPressure) && !usable(flightlog.Altitude) && !usable(flightlog.ClimbRate) {
		names = append(names, "static pressure, altitude or climb rate")
	}
	return strings.Join(names, ", ")
}

// covered is the time from the first to the last sample of anything; zero twice for an empty recording.
func covered(rec *flightlog.Recording) (start, end float64) {
	start, end = math.Inf(1), math.Inf(-1)
	for _, q := range flightlog.Quantities() {
		if t := rec.Channels[q].Time; len(t) > 0 {
			start, end = math.Min(start, t[0]), math.Max(end, t[len(t)-1])
		}
	}
	if !(end >= start) || math.IsInf(start, 0) || math.IsInf(end, 0) {
		return 0, 0
	}
	return start, end
}

// span finds the time that every needed channel covers at its start and the last time that the inertial unit covers.
func (in *input) span() bool {
	in.start, in.end = math.Inf(-1), math.Inf(1)
	for k := range 3 {
		for _, c := range [2]flightlog.Channel{in.rates[k], in.forces[k]} {
			in.start, in.end = math.Max(in.start, c.Time[0]), math.Min(in.end, c.Time[len(c.Time)-1])
		}
	}
	for _, k := range [...]kind{rollAngle, pitchAngle, headingAngle, northSpeed} {
		if len(in.measured[k].Time) == 0 {
			return false
		}
		in.start = math.Max(in.start, in.measured[k].Time[0])
	}
	return in.end > in.start+1
}

// turning is the angular acceleration in pitch or yaw that one instant in a hundred exceeds, rad/s².
func (in *input) turning() float64 {
	most := 0.0
	for _, c := range in.rates[1:] {
		d := derivative(c, math.Max(2.5*c.Step(), slopeReach))
		most = math.Max(most, statistic.Quantile(statistic.Magnitudes(d.Value), 0.99))
	}
	return most
}

// place finds the arms and says what is not known about them where the flight shakes enough to make it matter.
func (in *input) place(rec *flightlog.Recording, s Setup) []flightlog.Finding {
	in.arms = arms{tube: offset(rec.Sensors.Tube, s.CG), vanes: offset(rec.Sensors.Vanes, s.CG), antenna: offset(rec.Sensors.Antenna, s.CG), lowest: math.Inf(-1)}
	var unknown []string
	for _, sensor := range []struct {
		name string
		at   *flightlog.Place
	}{{"the inertial unit", rec.Sensors.Inertial}, {"the airspeed tube", rec.Sensors.Tube}} {
		if sensor.at == nil {
			unknown = append(unknown, sensor.name)
		}
	}
	if len(rec.Channels[flightlog.AngleOfAttack].Time) > 0 && rec.Sensors.Vanes == nil {
		unknown = append(unknown, "the vanes")
	}
	const shakes = 1.5 // rad/s²: 0.3 m away that is 0.05 g
	if len(unknown) == 0 || in.turning() < shakes {
		return nil
	}
	return []flightlog.Finding{{Severity: flightlog.Note,
		What:        fmt.Sprintf("the logger map does not say where %s sit", strings.Join(unknown, " and ")),
		Consequence: "they are taken to sit at the centre of gravity; steady flight hardly minds, but in a doublet 0.3 m of distance is 0.1 g of acceleration and a third of a degree at a vane"}}
}

// offset is a place seen from the CG in body axes, from datum axes (x aft, z up) to X forward, Y right, Z down.
func offset(p *flightlog.Place, cg flightlog.Place) [3]float64 {
	if p == nil {
		return [3]float64{}
	}
	return [3]float64{cg.X - p.X, p.Y - cg.Y, cg.Z - p.Z}
}

// overGround makes north and east speeds of ground speed and track, at the times of the former.
func overGround(rec *flightlog.Recording, s Setup) (north, east flightlog.Channel) {
	speed, track := takenTogether(rec, s, flightlog.GroundSpeed, flightlog.GroundTrack)
	track = unwrap(track)
	l, longest := newLine(track), 1.5*math.Max(track.Step(), speed.Step())
	for i, t := range speed.Time {
		if !l.near(t, longest) {
			continue
		}
		sin, cos := math.Sincos(l.at(t))
		north.Time, north.Value = append(north.Time, t), append(north.Value, speed.Value[i]*cos)
		east.Time, east.Value = append(east.Time, t), append(east.Value, speed.Value[i]*sin)
	}
	return north, east
}
