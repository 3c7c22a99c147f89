package similitude

import "math"

// sure is how many standard deviations bound 95 % of a normal error.
const sure = 1.959964

// Place is a point of the plane of symmetry in datum axes: x aft, z up, m.
type Place struct{ X, Z float64 }

// Weighed holds what the scales and swings said about the model, each with one standard deviation; 0 means not
// measured, and a standard deviation of 0 an exact figure.
type Weighed struct {
	Mass       float64 // kg
	Ix, Iy, Iz float64 // kg·m² about the CG in body axes
	Ixz        float64
	MassSD     float64
	IxSD, IySD float64
	IzSD       float64
	IxzSD      float64

	// The CG at model size, m from the model's datum; nil is not measured. Its Z counts only with ZKnown.
	CG       *Place
	ZKnown   bool
	XSD, ZSD float64
}

// Row compares one target with what was measured.
type Row struct {
	Quantity  string   `json:"quantity"` // mass, Ix, Iy, Iz, Ixz
	Unit      string   `json:"unit"`     // kg, kg·m²
	FullSize  float64  `json:"full_size"`
	Target    float64  `json:"model_target"`
	Measured  *float64 `json:"model_measured"`    // null when not measured
	Departure *float64 `json:"departure_percent"` // of measured from target, of Ixz in percent of the target Iz; null when not measured

	// DepartureSD is one standard deviation of the departure from the weighing alone, percent: the target is taken as exact.
	DepartureSD *float64 `json:"departure_sd_percent"`
	// Clear tells that the departure is larger than what the weighing could be wrong by with 95 %; null when not measured.
	Clear  *bool  `json:"departure_is_clear"`
	Spoils string `json:"spoils"` // what the departure spoils; empty when not measured
}

// PlaceRow compares one coordinate of the CG with its target.
type PlaceRow struct {
	Quantity    string   `json:"quantity"`    // cg_x aft of datum, cg_z above it
	FullSize    float64  `json:"full_size_m"` //
	Target      float64  `json:"model_m"`     // at model size, from the model's datum
	Measured    *float64 `json:"measured_m"`  // on the model; null when not measured
	Departure   *float64 `json:"departure_m"` // on the model, aft and up positive
	DepartureSD *float64 `json:"departure_sd_m"`
	Clear       *bool    `json:"departure_is_clear"`
	OfChord     *float64 `json:"departure_percent_of_chord"` // null without a mean chord, and for cg_z
	Spoils      string   `json:"spoils"`
}

func massRows(r Ratios, full FullSize, weighed *Weighed) []Row {
	var w Weighed
	if weighed != nil {
		w = *weighed
	}
	rows := []Row{massRow("mass", "kg", full.Mass, r.Mass, w.Mass, w.MassSD)}
	for _, i := range []struct {
		name               string
		full, measured, sd float64
	}{{"Ix", full.Ix, w.Ix, w.IxSD}, {"Iy", full.Iy, w.Iy, w.IySD}, {"Iz", full.Iz, w.Iz, w.IzSD}} {
		if i.full > 0 {
			rows = append(rows, massRow(i.name, "kg·m²", i.full, r.Inertia, i.measured, i.sd))
		}
	}
	if full.Ixz != 0 {
		row := Row{Quantity: "Ixz", Unit: "kg·m²", FullSize: full.Ixz, Target: full.Ixz * r.Inertia}
		if w.Ixz != 0 && full.Iz > 0 {
			row.depart(w.Ixz, 100*(w.Ixz-row.Target)/(full.Iz*r.Inertia), 100*w.IxzSD/(full.Iz*r.Inertia))
		}
		rows = append(rows, row)
	}
	return rows
}

func massRow(quantity, unit string, full, ratio, measured, sd float64) Row {
	row := Row{Quantity: quantity, Unit: unit, FullSize: full, Target: full * ratio}
	if measured > 0 {
		row.depart(measured, 100*(measured/row.Target-1), 100*sd/row.Target)
	}
	return row
}

func (row *Row) depart(measured, percent, sd float64) {
	clear := math.Abs(percent) > sure*sd
	row.Measured, row.Departure, row.DepartureSD, row.Clear = &measured, &percent, &sd, &clear
	row.Spoils = Spoils(row.Quantity, percent)
}

func placeRows(r Ratios, full FullSize, weighed *Weighed) []PlaceRow {
	if full.CG == nil {
		return nil
	}
	x := PlaceRow{Quantity: "cg_x", FullSize: full.CG.X, Target: full.CG.X * r.Length}
	z := PlaceRow{Quantity: "cg_z", FullSize: full.CG.Z, Target: full.CG.Z * r.Length}
	if weighed != nil && weighed.CG != nil {
		chord := full.MeanChord * r.Length
		x.depart(weighed.CG.X, weighed.XSD, chord)
		if chord > 0 {
			share := 100 * *x.Departure / chord
			x.OfChord = &share
		}
		if weighed.ZKnown {
			z.depart(weighed.CG.Z, weighed.ZSD, chord)
		}
	}
	return []PlaceRow{x, z}
}

func (row *PlaceRow) depart(measured, sd, chord float64) {
	off := measured - row.Target
	clear := math.Abs(off) > sure*sd
	row.Measured, row.Departure, row.DepartureSD, row.Clear = &measured, &off, &sd, &clear
	row.Spoils = SpoilsCG(row.Quantity, off, chord)
}
