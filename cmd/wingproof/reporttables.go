package main

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

// reportTable is one table of the report folder. Numbers are SI, angles radians unless the head says otherwise; an empty cell says that
// there is none.
type reportTable struct {
	name, title string
	heads       []string
	rows        [][]string
}

// tables adds the numbers as tables.
func (m *maker) tables() error {
	st := m.study
	contrasts, err := allContrasts(st)
	if err != nil {
		return err
	}
	for _, t := range []reportTable{
		boardTable(st), estimateTable("margins", "static margins", st.Margins), estimateTable("estimates", "all other numbers: measured, predicted, anchored", st.Estimates),
		limitTable(st.Verdict), contrastTable(contrasts), flightTable(st), pointTable(st), findingTable(st), decisionTable(m.head.decided), sheetTable(st.Program.Sheets),
	} {
		body, err := report.CSVFile(t.heads, t.rows)
		if err != nil {
			return err
		}
		m.add("tables/"+t.name+".csv", body)
		m.link("table", t.title, "tables/"+t.name+".csv")
	}
	return nil
}

// allContrasts are the full-size differences of the levels of every choice.
func allContrasts(st *study.Study) ([]decide.Contrast, error) {
	out := []decide.Contrast{}
	for _, c := range st.Program.Choices {
		list, err := st.Contrasts(c.Name, settledLevels(st))
		if err != nil {
			return nil, err
		}
		out = append(out, list...)
	}
	return out, nil
}

func boardTable(st *study.Study) reportTable {
	t := reportTable{name: "board", title: "the board", heads: []string{"part", "side", "stage", "built_to", "status", "action", "next", "why", "clears", "hours_spent", "hours_left",
		"responsible", "needed_by"}}
	for _, r := range st.Verdict.Board {
		t.rows = append(t.rows, []string{r.Part, r.Side, r.Stage, levelsCell(r.BuiltTo), r.Status, r.Action, r.Next, strings.Join(r.Reasons, "; "), r.Clears,
			cellOf(r.HoursSpent), cellOf(r.HoursLeft), r.Responsible, r.NeededBy})
	}
	return t
}

// levelsCell writes levels as parts.csv does: "foreplane=long; winglet=mid".
func levelsCell(levels map[string]string) string {
	if len(levels) == 0 {
		return ""
	}
	return strings.ReplaceAll(evidence.Name(levels), ", ", "; ")
}

func estimateTable(name, title string, list []evidence.Estimate) reportTable {
	t := reportTable{name: name, title: title, heads: append(estimateHeads(nil), "common")}
	for _, e := range list {
		t.rows = append(t.rows, append(shortened(t.heads, estimateRow(e)), commonCell(e.Common)))
	}
	return t
}

func limitTable(v decide.Verdict) reportTable {
	t := reportTable{name: "limits", title: "every combination against every limit", heads: []string{"configuration", "standing", "live", "probability_all_hold", "limit", "quantity",
		"unit", "at_least", "at_most", "probability_holds", "median", "low", "high", "where", "needs_flight_evidence", "binding"}}
	for _, c := range v.Configurations {
		for _, l := range c.Limits {
			t.rows = append(t.rows, []string{c.Configuration, c.State, yesNo(c.Live), cellOf(c.AllHold), l.Limit, l.Quantity, l.Unit, pointerCell(l.AtLeast), pointerCell(l.AtMost),
				cellOf(l.Probability), cellOf(l.Median), cellOf(l.Low), cellOf(l.High), l.Where, yesNo(l.FlightsNeed), l.Binding})
		}
	}
	return t
}

func contrastTable(list []decide.Contrast) reportTable {
	t := reportTable{name: "contrasts", title: "sizes against each other at full size", heads: []string{"choice", "level", "configuration", "against", "limit", "quantity", "unit",
		"median", "low", "high", "difference_median", "difference_low", "difference_high", "probability_holds", "binding", "bound"}}
	for _, c := range list {
		row := []string{c.Choice, c.Level, c.Configuration, c.Against, c.Limit, c.Quantity, c.Unit, cellOf(c.Value.Median), cellOf(c.Value.Low), cellOf(c.Value.High)}
		if c.Difference == nil {
			row = append(row, "", "", "")
		} else {
			row = append(row, cellOf(c.Difference.Median), cellOf(c.Difference.Low), cellOf(c.Difference.High))
		}
		t.rows = append(t.rows, append(row, pointerCell(c.Probability), c.Binding, pointerCell(c.Bound)))
	}
	return t
}

func flightTable(st *study.Study) reportTable {
	t := reportTable{name: "flights", title: "flights", heads: []string{"flight", "date", "configuration", "log", "logger", "weighing", "mass_kg", "mass_sd_kg", "cg_m", "cg_sd_m",
		"cg_model_mm", "pressure_hpa", "temperature_c", "use", "used", "why", "points_kept", "points_dropped", "manoeuvres", "findings", "notes"}}
	for _, f := range st.Flights {
		kept := 0
		for _, p := range f.Reduction.Points {
			if p.Kept {
				kept++
			}
		}
		stated := func(x, shown float64) string {
			if x == 0 {
				return ""
			}
			return cellOf(shown)
		}
		t.rows = append(t.rows, []string{f.Name, f.Date, evidence.Name(f.Levels), f.Log, f.Logger, f.Weighing, stated(f.Mass, f.Mass), stated(f.Mass, f.MassSD), stated(f.CG, f.CG),
			stated(f.CG, f.CGSD), stated(f.CG, 1000*f.CG*st.Program.Model.LengthRatio), stated(f.Pressure, f.Pressure/100), stated(f.Temperature, f.Temperature-273.15), yesNo(f.Use), yesNo(f.Used),
			f.Why, strconv.Itoa(kept), strconv.Itoa(len(f.Reduction.Points) - kept), strconv.Itoa(len(f.Reduction.Manoeuvres)), strconv.Itoa(len(f.Reduction.Findings)), f.Notes})
	}
	return t
}

func pointTable(st *study.Study) reportTable {
	t := reportTable{name: "points", title: "test points, kept and dropped", heads: pointHeads()}
	for _, f := range st.Flights {
		for _, p := range f.Reduction.Points {
			t.rows = append(t.rows, shortened(t.heads, pointRow(p)))
		}
	}
	return t
}

func findingTable(st *study.Study) reportTable {
	t := reportTable{name: "findings", title: "what was found in the logs", heads: []string{"flight", "severity", "channel", "start_s", "end_s", "what", "consequence"}}
	for _, f := range st.Flights {
		for _, found := range f.Reduction.Findings {
			t.rows = append(t.rows, []string{f.Name, string(found.Severity), string(found.Channel), cellOf(found.Start), cellOf(found.End), found.What, found.Consequence})
		}
	}
	return t
}

func decisionTable(list []report.Decided) reportTable {
	t := reportTable{name: "decisions", title: "decisions, and what became of them", heads: []string{"number", "event", "date", "choice", "level", "who", "why", "standing", "evidence", "flights_then",
		"flights_since", "files_changed", "inputs_sha256"}}
	for _, d := range list {
		t.rows = append(t.rows, []string{strconv.Itoa(d.Number), d.Event, d.Date, d.Choice, d.Level, d.Who, d.Why, d.Became(), d.Evidence, strings.Join(d.FlightsThen, " "),
			strings.Join(d.FlightsSince, " "), strings.Join(d.FilesChanged, "; "), d.Inputs})
	}
	return t
}

func sheetTable(list []program.Sheet) reportTable {
	t := reportTable{name: "sheets", title: "sheets issued to the wall", heads: []string{"number", "date", "issued_by", "newest_flight", "inputs_sha256", "parts"}}
	for _, s := range list {
		var parts []string
		for _, r := range s.Board {
			parts = append(parts, fmt.Sprintf("%s: %s", report.PartName(r.Part, r.Side), r.Action))
		}
		t.rows = append(t.rows, []string{strconv.Itoa(s.Number), s.Date, s.IssuedBy, s.NewestFlight, s.InputsSHA256, strings.Join(parts, "; ")})
	}
	return t
}

// shortened are cells with the digits that a reader of a long table wants: six, which is more than any number is known to. Names stay
// whole: a flight may be called 20260314.
func shortened(heads, cells []string) []string {
	names := []string{"flight", "flights", "configuration"}
	out := slices.Clone(cells)
	for i, cell := range cells {
		if slices.Contains(names, heads[i]) {
			continue
		}
		if x, err := strconv.ParseFloat(cell, 64); err == nil && len(cell) > 7 {
			out[i] = strconv.FormatFloat(x, 'g', 6, 64)
		}
	}
	return out
}

// commonCell is the signed effects of the errors that a number shares with others, in one cell: a column for each of two hundred sources
// would be empty but for a few rows.
func commonCell(common map[string]float64) string {
	var parts []string
	for _, source := range slices.Sorted(maps.Keys(common)) {
		parts = append(parts, source+"="+strconv.FormatFloat(common[source], 'g', 6, 64))
	}
	return strings.Join(parts, "; ")
}
