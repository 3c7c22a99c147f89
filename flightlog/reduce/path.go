package reduce

import (
	"math"

	"wingproof/flightlog"
	"wingproof/flightlog/quality"
	"wingproof/flightlog/reconstruct"
)

// Air is what the reconstruction of a flight says of the air and of the airspeed tube. Enough false: there is no
// reconstruction, and a finding says why.
type Air struct {
	Enough          bool    `json:"enough"`
	AirspeedScale   float64 `json:"airspeed_scale"`                // indicated over true airspeed − 1, as this flight shows it
	AirspeedScaleSD float64 `json:"airspeed_scale_sd"`             // of this flight alone, both parts together
	ScaleOwnSD      float64 `json:"airspeed_scale_own_sd"`         // what other flights do not share
	ScaleSharedSD   float64 `json:"airspeed_scale_temperature_sd"` // of the air's temperature, which the same sensor gets wrong on every flight
	ScaleKnown      bool    `json:"airspeed_scale_known"`
	ScaleWhy        string  `json:"airspeed_scale_why"` // what the turns suffice for
	WindSpeed       float64 `json:"wind_speed_m_s"`
	WindFrom        float64 `json:"wind_from_rad"` // true direction it blows from
	WindSD          float64 `json:"wind_sd_m_s"`   // of each component
	Gusts           float64 `json:"gusts_m_s"`     // sd of each horizontal component
	SatelliteLag    float64 `json:"satellite_lag_s"`
	SatelliteLagSD  float64 `json:"satellite_lag_sd_s"`

	Whiteness []reconstruct.Whiteness `json:"innovations"`
}

// reconstructed runs the path reconstruction over what the log's quality leaves. path is nil when it cannot be had.
func reconstructed(rec *flightlog.Recording, c Context, seen []flightlog.Finding) (path *reconstruct.Path, air Air, findings []flightlog.Finding) {
	setup := reconstruct.Setup{AirTold: true, Pressure: c.Pressure, Temperature: c.Temperature, CG: c.CG, BoresightSD: c.BoresightSD, VerticalAirSD: c.VerticalAirSD,
		SatelliteDelayDeclared: rec.Delays[flightlog.GroundSpeed] != 0 || rec.Delays[flightlog.GroundTrack] != 0}
	for _, f := range seen {
		if f.Severity == flightlog.Loss && f.Line == 0 && f.End > f.Start {
			setup.Barred = append(setup.Barred, reconstruct.Stretch{Channel: f.Channel, Start: f.Start, End: f.End})
		}
	}
	setup.Barred = append(setup.Barred, spikyStretches(rec)...)
	path, findings = reconstruct.Run(rec, setup)
	if !path.Enough {
		return nil, Air{Whiteness: []reconstruct.Whiteness{}}, findings
	}
	return path, airOf(path), findings
}

// spikyStretches keeps spikes of gyros and accelerometers out of the filter, which adds these channels up.
func spikyStretches(rec *flightlog.Recording) []reconstruct.Stretch {
	var out []reconstruct.Stretch
	for _, q := range []flightlog.Quantity{flightlog.RollRate, flightlog.PitchRate, flightlog.YawRate,
		flightlog.ForwardAcceleration, flightlog.RightAcceleration, flightlog.DownAcceleration} {
		c := rec.Channels[q]
		for _, i := range quality.Spikes(q, c) {
			out = append(out, reconstruct.Stretch{Channel: q, Start: c.Time[i], End: c.Time[i]})
		}
	}
	return out
}

// losses are the stretches in which the reconstruction says that it lost itself.
func losses(findings []flightlog.Finding) []flightlog.Finding {
	var out []flightlog.Finding
	for _, f := range findings {
		if f.Severity == flightlog.Loss {
			out = append(out, f)
		}
	}
	return out
}

// airOf sums a path up. Wind and its standard deviation are those of the airborne part's end, when all is known.
func airOf(p *reconstruct.Path) Air {
	last := -1
	for i, t := range p.Airborne {
		if t {
			last = i
		}
	}
	out := Air{Enough: true, AirspeedScale: p.AirspeedScale, AirspeedScaleSD: p.ScaleSD, ScaleOwnSD: p.ScaleOwnSD, ScaleSharedSD: p.ScaleTemperatureSD, ScaleKnown: p.Triangle.Enough, ScaleWhy: p.Triangle.Why,
		Gusts: p.GustLevel, SatelliteLag: p.SatelliteLag.Value, SatelliteLagSD: p.SatelliteLag.SD, Whiteness: p.Whiteness}
	if out.Whiteness == nil {
		out.Whiteness = []reconstruct.Whiteness{}
	}
	if last >= 0 {
		north, east := p.SteadyNorth[last], p.SteadyEast[last]
		out.WindSpeed = math.Hypot(north, east)
		out.WindFrom = math.Mod(math.Atan2(-east, -north)+2*math.Pi, 2*math.Pi)
		out.WindSD = math.Max(p.SteadyNorthSD[last], p.SteadyEastSD[last])
	}
	return out
}

// alphaByPath is the smoothed angle of attack over a stretch, when it was reconstructed over all of it.
func (m *measurement) alphaByPath(start, end float64) (reconstruct.Mean, bool) {
	if m.flown == nil {
		return reconstruct.Mean{}, false
	}
	for _, lost := range m.lost {
		if lost.Start <= end && lost.End >= start {
			return reconstruct.Mean{}, false
		}
	}
	mean := m.flown.Mean(start, end)
	const least = 0.9 // of the instants
	n := (end - start) * m.pathRate()
	return mean, float64(mean.Samples) >= least*n && !math.IsNaN(mean.Alpha+mean.AlphaSD+mean.Beta+mean.BetaSD)
}

func (m *measurement) pathRate() float64 {
	n := len(m.flown.Time)
	return float64(n-1) / (m.flown.Time[n-1] - m.flown.Time[0])
}
