package report

import (
	"bytes"
	"html/template"

	"wingproof/cmd/wingproof/internal/plan"
)

// planPage is what the printable page of a plan shows.
type planPage struct {
	Plan   plan.Plan
	Style  template.CSS
	Sheets []planSheet
}

// planSheet is one sheet in words.
type planSheet struct {
	plan.Sheet
	Title string
	Head  []planRow
	Lines []planCard
}

// planCard is one card in words.
type planCard struct {
	Number                    int
	Name, Do, Stop, Reads     string
	Shown, Brackets           string // what the display is to show: m/s large, km/h and kt in brackets
	Calibrated                string // where it differs from what is shown
	Lift, Entry, Often, Holds string
}

// WritePlan writes the sheets as one self-contained page that prints on A4, black on white, a sheet to a page or two.
func WritePlan(path string, p plan.Plan) error {
	style, err := assets.ReadFile("assets/plan.css")
	if err != nil {
		return err
	}
	data := planPage{Plan: p, Style: template.CSS(style)}
	for _, s := range p.Sheets {
		one := planSheet{Sheet: s, Title: planTitle(s), Head: planHead(p, s)}
		for _, c := range s.Cards {
			one.Lines = append(one.Lines, planCardWords(c))
		}
		data.Sheets = append(data.Sheets, one)
	}
	var b bytes.Buffer
	if err := execute(&b, "plan.gohtml", data); err != nil {
		return err
	}
	return replace(path, &b)
}

func planCardWords(c plan.Card) planCard {
	const kmh, knots = 3.6, 3600.0 / 1852
	out := planCard{
		Number: c.Number, Name: c.Name, Do: c.Do, Stop: planStop(c), Reads: c.Reads,
		Shown: number(c.Shown, 1), Brackets: number(kmh*c.Shown, 0) + " km/h, " + number(knots*c.Shown, 0) + " kt",
		Lift: number(c.Lift, 2), Entry: number(c.Entry, 0) + " m", Often: planOften(c), Holds: number(c.Hold, 0) + " s",
	}
	if calibrated := number(c.Speed, 1); calibrated != out.Shown {
		out.Calibrated = calibrated
	}
	return out
}
