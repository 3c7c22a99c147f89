package rehearse

import (
	"fmt"
	"math"
	"slices"
)

// freeze repeats the last value of a channel that never rests in flight.
func (s *spoiler) freeze() {
	at := s.one(atRollRate, atPitchRate, atYawRate, atForward, atRight, atDown, atRoll, atPitch, atHeading, atPressure, atAltitude, atGroundSpeed, atClimb)
	start, end := s.stretch(4, 30)
	first, after := s.rows(start, end)
	column, held := s.column(at), math.NaN()
	for i := range after {
		switch {
		case math.IsNaN(column[i]):
		case i < first:
			held = column[i]
		default:
			column[i] = held
		}
	}
	s.says(start, end, fmt.Sprintf("%s repeats one value", Quantities()[at]), at)
}

// spikeSize is the least and most that a spike is off, in the unit of the column: beyond anything that the model can do
// between two samples.
func spikeSize(at int) (least, most float64) {
	switch at {
	case atRollRate, atPitchRate, atYawRate:
		return 6, 25 // rad/s
	case atForward, atRight, atDown:
		return 40, 150 // m/s²
	case atRoll, atPitch:
		return 0.8, 2.5 // rad
	case atPressure:
		return 3000, 30000 // Pa
	case atAltitude:
		return 100, 1000 // m
	}
	return 15, 60 // m/s
}

// spike throws single samples of a channel off, up or down.
func (s *spoiler) spike() {
	at := s.one(atRollRate, atPitchRate, atYawRate, atForward, atRight, atDown, atRoll, atPitch, atAirspeed, atPressure, atAltitude, atGroundSpeed)
	least, most := spikeSize(at)
	column := s.column(at)
	first, after := s.rows(s.from, s.to)
	var places []int
	for i := first; i < after; i++ {
		if !math.IsNaN(column[i]) {
			places = append(places, i)
		}
	}
	n := max(1, min(3+s.rng.IntN(10), len(places)/4))
	// neighbours apart, or two spikes would make a step
	chosen := map[int]bool{}
	for len(chosen) < n {
		k := s.rng.IntN(len(places))
		if chosen[k-1] || chosen[k] || chosen[k+1] {
			continue
		}
		chosen[k] = true
		size := s.between(least, most)
		if s.rng.IntN(2) == 0 {
			size = -size
		}
		i := places[k]
		column[i] += size
		if at == atAirspeed || at == atGroundSpeed {
			column[i] = math.Max(0, column[i])
		}
		s.fault.Times = append(s.fault.Times, s.log.Time[i])
	}
	slices.Sort(s.fault.Times)
	s.says(s.fault.Times[0], s.fault.Times[n-1], fmt.Sprintf("%s has %d samples far off", Quantities()[at], n), at)
}

// saturate clips a channel at a range that 1 to 3 % of its samples in flight pass.
func (s *spoiler) saturate() {
	at := s.one(atRollRate, atPitchRate, atYawRate, atForward, atDown)
	first, after := s.rows(s.from, s.to)
	column := s.column(at)
	size := make([]float64, 0, after-first)
	for _, v := range column[first:after] {
		size = append(size, math.Abs(v))
	}
	slices.Sort(size)
	limit := size[int(float64(len(size))*(1-s.between(0.01, 0.03)))]
	for i, v := range column {
		if math.Abs(v) > limit {
			column[i] = math.Copysign(limit, v)
			s.fault.Times = append(s.fault.Times, s.log.Time[i])
		}
	}
	last := len(s.fault.Times) - 1
	s.says(s.fault.Times[0], s.fault.Times[last], fmt.Sprintf("%s clips at %.3g in %d samples", Quantities()[at], limit, last+1), at)
}

// clipServo holds a command at its end: a little beyond the largest deflection of the flight, which is where a travel
// that was set too small would end.
func (s *spoiler) clipServo() {
	at := s.one(atElevator, atAileron, atRudderLeft)
	both := []int{at}
	if at == atRudderLeft {
		both = append(both, atRudderRight)
	}
	stop := 8 * degree // of a control that the flight did not use
	for _, v := range s.log.Columns[at] {
		stop = math.Max(stop, math.Abs(v))
	}
	stop *= s.between(1.02, 1.3)
	if s.rng.IntN(2) == 0 {
		stop = -stop
	}
	start, end := s.stretch(1, 5)
	first, after := s.rows(start, end)
	for _, k := range both {
		for column, i := s.column(k), first; i < after; i++ {
			column[i] = stop
		}
	}
	s.says(start, end, fmt.Sprintf("the command of %s stands at %.1f°", Quantities()[at], stop/degree), both...)
}

// turnSign turns one channel over, as a sensor mounted the wrong way round or a map with the wrong sign does.
func (s *spoiler) turnSign() {
	at := s.one(atRollRate, atPitchRate, atYawRate, atForward, atRight, atDown, atRoll, atPitch, atClimb)
	column := s.column(at)
	for i := range column {
		column[i] = -column[i]
	}
	s.says(s.log.Time[0], s.log.Time[len(s.log.Time)-1], fmt.Sprintf("%s has the other sign", Quantities()[at]), at)
}

// mistake is a unit read for another: what was read is factor·truth + offset.
type mistake struct {
	columns        []int
	factor, offset float64
	text           string
}

// mistakes of units that a map can hold. Factors are exact by definition of the units (ISO 80000) but for the knot's 1852/3600.
func mistakes() []mistake {
	rates, forces, attitude := []int{atRollRate, atPitchRate, atYawRate}, []int{atForward, atRight, atDown}, []int{atRoll, atPitch, atHeading}
	const g = 9.80665
	return []mistake{
		{rates, 1 / degree, 0, "rates in degrees per second read as radians per second"},
		{rates, degree, 0, "rates in radians per second read as degrees per second"},
		{forces, 1 / g, 0, "accelerations in g read as m/s²"},
		{forces, g, 0, "accelerations in m/s² read as g"},
		{attitude, 1 / degree, 0, "attitude in degrees read as radians"},
		{attitude, degree, 0, "attitude in radians read as degrees"},
		{[]int{atAirspeed}, 3.6, 0, "airspeed in km/h read as m/s"},
		{[]int{atAirspeed}, 3600.0 / 1852, 0, "airspeed in knots read as m/s"},
		{[]int{atAirspeed}, 1 / 3.6, 0, "airspeed in m/s read as km/h"},
		{[]int{atGroundSpeed}, 3.6, 0, "ground speed in km/h read as m/s"},
		{[]int{atAltitude}, 1 / 0.3048, 0, "altitude in feet read as metres"},
		{[]int{atAltitude}, 0.3048, 0, "altitude in metres read as feet"},
		{[]int{atPressure}, 0.01, 0, "static pressure in hPa read as Pa"},
		{[]int{atPressure}, 100, 0, "static pressure in Pa read as hPa"},
		{[]int{atTemperature}, 1, -273.15, "temperature in °C read as K"},
	}
}

func (s *spoiler) mistakeUnit() {
	all := mistakes()
	m := all[s.rng.IntN(len(all))]
	for _, at := range m.columns {
		column := s.column(at)
		for i := range column {
			column[i] = column[i]*m.factor + m.offset
		}
	}
	s.says(s.log.Time[0], s.log.Time[len(s.log.Time)-1], m.text, m.columns...)
}
