package main

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
	"wingproof/plots"
)

// draw writes the log as a strip chart.
func (l *look) draw(doc lookDocument, file string) error {
	data := l.stripChart(doc)
	var raw []byte
	var err error
	if strings.EqualFold(filepath.Ext(file), ".png") {
		raw, err = plots.StripChartPNG(data)
	} else {
		var f plots.Figure
		f, err = plots.StripChart(data)
		raw = f.SVG
	}
	if err != nil {
		return usageError{fmt.Errorf("look: the log cannot be drawn: %w", err)}
	}
	if err := os.WriteFile(file, raw, 0o644); err != nil {
		return fmt.Errorf("write the figure: %w", err)
	}
	return nil
}

// stripChart gathers what a strip chart shows of a log.
func (l *look) stripChart(doc lookDocument) plots.StripChartData {
	d := plots.StripChartData{Title: l.baseName(), Note: doc.Verdict.Sentence}
	if doc.Flight != "" {
		d.Title += ", flight " + doc.Flight
	}
	const degrees = 180 / math.Pi
	panel := func(name, unit string, series ...plots.StripSeries) {
		d.Panels = append(d.Panels, plots.StripPanel{Name: name, Unit: unit, Series: series})
	}
	panel("airspeed, calibrated", "m/s", l.series("", flightlog.Airspeed, 1))
	height := l.series("", flightlog.Altitude, 1)
	if len(height.Time) > 1 {
		panel("height above the field", "m", height)
	} else {
		panel("static pressure", "hPa", l.series("", flightlog.StaticPressure, 0.01))
	}
	panel("attitude", "degrees", l.series("nose up", flightlog.PitchAngle, degrees), l.series("bank right", flightlog.RollAngle, degrees))
	panel("load factor", "", l.series("", flightlog.DownAcceleration, -1/atmosphere.Gravity))
	panel("elevator, trailing edge down", "degrees", l.series("", flightlog.Elevator, degrees))
	panel("aileron and left rudder", "degrees", l.series("aileron", flightlog.Aileron, degrees), l.series("rudder", flightlog.RudderLeft, degrees))
	panel("throttle", "%", l.series("", flightlog.Throttle, 100))
	for _, p := range doc.Points {
		d.Points = append(d.Points, plots.StripPoint{From: p.Start, To: p.End, Kept: p.Kept})
	}
	for _, f := range doc.Findings {
		d.Findings = append(d.Findings, plots.StripFinding{From: f.Start, To: f.End, Loss: f.Severity != flightlog.Note})
	}
	for _, m := range doc.Manoeuvres {
		d.Manoeuvres = append(d.Manoeuvres, plots.StripManoeuvre{From: m.Start, To: m.End, Name: manoeuvreWords(m)})
	}
	return d
}

func (l *look) series(name string, q flightlog.Quantity, factor float64) plots.StripSeries {
	c := l.recording.Channels[q]
	out := plots.StripSeries{Name: name, Time: c.Time, Value: make([]float64, len(c.Value))}
	for i, v := range c.Value {
		out.Value[i] = factor * v
	}
	return out
}

// manoeuvreWords is the kind of a manoeuvre with its control.
func manoeuvreWords(m lookManoeuvre) string {
	kind := strings.ReplaceAll(string(m.Kind), "_", "-")
	if m.Control == "" {
		return kind
	}
	control, _, _ := strings.Cut(channelWords(m.Control), " ")
	return kind + ", " + control
}
