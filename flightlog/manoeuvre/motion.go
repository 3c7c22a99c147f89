package manoeuvre

import (
	"math"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// motion is what the search for steady manoeuvres looks at, on the slow clock. A series is nil where no channel gives it.
type motion struct {
	clock
	speed    []float64 // m/s, calibrated airspeed; over the ground where none was recorded
	trend    []float64 // m/s², of speed
	bank     []float64 // rad
	heading  []float64 // rad, unrolled
	turnRate []float64 // rad/s
	path     []float64 // rad, flight path above the horizon
	throttle []float64
	pitch    []float64 // pitch rate, rad/s
	elevator []float64 // rad
	load     []float64 // load factor

	flying     []bool
	calibrated bool // speed is airspeed
}

func newMotion(rec *flightlog.Recording, k clock) *motion {
	m := &motion{clock: k}
	half := k.count(smoothHalf)
	get := func(q flightlog.Quantity, round bool) []float64 {
		if c := rec.Channels[q]; len(c.Time) >= 2 {
			return sampled(c, k, round)
		}
		return nil
	}
	smooth := func(x []float64) []float64 {
		if x == nil {
			return nil
		}
		return smoothed(x, half)
	}
	speed := get(flightlog.Airspeed, false)
	if m.calibrated = speed != nil; !m.calibrated {
		speed = get(flightlog.GroundSpeed, false)
	}
	m.speed = smooth(speed)
	if m.speed != nil {
		m.trend = slope(m.speed, k.count(slopeHalf), k.step)
	}
	m.directions(get, smooth)
	m.climbing(get, smooth)
	if c := rec.Channels[flightlog.Throttle]; len(c.Time) > 0 {
		m.throttle = held(c, k)
	}
	if c := rec.Channels[flightlog.Elevator]; len(c.Time) > 0 {
		m.elevator = held(c, k)
	}
	m.pitch = get(flightlog.PitchRate, false)
	m.load = loadFactor(get(flightlog.DownAcceleration, false))
	m.findFlying(get(flightlog.Altitude, false))
	return m
}

// directions fills heading, turn rate and bank, each from what is there: the heading, else the track over the ground; the bank
// angle, else what a coordinated turn at that rate needs, tan φ = V·ψ̇/g.
func (m *motion) directions(get func(flightlog.Quantity, bool) []float64, smooth func([]float64) []float64) {
	m.heading = get(flightlog.Heading, true)
	if m.heading == nil {
		m.heading = get(flightlog.GroundTrack, true)
	}
	bank := get(flightlog.RollAngle, false)
	m.bank = smooth(bank)
	if m.heading == nil && m.bank != nil && m.speed != nil {
		m.heading = turnedByBank(m.bank, m.speed, m.step)
	}
	if m.heading == nil {
		return
	}
	m.turnRate = slope(m.heading, m.count(slopeHalf), m.step)
	if m.bank == nil && m.speed != nil {
		m.bank = make([]float64, m.n)
		for i := range m.bank {
			m.bank[i] = math.Atan(m.speed[i] * m.turnRate[i] / atmosphere.Gravity)
		}
	}
}

// turnedByBank adds up the turn that a bank brings in coordinated flight.
func turnedByBank(bank, speed []float64, step float64) []float64 {
	out := make([]float64, len(bank))
	sum := 0.0
	for i := range out {
		if rate := atmosphere.Gravity * math.Tan(bank[i]) / math.Max(speed[i], leastSpeed); statistic.Finite(rate) && math.Abs(bank[i]) < 1.4 {
			sum += rate * step
		}
		out[i] = sum
	}
	return out
}

// climbing fills the path angle: climb rate, else the slope of altitude or of the altitude of static pressure, over airspeed.
func (m *motion) climbing(get func(flightlog.Quantity, bool) []float64, smooth func([]float64) []float64) {
	if m.speed == nil {
		return
	}
	climb := smooth(get(flightlog.ClimbRate, false))
	if climb == nil {
		height := get(flightlog.Altitude, false)
		if pressure := get(flightlog.StaticPressure, false); height == nil && pressure != nil {
			height = make([]float64, m.n)
			for i, p := range pressure {
				height[i] = atmosphere.PressureAltitude(math.Max(p, 1))
			}
		}
		if height == nil {
			return
		}
		climb = slope(smooth(height), m.count(slopeHalf), m.step)
	}
	m.path = make([]float64, m.n)
	for i := range m.path {
		m.path[i] = math.Asin(math.Max(-1, math.Min(1, climb[i]/math.Max(m.speed[i], leastSpeed))))
	}
}

// findFlying tells when the model is in the air.
func (m *motion) findFlying(altitude []float64) {
	m.flying = make([]bool, m.n)
	if m.speed == nil && altitude == nil {
		for i := range m.flying {
			m.flying[i] = true
		}
		return
	}
	var moving []float64
	for _, v := range m.speed {
		if v > leastSpeed {
			moving = append(moving, v)
		}
	}
	least := math.Max(leastSpeed, flyingShare*statistic.Median(moving))
	ground := statistic.Quantile(picked(altitude, run{0, len(altitude)}), 0.02)
	flies := func(i int) bool {
		return m.speed != nil && m.speed[i] > least || altitude != nil && altitude[i] > ground+clearHeight
	}
	for _, r := range runs(m.n, flies, m.count(shortDip), 1) {
		for i := r.from; i < r.to; i++ {
			m.flying[i] = true
		}
	}
}
