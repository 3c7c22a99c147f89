package reconstruct

import (
	"math"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
)

// lagProblem compares changes of the satellite velocity with the integral of the acceleration over the earth. With the lag τ,
//
//	v_i − v_{i−1} = ∫ a dt + Σ_j c_j·∫ r_j dt + noise,  both integrals from t_{i−1}−τ to t_i−τ
//
// The r_j are what errors of the inertial unit make of a: an error of the heading turns a, so that in a steady turn it looks
// just like a lag; a constant force along the heading or across it does too. They are fitted with every lag that is tried. Least
// squares over all axes; correlating v with the integral would do the same, but for the drift of the integral.
type lagProblem struct {
	velocity []flightlog.Channel
	force    []*line   // acceleration, an axis each
	errors   [][]*line // r_j, an axis each
}

// lagProblems are those of the horizontal velocity and of the climb rate.
func (in *input) lagProblems() (horizontal, vertical lagProblem) {
	a, cosine, sine := in.earthAcceleration()
	for k := range a {
		a[k] = calm(a[k])
	}
	minus := func(c flightlog.Channel) *line {
		out := flightlog.Channel{Time: c.Time, Value: make([]float64, len(c.Value))}
		for i, v := range c.Value {
			out.Value[i] = -v
		}
		return newLine(out)
	}
	horizontal = lagProblem{
		velocity: []flightlog.Channel{thinned(in.measured[northSpeed], slowRate), thinned(in.measured[eastSpeed], slowRate)},
		force:    []*line{newLine(a[0]), newLine(a[1])},
		errors:   [][]*line{{minus(a[1]), newLine(a[0])}, {newLine(cosine), newLine(sine)}, {minus(sine), newLine(cosine)}},
	}
	one := flightlog.Channel{Time: a[2].Time, Value: make([]float64, len(a[2].Value))}
	for i := range one.Value {
		one.Value[i] = 1
	}
	vertical = lagProblem{
		velocity: []flightlog.Channel{thinned(in.measured[climbRate], slowRate)},
		force:    []*line{minus(a[2])},
		errors:   [][]*line{{newLine(one)}},
	}
	return horizontal, vertical
}

// earthAcceleration turns the specific forces by the logged attitude and adds gravity; with cosine and sine of the heading. Where the logged heading
// jumps, the longest part between jumps serves: one error of the heading is fitted to all of it.
func (in *input) earthAcceleration() (a [3]flightlog.Channel, cosine, sine flightlog.Channel) {
	var force, angle [3]*line
	for k := range 3 {
		force[k] = newLine(thinned(in.forces[k], mostRate))
		angle[k] = newLine(in.measured[rollAngle+kind(k)])
	}
	start, end := in.steadyHeading()
	for _, t := range force[0].Time {
		whole := t >= start && t < end
		for k := range 3 {
			whole = whole && force[k].near(t, lagHole) && angle[k].near(t, lagHole)
		}
		if !whole {
			continue
		}
		r := rotationOf(angle[0].at(t), angle[1].at(t), angle[2].at(t))
		v := r.earth([3]float64{force[0].at(t), force[1].at(t), force[2].at(t)})
		v[2] += atmosphere.Gravity
		sin, cos := math.Sincos(angle[2].at(t))
		for _, add := range [...]struct {
			to    *flightlog.Channel
			value float64
		}{{&a[0], v[0]}, {&a[1], v[1]}, {&a[2], v[2]}, {&cosine, cos}, {&sine, sin}} {
			add.to.Time, add.to.Value = append(add.to.Time, t), append(add.to.Value, add.value)
		}
	}
	return a, cosine, sine
}

// calm averages a channel over 0.12 s. Between two noisy samples a straight line scatters less than at them, which would draw the lag to
// the middle between samples; the average takes that away, and is too short to flatten what the model does.
func calm(c flightlog.Channel) flightlog.Channel {
	const reach = 0.06
	ahead, behind := newLine(c), newLine(c)
	out := channelOf(c.Time)
	for i, t := range c.Time {
		out.Value[i] = (ahead.integral(t+reach) - behind.integral(t-reach)) / (2 * reach)
	}
	return out
}
