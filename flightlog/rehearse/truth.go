package rehearse

import "math"

// Truth is the motion as it really was at each row of a Log, at the CG: SI, radians, each as long as Time.
//
// Alpha and Beta are atan(w/u) and asin(v/V) of the velocity of the CG through the air, gusts included; both are
// zero below 0.1 m/s, where they mean nothing. Roll, pitch and heading are those of the datum axes, without the
// mounting of the inertial unit. On the ground the motion is prescribed, and Elevator is where the servo holds it.
type Truth struct {
	Alpha, Beta                   []float64
	Airspeed                      []float64 // true, m/s
	Roll, Pitch, Heading          []float64
	WindNorth, WindEast, WindDown []float64 // velocity of the air over the earth where the model is, gusts included, m/s
	SteadyNorth, SteadyEast       []float64 // the same without gusts
	Height                        []float64 // m above the field
	Elevator, Aileron, Rudder     []float64 // surface angles that acted, rad
	Lift                          []float64 // lift coefficient on the wing area, the propeller's forces excluded
}

// slices lists the channels in the order of the fields.
func (t *Truth) slices() []*[]float64 {
	return []*[]float64{
		&t.Alpha, &t.Beta, &t.Airspeed, &t.Roll, &t.Pitch, &t.Heading,
		&t.WindNorth, &t.WindEast, &t.WindDown, &t.SteadyNorth, &t.SteadyEast,
		&t.Height, &t.Elevator, &t.Aileron, &t.Rudder, &t.Lift,
	}
}

// incidence is angle of attack and sideslip of an air-relative velocity.
func incidence(u, v, w float64) (alpha, beta float64) {
	speed := math.Sqrt(u*u + v*v + w*w)
	if speed < slowestFlow {
		return 0, 0
	}
	return math.Atan2(w, u), math.Asin(v / speed)
}

// keepTruth adds one row to the log's truth.
func (f *flight) keepTruth() {
	around := f.air.around(-f.s.down)
	m := f.s.rotation()
	u, v, w := f.s.flow(&m, around)
	alpha, beta := incidence(u, v, w)
	roll, pitch, heading := f.s.angles()
	row := [...]float64{
		alpha, beta, math.Sqrt(u*u + v*v + w*w), roll, pitch, heading,
		around.north, around.east, around.down, f.air.north, f.air.east,
		-f.s.down, f.now.elevator, f.now.aileron, f.now.rudder, f.lift(&m, around),
	}
	for i, slice := range f.recorder.log.Truth.slices() {
		*slice = append(*slice, row[i])
	}
}

// lift is the coefficient of lift, rates included; zero where the air stands still.
func (f *flight) lift(m *rotation, around surroundings) float64 {
	u, v, w := f.s.flow(m, around)
	speed := math.Sqrt(u*u + v*v + w*w)
	if speed < slowestFlow {
		return 0
	}
	free := f.now
	free.thrust = 0
	to := f.f.rates(&f.s, m, f.now, around)
	lift, _, _ := f.f.along(math.Atan2(w, u), f.s.q*f.f.chord/(2*speed), to.alpha, free)
	return lift
}
