package demo

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strconv"

	"wingproof/cmd/wingproof/internal/program"
)

// What the invented shop's scales can do: one standard deviation each, the same error on every weighing,
// since the same scales and the same datum jig are used.
const (
	weighingMassSD = 0.06   // kg
	weighingCGSD   = 0.0048 // full-size m, 1.2 mm on the model

	weighingInertiaSD = 0.02 // relative, of a swing
)

// weighings writes weighings.csv: one row for each ballast, as the scales showed it.
func weighings(p *program.Program, sh shared) ([]byte, error) {
	rows := [][]string{{"weighing", "date", "mass_kg", "mass_sd_kg", "cg_x_mm", "cg_x_sd_mm", "cg_z_mm", "cg_z_sd_mm", "ix_kg_m2", "ix_sd_kg_m2", "iy_kg_m2", "iy_sd_kg_m2", "iz_kg_m2", "iz_sd_kg_m2", "notes"}}
	lambda := p.Model.LengthRatio
	for _, name := range ballasts() {
		cg := (ballast(name) + sh.cgOffset) * lambda * 1000
		rows = append(rows, []string{
			name + " ballast", "2026-03-12", decimals(modelMass*(1+sh.massScale), 2), decimals(weighingMassSD, 2),
			decimals(cg, 1), decimals(weighingCGSD*lambda*1000, 1), decimals(p.FullSize.EmptyZ.Value*lambda*1000, 1), "4.0",
			decimals(modelIx*(1+sh.inertiaScale[0]), 3), decimals(modelIx*weighingInertiaSD, 3), decimals(modelIy*(1+sh.inertiaScale[1]), 3), decimals(modelIy*weighingInertiaSD, 3),
			decimals(modelIz*(1+sh.inertiaScale[2]), 3), decimals(modelIz*weighingInertiaSD, 3), "three scales, swings on a bifilar rig (invented)",
		})
	}
	return table(rows)
}

// flights writes flights.csv.
func flights(seed uint64) ([]byte, error) {
	rows := [][]string{{"flight", "date", "log", "logger", "winglet", "foreplane", "weighing", "pressure_hpa", "temperature_c", "use", "why_not", "notes"}}
	for _, s := range season() {
		air := fieldAir(seed, s)
		use, why := "yes", ""
		if s.blocked {
			use, why = "no", "sand in the airspeed tube from the second minute on"
		}
		rows = append(rows, []string{
			s.name, s.date, "logs/" + s.name + ".csv", s.logger, s.winglet, s.foreplane, s.ballast + " ballast",
			decimals(air.Pressure/100, 0), decimals(air.Temperature-273.15, 0), use, why, fmt.Sprintf("wind %.1f m/s", s.wind),
		})
	}
	return table(rows)
}

func table(rows [][]string) ([]byte, error) {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	if err := w.WriteAll(rows); err != nil {
		return nil, fmt.Errorf("write a table: %w", err)
	}
	return b.Bytes(), nil
}

func decimals(v float64, n int) string { return strconv.FormatFloat(v, 'f', n, 64) }
