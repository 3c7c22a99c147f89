package study

import (
	"errors"
	"fmt"
	"math"

	"wingproof/aero"
	"wingproof/aero/atmosphere"
	"wingproof/aero/similitude"
	"wingproof/cmd/wingproof/internal/program"
)

// Scale works out the sheet that carries the full-size aircraft at its gross mass to the model, with the newest weighing
// beside the targets. It needs no lattice and no log.
func Scale(p *program.Program) (similitude.Sheet, error) {
	s, err := ScaleOf(p, ScaleOptions{})
	return s.Sheet, err
}

// fullSizeOf is the aircraft that the model stands for, with the speeds of the sheet, at the mass and CG of a loading.
func fullSizeOf(p *program.Program, ref aero.Reference, mass float64, cg *similitude.Place) (similitude.FullSize, error) {
	f := p.FullSize
	full := similitude.FullSize{Mass: mass, CG: cg, Ix: f.Ix.Value, Iy: f.Iy.Value, Iz: f.Iz.Value, Ixz: f.Ixz.Value, WingArea: ref.Area, MeanChord: ref.MeanChord}
	if f.CruiseSpeed > 0 {
		full.Speeds = append(full.Speeds, similitude.Speed{Name: "cruise", True: f.CruiseSpeed})
	}
	air, err := atmosphere.Standard(f.CruiseAltitude)
	if err != nil {
		return full, fmt.Errorf("program.toml: cruise altitude_m: %w", err)
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
	return full, nil
}

func errNoMass() error {
	return errors.New("program.toml: [full_size] mass_kg is not stated, so there is nothing to scale; write mass_kg = { value = 900, sd = 10, status = \"estimated\", source = \"drawing weights\" }")
}

// speedAt is the true airspeed [m/s] of straight level flight at a lift coefficient.
func speedAt(mass, area, density, lift float64) float64 {
	return math.Sqrt(2 * mass * atmosphere.Gravity / (density * area * lift))
}

// newestWeighing is the last weighing by date, then by its place in the table; nil when there is none.
func newestWeighing(weighings []program.Weighing) *program.Weighing {
	if len(weighings) == 0 {
		return nil
	}
	newest := weighings[0]
	for _, w := range weighings[1:] {
		if w.Date >= newest.Date {
			newest = w
		}
	}
	return &newest
}

// onScales is a weighing as the sheet takes it, at model size.
func onScales(w *program.Weighing, ratio float64) *similitude.Weighed {
	if w == nil {
		return nil
	}
	return &similitude.Weighed{
		Mass: w.Mass, Ix: w.Ix, Iy: w.Iy, Iz: w.Iz, Ixz: w.Ixz, MassSD: w.MassSD, IxSD: w.IxSD, IySD: w.IySD, IzSD: w.IzSD, IxzSD: w.IxzSD,
		CG: &similitude.Place{X: w.CGX * ratio, Z: w.CGZ * ratio}, ZKnown: w.CGZKnown, XSD: w.CGXSD * ratio, ZSD: w.CGZSD * ratio,
	}
}
