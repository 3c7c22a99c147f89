package program

import (
	"fmt"
	"path/filepath"
	"strings"
)

// What stands above the heads of the tables. No cell may part there: a spreadsheet would take the words apart.
const (
	flightsHelp = `# One row a flight. log: path from this folder such as logs/monday.csv. logger: its map's name in program.toml.
# weighing: a row of weighings.csv or else mass_kg and cg_mm of the model as it flew. use: yes or no. A no needs its reason in why_not.
# Pressure and temperature of the field may stay empty where the log has them.
`
	weighingsHelp = `# One row for each ballast that the model flew with: all figures of the model. CG aft of and above the model's datum.
# A column with sd holds one standard deviation. Inertias may stay empty: then no damping and no stiffness is told from manoeuvres.
# wingproof weigh --blank prints a sheet for the bench and wingproof weigh SHEET --write NAME adds the row.
`
	partsHelp = `# One row a part. made: moulded, built on the bench, or bought. stage: drawn plug mould laid_up or fitted; what needs no mould: drawn ready or fitted.
# built_to: the size that it was built to such as winglet=tall.
# shaped_by: the open choices that change its own shape. must_pass: limits of program.toml. Write none where there is none:
# an empty cell means that nobody has said and the part waits.
`
)

// flightsText begins flights.csv: the heads, and a row for each log that waits to be filled in.
func flightsText(choices []Choice, logs []draftLog) string {
	d := dialect{separator: ','}
	heads := []string{"flight", "date", "log", "logger"}
	for _, c := range choices {
		heads = append(heads, folded(c.Name))
	}
	heads = append(heads, "weighing", "mass_kg", "mass_sd_kg", "cg_mm", "cg_sd_mm", "pressure_hpa", "temperature_c", "use", "why_not", "notes")
	text := flightsHelp + d.line(heads)
	for i, log := range logs {
		notes := "copied from " + filepath.Base(log.source)
		if log.why != "" {
			notes += "; no logger map could be drafted: " + log.why
		}
		row := []string{fmt.Sprintf("f%02d", i+1), "", log.path, log.logger}
		row = append(row, make([]string, len(choices))...)
		row = append(row, "", "", "", "", "", "", "", "no", "date, levels flown, mass and CG are not filled in yet", notes)
		text += d.line(row)
	}
	return text
}

// weighingsText begins weighings.csv with the heads only: a weighing cannot be made up.
func (o NewOptions) weighingsText() string {
	d := dialect{separator: ','}
	return weighingsHelp + d.line(weighingHeads())
}

// partsText begins parts.csv with the parts that most foreplane aircraft have, all of them drawn only.
func (o NewOptions) partsText(choices []Choice) string {
	d := dialect{separator: ','}
	shapedBy := func(surface string) string {
		var names []string
		for _, c := range choices {
			for _, level := range c.Levels {
				for _, e := range level.Edits {
					if e.Surface == surface && (len(names) == 0 || names[len(names)-1] != c.Name) {
						names = append(names, c.Name)
					}
				}
			}
		}
		if names == nil {
			return "none"
		}
		return strings.Join(names, "; ")
	}
	const balance, flutter = "aft margin; nose-wheel load; tip-back", "signoff:flutter_and_mass_balance"
	text := partsHelp + d.line([]string{"part", "side", "made", "stage", "built_to", "hours_spent", "hours_left", "shaped_by", "must_pass", "responsible", "needed_by", "notes"})
	for _, p := range []struct{ name, side, made, hours, shaped, pass, notes string }{
		{"foreplane", "both", "moulded", "120", shapedBy("foreplane"), "aft margin; " + flutter, "mould and skins"},
		{"elevator", "both", "moulded", "60", shapedBy("foreplane"), "aft margin; " + flutter, "hinged on the foreplane"},
		{"wing", "both", "moulded", "320", shapedBy("wing"), "aft margin; directional stiffness", "skins and ribs"},
		{"main spar", "both", "moulded", "140", shapedBy("wing"), "aft margin", "add [built.main_spar] to program.toml once it is laid up"},
		{"strake", "both", "moulded", "180", shapedBy("strake"), balance + "; fuel travel", "fuel tank and gear well"},
		{"winglet", "both", "moulded", "90", shapedBy("winglet"), "directional stiffness; " + flutter, ""},
		{"rudder", "both", "moulded", "40", shapedBy("winglet"), "directional stiffness; " + flutter, ""},
		{"main gear", "both", "built", "80", "none", balance + "; overturn", "station of the wheels"},
		{"nose bowl", "", "moulded", "50", "none", "none", ""},
	} {
		if p.name == "strake" && o.StrakeSpan <= 0 || o.noWinglets() && (p.name == "winglet" || p.name == "rudder") {
			continue
		}
		text += d.line([]string{p.name, p.side, p.made, "drawn", "", "0", p.hours, p.shaped, p.pass, "", "", p.notes})
	}
	return text
}
