package rehearse

import "math"

// clip keeps commands within the travels.
func (a Aircraft) clip(c commands) commands {
	return commands{a.Elevator.clip(c.elevator), a.Aileron.clip(c.aileron), a.Rudder.clip(c.rudder), c.throttle}
}

// advance moves surfaces, thrust, gusts and body on by one step.
func (f *flight) advance() {
	var middle, end [3]float64
	for i, command := range [...]float64{f.command.elevator, f.command.aileron, f.command.rudder} {
		middle[i], end[i] = f.surfaces[i].move(command)
	}
	half, whole := f.thrust()
	before := f.now
	f.now = f.behind(end, whole)
	course := [3]controls{f.now, f.now, f.now}
	if f.f.Continuous {
		course = [3]controls{before, f.behind(middle, half), f.now}
	}
	f.s = f.f.stepThrough(f.s, course, f.air.around(-f.s.down), f.dt)
	f.air.advance(f.dt, f.trueAirspeed(), f.rng)
	f.steps++
}

// thrust is the setting in the middle and at the end of a step.
func (f *flight) thrust() (half, whole float64) {
	lag, away := f.f.Propulsion.Lag, f.command.throttle-f.now.thrust
	switch {
	case lag <= 0:
		return f.now.thrust + away, f.now.thrust + away
	case f.f.Continuous:
		return f.now.thrust - away*math.Expm1(-f.dt/2/lag), f.now.thrust - away*math.Expm1(-f.dt/lag)
	}
	whole = f.now.thrust + away*math.Min(1, f.dt/lag)
	return whole, whole
}

// behind are the controls behind logged surface angles.
func (f *flight) behind(logged [3]float64, thrust float64) controls {
	i := &f.recorder.Instruments
	return controls{
		elevator: logged[0]*(1+i.ElevatorScale) + i.ElevatorZero + f.recorder.errors.play,
		aileron:  logged[1]*(1+i.AileronScale) + i.AileronZero,
		rudder:   logged[2]*(1+i.RudderScale) + i.RudderZero,
		thrust:   thrust,
	}
}
