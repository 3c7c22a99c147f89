package forecast

import (
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"

	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog"
	"wingproof/flightlog/rehearse"
)

// rates are samples a second of what belongs together in a recorder.
type rates struct{ fast, air, satellite float64 }

// Bounds of the rates that are simulated: above, more samples tell little more of motions of a second and longer, and only take time.
const (
	slowest = 5.0
	fastest = 50.0
)

// usualRates are those of a small recorder.
func usualRates() rates {
	i := rehearse.DefaultInstruments()
	return rates{i.FastRate, i.AirRate, i.SatelliteRate}
}

// ratesOf measures a recording. What divides into the fast rate is kept, as the simulated recorder needs it.
func ratesOf(rec *flightlog.Recording) rates {
	of := func(usual float64, quantities ...flightlog.Quantity) float64 {
		for _, q := range quantities {
			if step := rec.Channels[q].Step(); step > 0 {
				return 1 / step
			}
		}
		return usual
	}
	usual := usualRates()
	r := rates{fast: math.Round(min(max(of(usual.fast, flightlog.PitchRate, flightlog.DownAcceleration, flightlog.PitchAngle), slowest), fastest))}
	divided := func(rate float64) float64 {
		return r.fast / max(1, math.Round(r.fast/rate))
	}
	r.air = divided(of(usual.air, flightlog.Airspeed, flightlog.StaticPressure, flightlog.Altitude))
	r.satellite = divided(of(usual.satellite, flightlog.GroundSpeed, flightlog.ClimbRate))
	return r
}

// measuredRates are those of the first readable log of a logger.
func measuredRates(st *study.Study, logger flightlog.Map) rates {
	for _, f := range st.Flights {
		if !f.Used || f.Logger != logger.Name {
			continue
		}
		if rec, err := readLog(filepath.Join(st.Program.Dir, filepath.FromSlash(f.Log)), f.Log, logger); err == nil {
			return ratesOf(rec)
		}
	}
	return usualRates()
}

func readLog(path, name string, logger flightlog.Map) (*flightlog.Recording, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	const most = 8 << 20 // the beginning tells the rates
	return flightlog.Read(io.LimitReader(file, most), name, logger)
}

// usualLag is how late satellite navigation is where no map states it, s.
const usualLag = 0.2

// recorder is the simulated recorder of a logger with the errors of a rehearsal.
func (s shared) recorder(m flightlog.Map, r rates) rehearse.Instruments {
	i := s.instruments
	i.AirspeedScale = s.airspeed[m.Name]
	i.FastRate, i.AirRate, i.SatelliteRate, i.SatelliteLag = r.fast, r.air, r.satellite, usualLag
	i.Sensors = m.Sensors
	for _, c := range m.Columns {
		switch {
		case c.Is == flightlog.GroundSpeed && c.Delay > 0:
			i.SatelliteLag = c.Delay
		case c.Is == flightlog.AngleOfAttack:
			i.Vanes = rehearse.DefaultVanes()
		}
	}
	return i
}

// mapOf is the map that reads a rehearsed log as the logger's own would: only what that logger has, and late by what its map takes off. Without
// a logger it is that of a usual recorder.
func mapOf(log rehearse.Log, d rehearse.Dialect, m flightlog.Map, stated bool) (flightlog.Map, error) {
	out, err := log.Map(d, m.Name)
	if err != nil || !stated {
		return out, err
	}
	has := func(q flightlog.Quantity) int {
		return slices.IndexFunc(m.Columns, func(c flightlog.Column) bool { return c.Is == q })
	}
	out.Columns = slices.DeleteFunc(out.Columns, func(c flightlog.Column) bool { return has(c.Is) < 0 })
	for k, c := range out.Columns {
		switch c.Is {
		case flightlog.GroundSpeed, flightlog.GroundTrack, flightlog.ClimbRate:
			out.Columns[k].Delay = m.Columns[has(c.Is)].Delay
		}
	}
	out.Sensors = m.Sensors
	return out, nil
}
