package main

import (
	"context"
	"fmt"
	"strings"

	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/plots"
)

// logPage is what the page of a flight takes from its log: plain data that is kept, so that a report reads no log twice.
type logPage struct {
	Verdict lookVerdict
	Rows    int
	FlyingS float64
	Dangers []report.Danger
	Found   []report.Section // findings, manoeuvres
	Points  report.Section   // as look sees them, before the airspeed was calibrated
	More    []report.Section
	Log     []report.Section // channels, calibration
	Cards   []lookCard       // what this log did for each planned card
	Strip   *keptStrip       // nil: it cannot be drawn, and NoStrip says why
	NoStrip string
}

// keptStrip is a strip chart as it stands in the page.
type keptStrip struct {
	Title, Alt string
	SVG        []byte
}

// lookInputs are all that a look at a log reads beside the flight and its log.
type lookInputs struct {
	Program string
	Cards   []program.Card
}

// lookAt looks at the log of a flight as the command does, without judging the cards over other flights.
func lookAt(ctx context.Context, st *study.Study, f study.Flight) (logPage, error) {
	in := lookInputs{st.Program.Name, st.Program.Cards}
	return study.OfLog(ctx, st, f, study.LogWork[logPage]{Kind: "flightpage", Inputs: in, Make: func(log study.Logged) (logPage, error) {
		return in.look(log), nil
	}})
}

func (in lookInputs) look(log study.Logged) logPage {
	l := look{lookSource: lookSource{logger: log.Logger, program: &program.Program{Name: in.Program, Cards: in.Cards}, flight: &log.Flight},
		path: log.Flight.Log, recording: log.Recording, reduction: log.Reduction, leftOut: log.LeftOut}
	l.complete()
	doc := l.seen()
	doc.Flight = log.Flight.Name
	for _, c := range in.Cards {
		doc.Cards = append(doc.Cards, l.card(c))
	}
	doc.Verdict = l.verdict(doc)
	out := logPage{Verdict: doc.Verdict, Rows: doc.Rows, FlyingS: doc.FlyingS, Dangers: doc.Dangers, Cards: doc.Cards,
		Points: report.PointSection(l.reduction), More: report.DynamicSections(l.reduction), Log: []report.Section{doc.channelSection(), doc.calibrationSection()}}
	findings, manoeuvres := doc.findingSection(), doc.manoeuvreSection()
	for _, row := range manoeuvres.Rows {
		row[1] = strings.ReplaceAll(row[1], "_", "-")
	}
	out.Found = []report.Section{findings, manoeuvres}
	var err error
	if out.Strip, err = l.keptStrip(doc); err != nil {
		out.NoStrip = err.Error()
	}
	return out
}

// keptStrip draws the whole flight.
func (l *look) keptStrip(doc lookDocument) (*keptStrip, error) {
	data := l.stripChart(doc)
	data.Title, data.Note = fmt.Sprintf("Flight %s over time", doc.Flight), ""
	drawing, alt, err := plots.StripDrawing(data)
	if err != nil {
		return nil, err
	}
	return &keptStrip{Title: data.Title, Alt: alt, SVG: drawing}, nil
}
