package program

import (
	"fmt"
	"math"

	"wingproof/aero/atmosphere"
)

const knot = 1852.0 / 3600 // m/s, exact

// readEnvelope reads what the load envelope needs beyond the limit load factor: all of it may be absent.
func (l *loader) readEnvelope(s *scope) {
	f := &l.p.FullSize
	manoeuvre, dive := speed("manoeuvre_speed", 340).positive(), speed("dive_speed", 340).positive()
	f.NegativeLimitLoadFactor = s.negativeFactor()
	f.ManoeuvreSpeed, _ = s.number(manoeuvre)
	f.DiveSpeed, _ = s.number(dive)
	f.GustCruise, _ = s.number(gust("gust_cruise"))
	f.GustDive, _ = s.number(gust("gust_dive"))
	if at := s.placeOf(gust("gust_dive")); at != nil && s.placeOf(dive) == nil {
		s.wrong(*at, "a gust at the dive speed is stated and the dive speed is not", "add dive_speed_kt, an equivalent airspeed")
	}
	if f.DiveSpeed == 0 {
		return
	}
	if cruise := f.equivalentCruise(); cruise > f.DiveSpeed {
		s.wrong(*s.placeOf(dive), fmt.Sprintf("the dive speed of %.4g kt lies below the cruise, which is %.4g kt of equivalent airspeed", f.DiveSpeed/knot, cruise/knot),
			"write the design dive speed, an equivalent airspeed above the cruise")
	}
	if f.ManoeuvreSpeed >= f.DiveSpeed {
		s.wrong(*s.placeOf(manoeuvre), fmt.Sprintf("the manoeuvre speed of %.4g kt is not below the dive speed of %.4g kt", f.ManoeuvreSpeed/knot, f.DiveSpeed/knot),
			"write the speed up to which full control travel is allowed, an equivalent airspeed")
	}
}

func gust(stem string) measure { return speed(stem, 40).in("m_s").positive() }

// negativeFactor reads the load factor of a push-over, which has its own sign; 0 when not stated.
func (s *scope) negativeFactor() float64 {
	m := number("negative_limit_load_factor", -15, 15)
	factor, stated := s.number(m)
	if stated && factor >= 0 {
		s.wrong(*s.placeOf(m), "negative_limit_load_factor = "+short(factor)+" is not negative", "write the load factor of a push-over with its sign, such as -1.9")
		return 0
	}
	return factor
}

// equivalentCruise is the equivalent airspeed of the cruise, m/s, in the standard atmosphere: the true airspeed
// times the root of the density ratio. 0 where cruise or altitude are not to be had.
func (f FullSize) equivalentCruise() float64 {
	air, err := atmosphere.Standard(f.CruiseAltitude)
	if err != nil {
		return 0
	}
	sea, err := atmosphere.Standard(0)
	if err != nil {
		return 0
	}
	return f.CruiseSpeed * math.Sqrt(air.Density/sea.Density)
}
