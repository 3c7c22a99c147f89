package main

import (
	"reflect"

	"wingproof/aero"
	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog/reduce"
)

// evidenceDocument is everything that the report shows, as one JSON document: SI units, radians.
type evidenceDocument struct {
	Format      int                         `json:"format"` // rises when a key changes its meaning
	Program     string                      `json:"program"`
	Date        string                      `json:"date"`
	LengthRatio float64                     `json:"length_ratio"` // model over full size
	Reference   evidenceReference           `json:"reference"`
	Sheet       report.Sheet                `json:"sheet"`
	Verdict     decide.Verdict              `json:"verdict"`
	Margins     []evidence.Estimate         `json:"margins"`
	Estimates   []evidence.Estimate         `json:"estimates"`
	Contrasts   []decide.Contrast           `json:"contrasts"`
	Next        *nextForecast               `json:"next"` // null: there is none, or not yet
	Flights     []evidenceFlight            `json:"flights"`
	Airspeeds   []study.AirspeedCalibration `json:"airspeed_calibrations"`
	Dangers     []report.Danger             `json:"dangers"`
	Decisions   []report.Decided            `json:"decisions"`
	Sheets      []evidenceSheet             `json:"sheets"`
	Methods     []evidenceMethod            `json:"methods"`
	Figures     []evidenceFigure            `json:"figures"`
	Warnings    []string                    `json:"warnings"`
	Cautions    string                      `json:"caution"`
}

// evidenceReference is what coefficients refer to, full size.
type evidenceReference struct {
	Area                 float64 `json:"reference_area_m2"`
	Span                 float64 `json:"span_m"`
	MeanChord            float64 `json:"mean_aerodynamic_chord_m"`
	MeanChordLeadingEdge float64 `json:"mean_chord_leading_edge_m"`
	MomentPoint          float64 `json:"moment_point_m"` // of predictions, aft of datum
}

// evidenceFlight is one flight: how it was flown, whether it counts, and what its log gave.
type evidenceFlight struct {
	Flight        string            `json:"flight"`
	Date          string            `json:"date"`
	Configuration string            `json:"configuration"`
	Levels        map[string]string `json:"levels"`
	Log           string            `json:"log"`
	Logger        string            `json:"logger"`
	Weighing      string            `json:"weighing"`
	Mass          *float64          `json:"mass_kg"`
	CG            *float64          `json:"cg_m"` // full-size, aft of datum
	Pressure      *float64          `json:"pressure_pa"`
	Temperature   *float64          `json:"temperature_k"`
	Use           bool              `json:"use"`  // as flights.csv has it
	Used          bool              `json:"used"` // it counts
	Why           string            `json:"why"`
	Notes         string            `json:"notes"`
	Points        evidencePoints    `json:"test_points"`
	Reduced       reduce.Reduction  `json:"reduced"` // findings, air, stalls, sideslips, turns; its points are test_points
}

// evidencePoints are test points as a table: what each column holds, then a row for each point. Spelt out, the names of the columns would
// take most of the document.
type evidencePoints struct {
	Columns []string `json:"columns"`
	Rows    [][]any  `json:"rows"`
}

func evidencePointsOf(points []reduce.TestPoint) evidencePoints {
	out := evidencePoints{Columns: pointHeads()}
	for _, p := range points {
		fields := reflect.ValueOf(p)
		var row []any
		for _, c := range pointColumns() {
			var value any // null where the point has nothing
			if c.holds(fields) {
				value = fields.Field(c.index).Interface()
			}
			row = append(row, value)
		}
		out.Rows = append(out.Rows, row)
	}
	return out
}

type evidenceSheet struct {
	Number       int    `json:"number"`
	Date         string `json:"date"`
	IssuedBy     string `json:"issued_by"`
	NewestFlight string `json:"newest_flight"`
	InputsSHA256 string `json:"inputs_sha256"`
}

type evidenceMethod struct {
	Name   string `json:"name"`
	Text   string `json:"text"`
	Source string `json:"source"`
}

type evidenceFigure struct {
	File  string `json:"file"` // without ending
	Title string `json:"title"`
	Alt   string `json:"words"`
}

// evidenceFile is the name of the document.
const evidenceFile = "evidence.json"

// evidence adds the document.
func (m *maker) evidence() error {
	body, err := m.evidenceBody()
	if err != nil {
		return err
	}
	m.add(evidenceFile, body)
	m.link("data", "everything on these pages as one JSON document", evidenceFile)
	return nil
}

func (m *maker) evidenceBody() ([]byte, error) {
	contrasts, err := allContrasts(m.study)
	if err != nil {
		return nil, err
	}
	doc := evidenceOf(m.study, m.head, m.content)
	doc.Contrasts = contrasts
	if o := m.content.Next.Known(); o != nil {
		next := nextForecastOf(*o)
		doc.Next = &next
	}
	return report.FactsJSON(doc)
}

func evidenceOf(st *study.Study, head boardHead, c *report.Content) evidenceDocument {
	doc := evidenceDocument{Format: 1, Program: st.Program.Name, Date: st.Verdict.Date, LengthRatio: st.Program.Model.LengthRatio, Sheet: head.sheet, Verdict: st.Verdict,
		Reference: referenceOf(st.Configurations[0].Airframe.Reference, st.ReferenceCG), Margins: st.Margins, Estimates: st.Estimates, Airspeeds: st.Airspeeds, Dangers: c.Dangers,
		Decisions: head.decided, Warnings: c.Warnings, Cautions: "Nothing in this document says that an aircraft, model or full size, is safe to fly."}
	doc.Verdict.Anchored = nil // they stand among the estimates
	for _, f := range st.Flights {
		doc.Flights = append(doc.Flights, evidenceFlightOf(f))
	}
	for _, s := range st.Program.Sheets {
		doc.Sheets = append(doc.Sheets, evidenceSheetOf(s))
	}
	for _, method := range c.Methods {
		doc.Methods = append(doc.Methods, evidenceMethod(method))
	}
	for _, f := range fileNamed(figureGroups(c.Figures)) {
		doc.Figures = append(doc.Figures, evidenceFigure{"figures/" + f.Name, f.Title, f.Alt})
	}
	return doc
}

func referenceOf(r aero.Reference, cg float64) evidenceReference {
	return evidenceReference{r.Area, r.Span, r.MeanChord, r.MeanChordLeadingEdge, cg}
}

func evidenceFlightOf(f study.Flight) evidenceFlight {
	known := func(x float64) *float64 {
		if x == 0 {
			return nil
		}
		return &x
	}
	reduced := f.Reduction
	reduced.Points, reduced.Manoeuvres = nil, nil // points stand in a table, manoeuvres on the page of the flight
	return evidenceFlight{Flight: f.Name, Date: f.Date, Configuration: evidence.Name(f.Levels), Levels: f.Levels, Log: f.Log, Logger: f.Logger, Weighing: f.Weighing,
		Mass: known(f.Mass), CG: known(f.CG), Pressure: known(f.Pressure), Temperature: known(f.Temperature), Use: f.Use, Used: f.Used, Why: f.Why, Notes: f.Notes, Points: evidencePointsOf(f.Reduction.Points), Reduced: reduced}
}

func evidenceSheetOf(s program.Sheet) evidenceSheet {
	return evidenceSheet{s.Number, s.Date, s.IssuedBy, s.NewestFlight, s.InputsSHA256}
}
