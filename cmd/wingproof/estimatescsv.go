package main

import (
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
)

// estimatesCSV writes a row for each estimate: SI units and radians, the columns by the keys of --json. What does not apply stays empty.
// The shared parts of the errors have a column for each source that any of the rows knows.
func estimatesCSV(w io.Writer, estimates []evidence.Estimate) error {
	sources := sharedSources(estimates)
	head := estimateHeads(sources)
	rows := make([][]string, len(estimates))
	for i, e := range estimates {
		rows[i] = append(estimateRow(e), commonCells(e, sources)...)
	}
	return writeCSV(w, head, rows)
}

// estimateHeads are the heads of a table of estimates.
func estimateHeads(sources []string) []string {
	head := []string{"configuration", "quantity", "unit", "scale", "axes", "power", "cg_m", "cg_percent", "lift_coefficient", "load_factor", "speed_m_s",
		"reynolds", "origin", "state", "value", "sd", "sd_own", "low", "high", "set", "method", "flights", "points", "warnings"}
	for _, source := range sources {
		head = append(head, "common_"+strings.ReplaceAll(source, " ", "_"))
	}
	return head
}

func sharedSources(estimates []evidence.Estimate) []string {
	var out []string
	for _, e := range estimates {
		for source := range e.Common {
			if !slices.Contains(out, source) {
				out = append(out, source)
			}
		}
	}
	slices.Sort(out)
	return out
}

func estimateRow(e evidence.Estimate) []string {
	points := ""
	if e.Points != nil {
		points = strconv.Itoa(*e.Points)
	}
	at := e.At
	return []string{e.Configuration, e.Quantity, e.Unit, e.Scale, textOf(e.Axes), textOf(e.Power), pointerCell(at.CG), pointerCell(at.CGPercent), pointerCell(at.LiftCoefficient),
		pointerCell(at.LoadFactor), pointerCell(at.Speed), pointerCell(at.Reynolds), e.Origin, e.State, pointerCell(e.Value), pointerCell(e.SD), pointerCell(e.SDOwn), pointerCell(e.Low),
		pointerCell(e.High), textOf(e.Set), textOf(e.Method), strings.Join(e.Flights, " "), points, strings.Join(e.Warnings, "; ")}
}

func commonCells(e evidence.Estimate, sources []string) []string {
	out := make([]string, len(sources))
	for i, source := range sources {
		if v, ok := e.Common[source]; ok {
			out[i] = cellOf(v)
		}
	}
	return out
}

func textOf(s *string) string {
	if s == nil {
		return ""
	}
	return *s
}

func pointerCell(v *float64) string {
	if v == nil {
		return cellOf(math.NaN())
	}
	return cellOf(*v)
}
