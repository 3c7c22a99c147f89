package forecast

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"

	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

// shared are the errors that all rehearsed flights of one rehearsal have in common: how far what is reported is off.
type shared struct {
	instruments rehearse.Instruments // without airspeed scale, rates and places, which belong to a logger
	mass        float64              // relative
	cg          float64              // full-size m
	inertia     [3]float64           // relative
	airspeed    map[string]float64   // by logger
	servos      map[string]rehearse.Servo
}

// stream of one thing of one rehearsal.
func (r *rehearsal) stream(names ...string) *rand.Rand {
	return rehearse.Stream(r.seed, append([]string{"rehearsal", strconv.Itoa(r.number)}, names...)...)
}

// shares finds the shared errors. Where flights count, the same model is flown again with the same instruments: what these are off by is in the
// belief and in the trim offset already, and the airspeed is off by what the flights of a logger show. Else one set is drawn.
func (r *rehearsal) shares() shared {
	p := r.study.Program
	e := p.Model.Errors
	s := shared{instruments: rehearse.DefaultInstruments(), airspeed: map[string]float64{}}
	flown := lastUsed(r.study) != nil
	draw := func(sd float64, names ...string) float64 { return sd * r.stream(names...).NormFloat64() }
	for _, l := range append(loggerNames(r.study), "") {
		s.airspeed[l] = draw(e.AirspeedScale, "airspeed", l)
	}
	for _, c := range r.study.Airspeeds {
		s.airspeed[c.Logger] = c.Scale
	}
	if flown {
		s.servos = ServosOf(p, func(string) float64 { return 0 })
		return s
	}
	s.instruments = rehearse.DrawInstruments(s.instruments, rehearse.ProgrammeErrors{Boresight: e.Alpha, ElevatorZero: e.Elevator,
		ElevatorScale: e.ElevatorScale, AileronScale: e.AileronScale, RudderScale: e.RudderScale}, r.stream("instruments"))
	s.servos = ServosOf(p, func(control string) float64 { return draw(1, "servo", control) })
	w := r.scales.weighing
	s.mass, s.cg = draw(w.MassSD/w.Mass, "mass"), draw(w.CGXSD, "cg")
	for i, one := range [...][2]float64{{w.IxSD, w.Ix}, {w.IySD, w.Iy}, {w.IzSD, w.Iz}} {
		if one[1] > 0 {
			s.inertia[i] = draw(one[0]/one[1], "inertia", strconv.Itoa(i))
		}
	}
	return s
}

func loggerNames(st *study.Study) []string {
	var names []string
	for _, l := range st.Program.Loggers {
		names = append(names, l.Name)
	}
	return names
}

// loggerOf finds a logger map; the empty name is the first. ok is false where the program has none at all.
func loggerOf(st *study.Study, name string) (m flightlog.Map, ok bool, err error) {
	for _, l := range st.Program.Loggers {
		if l.Name == name || name == "" {
			return l, true, nil
		}
	}
	if name != "" {
		return m, false, &study.InputError{What: fmt.Sprintf("program.toml has no [logger.%s]", name), Right: "name one that it has, or add it"}
	}
	return m, false, nil
}

// weather is that of a flight that counts, taken by chance: its wind and its gusts; else a calm day as the shop would choose it.
func (r *rehearsal) weather(name string) rehearse.Weather {
	const calm, windy, smooth, gusty = 1.0, 3.0, 0.1, 0.4 // m/s, invented
	rng := r.stream("weather", name)
	between := func(a, b float64) float64 { return a + (b-a)*rng.Float64() }
	w := rehearse.Weather{WindSpeed: between(calm, windy), WindFrom: 2 * math.Pi * rng.Float64(), VerticalSD: r.study.Program.Model.Errors.VerticalAir}
	gusts := between(smooth, gusty)
	if like := r.skies; len(like) > 0 {
		f := like[rng.IntN(len(like))]
		w.Pressure, w.Temperature = f.Pressure, f.Temperature
		if f.Reduction.Air.Enough && f.Reduction.Air.Gusts > 0 {
			w.WindSpeed, gusts = math.Max(f.Reduction.Air.WindSpeed, 0.1), f.Reduction.Air.Gusts
		}
	}
	w.Turbulence = gusts / w.WindSpeed
	return w
}
