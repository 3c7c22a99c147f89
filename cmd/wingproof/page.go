package main

import (
	"context"
	"fmt"
	"math"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

// pageContent gathers everything that the report shows.
func pageContent(ctx context.Context, st *study.Study, head boardHead) (report.Content, error) {
	p := st.Program
	c := report.Content{
		Program: p.Name, Date: st.Verdict.Date, Sheet: head.sheet, Verdict: st.Verdict, Margins: st.Margins,
		Estimates: st.Estimates, LengthRatio: p.Model.LengthRatio, Decisions: head.decided, Flights: flightRows(st), Dangers: dangersOf(st, everyLevel),
		Warnings: append(append([]string{}, p.Warnings...), p.Missing...), Methods: pageMethods(st),
	}
	if len(st.Configurations) > 0 {
		c.Warnings = append(c.Warnings, st.Configurations[0].Loads.Missing...)
	}
	if sheet, err := study.Scale(p); err == nil {
		c.Scaling = &sheet
	} else {
		c.Warnings = append(c.Warnings, err.Error())
	}
	figures, notDrawn, err := pageFigures(ctx, st)
	c.Figures, c.Warnings = figures, append(c.Warnings, notDrawn...)
	return c, err
}

// newestFlight names the newest flight that counts.
func newestFlight(st *study.Study) string {
	name, date := newestUsed(st)
	if name == "" {
		return ""
	}
	return "flight " + name + " of " + report.DateWords(date)
}

// newestUsed is the newest flight that counts, with its date.
func newestUsed(st *study.Study) (name, date string) {
	for _, f := range st.Flights {
		if f.Used && f.Date >= date {
			name, date = f.Name, f.Date
		}
	}
	return name, date
}

func flightRows(st *study.Study) []report.FlightRow {
	var rows []report.FlightRow
	for _, f := range st.Flights {
		row := report.FlightRow{Flight: f.Name, Date: f.Date, Configuration: evidence.Name(f.Levels), CG: f.CG, Used: f.Used, Why: f.Why,
			Findings: f.Reduction.Findings}
		for _, t := range f.Reduction.Points {
			if t.Kept {
				row.Points++
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// pageMethods states what is particular to this program: the model errors that it is judged with.
func pageMethods(st *study.Study) []report.Method {
	chord := st.Configurations[0].Airframe.Reference.MeanChord
	var out []report.Method
	for _, e := range study.TheoryErrors(st.Program, chord) {
		text := fmt.Sprintf("one standard deviation: %s for the whole aircraft, %s for each combination by itself",
			errorText(e.Bias, e), errorText(e.Interaction, e))
		for _, choice := range st.Program.Choices {
			text += fmt.Sprintf(", %s for each %s", errorText(e.Level[choice.Name], e), choice.Name)
		}
		for _, step := range []string{"reynolds", "power", "shape"} {
			text += fmt.Sprintf(", %s for %s on the way to full size", errorText(e.FullSize[step], e), step)
		}
		out = append(out, report.Method{Name: "model error of " + e.Quantity, Text: text + ".", Source: e.Source})
	}
	return out
}

// errorText writes a standard deviation: in per cent of the predicted value, in degrees, in millimetres, or as it is.
func errorText(sd float64, e decide.TheoryError) string {
	switch {
	case e.Relative:
		return fmt.Sprintf("%.1f %%", 100*sd)
	case e.Quantity == evidence.StallOrderMargin || e.Quantity == evidence.ZeroLiftElevator:
		return fmt.Sprintf("%.1f°", sd*180/math.Pi)
	case e.Quantity == evidence.NeutralPoint:
		return fmt.Sprintf("%.0f mm", 1000*sd)
	}
	return fmt.Sprintf("%.3f", sd)
}
