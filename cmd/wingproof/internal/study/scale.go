package study

import (
	"errors"
	"fmt"
	"math"

	"wingproof/aero/atmosphere"
	"wingproof/aero/similitude"
	"wingproof/cmd/wingproof/internal/program"
)

// Scale works out the sheet that carries the full-size aircraft to the model, with the newest weighing
// beside the targets. It needs no lattice and no log.
func Scale(p *program.Program) (similitude.Sheet, error) {
	if p.FullSize.Mass.Value <= 0 {
		return similitude.Sheet{}, errors.New("program.toml: [full_size] mass_kg is not stated, so there is nothing to scale; write mass_kg = { value = 900, sd = 10, status = \"estimated\", source = \"drawing weights\" }")
	}
	baseline, _, err := p.Airframe(p.Configurations()[0])
	if err != nil {
		return similitude.Sheet{}, err
	}
	full := similitude.FullSize{
		Mass: p.FullSize.Mass.Value, Ix: p.FullSize.Ix.Value, Iy: p.FullSize.Iy.Value, Iz: p.FullSize.Iz.Value,
		WingArea: baseline.Reference.Area, MeanChord: baseline.Reference.MeanChord,
	}
	if p.FullSize.CruiseSpeed > 0 {
		full.Speeds = append(full.Speeds, similitude.Speed{Name: "cruise", True: p.FullSize.CruiseSpeed})
	}
	air, err := atmosphere.Standard(p.FullSize.CruiseAltitude)
	if err != nil {
		return similitude.Sheet{}, fmt.Errorf("program.toml: cruise altitude_m: %w", err)
	}
	for _, at := range []struct {
		name string
		lift float64
	}{{"fast", 0.5}, {"middling", 0.8}, {"slow", 1.1}} {
		full.Speeds = append(full.Speeds, similitude.Speed{
			Name: fmt.Sprintf("%s, lift coefficient %.1f", at.name, at.lift),
			True: speedAt(full.Mass, full.WingArea, air.Density, at.lift),
		})
	}
	return similitude.NewSheet(p.Model.LengthRatio, full, p.Model.TestAltitude, p.FullSize.CruiseAltitude, newestWeighing(p.Weighings))
}

// speedAt is the true airspeed [m/s] of straight level flight at a lift coefficient.
func speedAt(mass, area, density, lift float64) float64 {
	return math.Sqrt(2 * mass * atmosphere.Gravity / (density * area * lift))
}

// newestWeighing is the last weighing by date, then by its place in the table.
func newestWeighing(weighings []program.Weighing) *similitude.Weighed {
	if len(weighings) == 0 {
		return nil
	}
	newest := weighings[0]
	for _, w := range weighings[1:] {
		if w.Date >= newest.Date {
			newest = w
		}
	}
	return &similitude.Weighed{Mass: newest.Mass, Ix: newest.Ix, Iy: newest.Iy, Iz: newest.Iz}
}
