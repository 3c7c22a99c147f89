package main

import (
	"math"
	"strconv"
	"strings"

	"wingproof/cmd/wingproof/internal/plan"
	"wingproof/flightlog/unit"
)

// planLimits are what the flags say of heights and speeds.
type planLimits struct {
	heights     plan.Heights
	neverExceed float64 // m/s; 0: nobody has said
}

// Bounds of the flags: they catch a slipped digit and a wrong unit.
const (
	leastEntry, mostEntry = 30.0, 1000.0 // m
	mostPlanned           = 60
	fastestModel          = 150.0 // m/s
)

// limits checks the numbers of the command line, all of them.
func (o planOptions) limits() (planLimits, error) {
	var m mistakes
	out := planLimits{heights: plan.Heights{Entry: o.entry, Lowest: o.lowest}}
	if o.flights < 1 || o.flights > mostPlanned {
		m.add("--flights: %d; write 1 to %d", o.flights, mostPlanned)
	}
	if !(o.entry >= leastEntry && o.entry <= mostEntry) {
		m.add("--entry-height: %g m; write %.0f to %.0f metres above the ground", o.entry, leastEntry, mostEntry)
	}
	if !(o.lowest > 0 && o.lowest < o.entry) {
		m.add("--lowest-height: %g m; write metres above the ground, more than 0 and below the entry height of %g m", o.lowest, o.entry)
	}
	if o.mass != 0 && !(o.mass > 0 && o.mass < 1000) {
		m.add("--mass-kg: %g; write the mass of the model, such as 15.2", o.mass)
	}
	for _, x := range o.cgs {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			m.add("--cg-mm: %g; write millimetres aft of the model's datum, such as 890", x)
		}
	}
	if o.exceed != "" {
		v, ok := speedFlag(o.exceed)
		if !ok || !(v > 0 && v <= fastestModel) {
			m.add("--never-exceed: %q is no speed of a model; write it such as 45 (m/s), \"160 km/h\" or \"87 kt\"", o.exceed)
		}
		out.neverExceed = v
	}
	return out, m.err()
}

// speedFlag reads a speed in m/s, or with its unit behind it.
func speedFlag(text string) (metresPerSecond float64, ok bool) {
	text = strings.TrimSpace(text)
	end := strings.LastIndexAny(text, "0123456789.") + 1
	value, err := strconv.ParseFloat(strings.ReplaceAll(text[:end], ",", "."), 64)
	if err != nil || math.IsNaN(value) {
		return 0, false
	}
	name := strings.TrimSpace(text[end:])
	if name == "" {
		return value, true
	}
	u, ok := unit.Lookup(name, unit.Speed)
	return u.SI(value), ok
}
