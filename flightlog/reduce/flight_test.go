package reduce

import (
	"math"
	"math/rand/v2"

	"wingproof/flightlog"
)

// truth is an invented model whose flights are made below: lift α ► CL straight, parabolic polar, elevator
// straight in CL, as on a foreplane aircraft that is stable.
type truth struct {
	mass, area, chord          float64
	slope, zeroAlpha           float64 // CL = slope·(α − zeroAlpha)
	dragLeast, dragDueToLift   float64
	elevatorZero, elevatorRate float64 // δe = elevatorZero + elevatorRate·CL
}

func inventedModel() truth {
	return truth{mass: 14, area: 0.72, chord: 0.28, slope: 4.6, zeroAlpha: -1 * degree, dragLeast: 0.035, dragDueToLift: 0.055,
		elevatorZero: -3 * degree, elevatorRate: 9 * degree}
}

func (m truth) context() Context {
	return Context{Flight: "F1", Mass: m.mass, WingArea: m.area, MeanChord: m.chord, Pressure: 97500, Temperature: 292.8}
}

// leg is a stretch at one speed and throttle. Throttle 0 glides; else thrust holds level flight, or what climb asks.
type leg struct {
	seconds, speed float64
	throttle       float64
	climb          float64 // path angle, rad
	bank           float64
}

// noise is the standard deviation of each sensor, and of gusts.
type noise struct {
	acceleration, angle, rate, speed, height, elevator float64
	gust                                               float64 // vertical and along, m/s
}

// state is the motion of one instant of a made flight.
type state struct {
	speed, gamma, bank, throttle, glide float64 // glide: 0 powered to 1 thrust gone
	climb                               float64 // path angle asked for under power
	height, density, standard, kelvin   float64 // standard: temperature of the standard atmosphere at this pressure
	lift, drag, alpha, theta, cl        float64
}

const (
	made    = 0.02 // s, step of the made logs
	gravity = 9.80665
	gasR    = 287.05287
)

// motion blends the legs over 4 s each and solves the equations along and across the path, so that α, CL and CD of the
// truth hold at every instant.
func (m truth) motion(legs []leg) []state {
	var out []state
	for k, l := range legs {
		before := l
		if k > 0 {
			before = legs[k-1]
		}
		for i := range int(l.seconds / made) {
			s := math.Min(float64(i)*made/4, 1)
			s = s * s * (3 - 2*s)
			blend := func(a, b float64) float64 { return a + (b-a)*s }
			glides := func(l leg) float64 {
				if l.throttle == 0 {
					return 1
				}
				return 0
			}
			out = append(out, state{speed: blend(before.speed, l.speed), bank: blend(before.bank, l.bank), climb: blend(before.climb, l.climb),
				glide: blend(glides(before), glides(l)), throttle: l.throttle})
		}
	}
	for range 4 { // path angle, path rate and height settle against each other
		m.settle(out)
	}
	return out
}

func (m truth) settle(s []state) {
	c := m.context()
	h, p := 150.0, c.Pressure*math.Pow(1-0.0065*150/c.Temperature, gravity/gasR/0.0065)
	rates := make([][2]float64, len(s))
	for i := range s {
		const wide = 15 // samples: a short difference would make the rounds run away
		k := min(max(i, wide), len(s)-1-wide)
		rates[i] = [2]float64{(s[k+wide].speed - s[k-wide].speed) / (2 * wide * made), (s[k+wide].gamma - s[k-wide].gamma) / (2 * wide * made)}
	}
	for i := range s {
		x := &s[i]
		x.height, x.kelvin = h, c.Temperature-0.0065*h
		x.standard = 288.15 * math.Pow(p/101325, gasR*0.0065/gravity)
		x.density = p / (gasR * x.kelvin)
		q := x.density * x.speed * x.speed / 2 * m.area
		x.lift = m.mass * (x.speed*rates[i][1] + gravity*math.Cos(x.gamma)) / math.Cos(x.bank)
		x.cl = x.lift / q
		x.drag = q * (m.dragLeast + m.dragDueToLift*x.cl*x.cl)
		x.alpha = m.zeroAlpha + x.cl/m.slope
		x.gamma = (1-x.glide)*x.climb + x.glide*math.Asin(-x.drag/(m.mass*gravity)-rates[i][0]/gravity)
		// wings level this is γ + α; banked it solves sin γ = cos α sin θ − sin α cos φ cos θ
		a, b := math.Cos(x.alpha), math.Sin(x.alpha)*math.Cos(x.bank)
		x.theta = math.Asin(math.Sin(x.gamma)/math.Hypot(a, b)) + math.Atan2(b, a)
		step := x.speed * math.Sin(x.gamma) * made
		h += step
		p -= x.density * gravity * step
	}
}

// fly makes the log of the legs at 50 Hz, with noise. The altitude channel is a pressure altitude above the start.
func (m truth) fly(legs []leg, sd noise, seed uint64) *flightlog.Recording {
	s := m.motion(legs)
	rng := rand.New(rand.NewPCG(seed, 1))
	rec := &flightlog.Recording{Source: "made.csv", Channels: map[flightlog.Quantity]flightlog.Channel{}, Rows: len(s)}
	gustUp, gustAlong, drift, altitude := 0.0, 0.0, 0.0, s[0].height
	for i, x := range s {
		put := func(q flightlog.Quantity, value, sd float64) {
			c := rec.Channels[q]
			c.Time, c.Value = append(c.Time, float64(i)*made), append(c.Value, value+sd*rng.NormFloat64())
			rec.Channels[q] = c
		}
		rate := func(of func(state) float64) float64 {
			k := min(max(i, 1), len(s)-2)
			return (of(s[k+1]) - of(s[k-1])) / (2 * made)
		}
		const keep = 0.985 // gusts: first order, 1.3 s
		gustUp = keep*gustUp + math.Sqrt(1-keep*keep)*sd.gust*rng.NormFloat64()
		gustAlong = keep*gustAlong + math.Sqrt(1-keep*keep)*sd.gust*rng.NormFloat64()
		drift += gustUp / 4 * made // the model drifts with the air a little
		q := x.density * x.speed * x.speed / 2 * m.area
		gustLift := q * m.slope * gustUp / x.speed / 2 // and gives way to half of the gust
		thrust := x.drag + m.mass*(rate(func(s state) float64 { return s.speed })+gravity*math.Sin(x.gamma))
		sin, cos := math.Sincos(x.alpha)
		put(flightlog.ForwardAcceleration, (x.lift*sin-x.drag*cos+thrust)/m.mass, sd.acceleration)
		put(flightlog.DownAcceleration, -((x.lift+gustLift)*cos+x.drag*sin)/m.mass, sd.acceleration)
		put(flightlog.RightAcceleration, 0, sd.acceleration)
		put(flightlog.PitchAngle, x.theta, sd.angle)
		put(flightlog.RollAngle, x.bank, sd.angle)
		turn := gravity / x.speed * math.Tan(x.bank)
		put(flightlog.PitchRate, rate(func(s state) float64 { return s.theta })*math.Cos(x.bank)+turn*math.Sin(x.bank), sd.rate)
		put(flightlog.RollRate, rate(func(s state) float64 { return s.bank }), sd.rate)
		put(flightlog.YawRate, turn*math.Cos(x.bank), sd.rate)
		put(flightlog.Airspeed, (x.speed+gustAlong)*math.Sqrt(x.density/1.225), sd.speed)
		put(flightlog.Elevator, m.elevatorZero+m.elevatorRate*x.cl, sd.elevator)
		put(flightlog.Throttle, x.throttle, 0)
		if i > 0 {
			altitude += (x.height - s[i-1].height) * (x.standard + s[i-1].standard) / (x.kelvin + s[i-1].kelvin)
		}
		put(flightlog.Altitude, altitude+drift, sd.height)
	}
	return rec
}

// quiet is noise that hides no digit but keeps the channels moving.
func quiet() noise {
	return noise{acceleration: 1e-7, angle: 1e-8, rate: 1e-8, speed: 1e-7, height: 1e-7, elevator: 1e-9}
}

// usual is the noise of small sensors in light air.
func usual() noise {
	return noise{acceleration: 0.3, angle: 0.3 * degree, rate: 1 * degree, speed: 0.25, height: 0.2, elevator: 0.1 * degree, gust: 0.3}
}

func glides() []leg {
	return []leg{{12, 22, 0.5, 0, 0}, {13, 16, 0, 0, 0}, {13, 18.5, 0, 0, 0}, {10, 20, 0.55, 0, 35 * degree}, {13, 22, 0, 0, 0}, {13, 27, 0, 0, 0}, {12, 20, 1, 12 * degree, 0}}
}
