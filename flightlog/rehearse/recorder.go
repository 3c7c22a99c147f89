package rehearse

import (
	"math"
	"math/rand/v2"

	"wingproof/aero/atmosphere"
)

// moment is the truth that the instruments look at, at one instant.
type moment struct {
	time          float64
	s             state
	speed         float64 // true airspeed, m/s
	force         vector  // specific, at the CG
	acceleration  vector  // of the rates, rad/s²
	flow          vector  // velocity of the CG through the air, m/s
	c             commands
	height        float64
	pressure, kel float64
}

// recorder samples the truth into a log.
type recorder struct {
	Instruments
	errors        flightErrors
	log           *Log
	count         int // fast samples so far
	airEvery      int
	satEvery      int
	north         []float64 // velocity over the earth at each fast sample
	east          []float64
	down          []float64
	fieldAltitude float64 // pressure altitude at the start by the same sensor
	rng           *rand.Rand
	arms          arms
	vanes         vanePair
}

func newRecorder(i Instruments, fieldPressure float64, rng *rand.Rand) *recorder {
	r := &recorder{
		Instruments: i, errors: i.draw(rng), rng: rng, log: newLog(int(360*i.FastRate), i.Vanes.Fitted),
		airEvery: int(math.Round(i.FastRate / i.AirRate)), satEvery: int(math.Round(i.FastRate / i.SatelliteRate)),
	}
	r.log.Sensors = i.Sensors
	r.vanes = newVanePair(i.Vanes, r.errors.vanes)
	r.fieldAltitude = atmosphere.PressureAltitude(fieldPressure + r.errors.pressure)
	return r
}

// sample writes one row. The order of the draws is fixed by the order of the lines.
func (r *recorder) sample(m *moment) {
	var row [columns]float64
	for i := range row {
		row[i] = math.NaN()
	}
	r.inertial(m, &row)
	row[atElevator], row[atAileron] = m.c.elevator, m.c.aileron
	row[atRudderLeft], row[atRudderRight] = m.c.rudder, m.c.rudder
	row[atThrottle] = m.c.throttle
	if r.count%r.airEvery == 0 {
		r.airData(m, &row)
	}
	r.satellite(m, &row)
	r.log.add(m.time, &row)
	if r.Vanes.Fitted {
		r.log.addVanes(r.direction(m))
	}
	r.count++
}

// rates of the body.
func (m *moment) rates() vector { return vector{m.s.p, m.s.q, m.s.r} }

// direction is what the vanes read, blank between their samples.
func (r *recorder) direction(m *moment) [2]float64 {
	if r.count%r.airEvery != 0 {
		return [2]float64{math.NaN(), math.NaN()}
	}
	return r.vanes.read(velocityAt(m.flow, m.rates(), r.arms.vanes))
}

// inertial fills rates, specific forces and attitude, all in the axes of the unit, which is mounted nose
// up by Boresight.
func (r *recorder) inertial(m *moment, row *[columns]float64) {
	sin, cos := math.Sincos(r.Boresight)
	turn := func(v vector) vector { return vector{v[0]*cos - v[2]*sin, v[1], v[0]*sin + v[2]*cos} }
	rates := turn(m.rates())
	forces := m.force
	if r.arms.inertial != (vector{}) {
		forces = forceAt(forces, m.rates(), m.acceleration, r.arms.inertial)
	}
	forces = turn(forces)
	for k := range 3 {
		row[atRollRate+k] = rates[k] + r.errors.rate[k] + r.RateNoise*r.rng.NormFloat64()
	}
	for k := range 3 {
		row[atForward+k] = forces[k] + r.errors.force[k] + r.ForceNoise*r.rng.NormFloat64()
	}
	unit := m.s
	sinHalf, cosHalf := math.Sincos(r.Boresight / 2)
	unit.a, unit.b = m.s.a*cosHalf-m.s.c*sinHalf, m.s.b*cosHalf-m.s.d*sinHalf
	unit.c, unit.d = m.s.c*cosHalf+m.s.a*sinHalf, m.s.d*cosHalf+m.s.b*sinHalf
	roll, pitch, heading := unit.angles()
	row[atRoll] = roll + r.errors.roll + r.AttitudeNoise*r.rng.NormFloat64()
	row[atPitch] = pitch + r.errors.pitch + r.AttitudeNoise*r.rng.NormFloat64()
	row[atHeading] = circle(heading + r.errors.heading + r.AttitudeNoise*r.rng.NormFloat64())
}

// airData fills airspeed, pressure and altitude.
func (r *recorder) airData(m *moment, row *[columns]float64) {
	speed := m.speed
	if r.arms.tube != (vector{}) {
		v := velocityAt(m.flow, m.rates(), r.arms.tube)
		speed = math.Sqrt(v[0]*v[0] + v[1]*v[1] + v[2]*v[2])
	}
	calibrated := atmosphere.CalibratedAirspeed(speed, m.pressure, m.kel)
	row[atAirspeed] = math.Max(0, calibrated*(1+r.AirspeedScale)+r.AirspeedNoise*r.rng.NormFloat64())
	pressure := m.pressure + r.errors.pressure + r.PressureNoise*r.rng.NormFloat64()
	row[atPressure] = pressure
	row[atAltitude] = atmosphere.PressureAltitude(pressure) - r.fieldAltitude
}

// satellite keeps the velocity over the earth and fills it in late and seldom.
func (r *recorder) satellite(m *moment, row *[columns]float64) {
	matrix := m.s.rotation()
	v := vector{m.s.u, m.s.v, m.s.w}
	if r.arms.antenna != (vector{}) {
		v = velocityAt(v, m.rates(), r.arms.antenna)
	}
	north, east, down := matrix.earth(v[0], v[1], v[2])
	r.north, r.east, r.down = append(r.north, north), append(r.east, east), append(r.down, down)
	if r.count%r.satEvery != 0 {
		return
	}
	at := math.Max(0, float64(r.count)-r.SatelliteLag*r.FastRate)
	n := between(r.north, at) + r.SatelliteNoise*r.rng.NormFloat64()
	e := between(r.east, at) + r.SatelliteNoise*r.rng.NormFloat64()
	d := between(r.down, at) + r.SatelliteNoise*r.rng.NormFloat64()
	row[atGroundSpeed] = math.Hypot(n, e)
	row[atTrack] = circle(math.Atan2(e, n))
	row[atClimb] = -d
	row[atTemperature] = m.kel + r.errors.outside
}

// between reads a slice at a fractional index.
func between(v []float64, at float64) float64 {
	i := int(at)
	if i+1 >= len(v) {
		return v[len(v)-1]
	}
	share := at - float64(i)
	return v[i]*(1-share) + v[i+1]*share
}

// circle brings an angle into 0 to 2π.
func circle(x float64) float64 {
	x = math.Mod(x, 2*math.Pi)
	if x < 0 {
		x += 2 * math.Pi
	}
	return x
}
