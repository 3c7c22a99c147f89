package main

import (
	"context"
	"math"
	"path/filepath"

	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
	"wingproof/flightlog"
	"wingproof/flightlog/manoeuvre"
	"wingproof/flightlog/reduce"
)

// look is one log under inspection.
type look struct {
	lookSource
	path      string
	recording *flightlog.Recording
	reduction reduce.Reduction
	lacking   []flightlog.Finding // what keeps test points from being formed, when that is all that is wrong
	leftOut   string              // why the flight cannot count; empty when it does
}

// lookDocument is what look --json prints.
type lookDocument struct {
	Log         string              `json:"log"`
	Program     string              `json:"program"`                  // name; empty without a folder
	Folder      string              `json:"program_folder,omitempty"` // when it was found from the log's own folder
	Flight      string              `json:"flight"`
	Logger      string              `json:"logger"`
	Drafted     bool                `json:"drafted"`
	Draft       string              `json:"draft,omitempty"`
	Lines       []lookGuess         `json:"lines,omitempty"` // of the draft
	Rows        int                 `json:"rows"`
	FlyingS     float64             `json:"flying_s"`
	Channels    []lookChannel       `json:"channels"`
	Findings    []flightlog.Finding `json:"findings"`
	Dangers     []report.Danger     `json:"dangers,omitempty"` // decelerations in which the wing let go first
	Calibration lookCalibration     `json:"calibration"`
	Manoeuvres  []lookManoeuvre     `json:"manoeuvres"`
	Points      []lookPoint         `json:"points"`
	Air         *reduce.Air         `json:"air"` // null when the log does not tell
	Cards       []lookCard          `json:"cards"`
	Figure      string              `json:"figure,omitempty"`
	Verdict     lookVerdict         `json:"verdict"`

	byAttitude bool // angle of attack of kept test points is attitude less path angle
}

// lookManoeuvre is a manoeuvre with what of it can be used.
type lookManoeuvre struct {
	manoeuvre.Manoeuvre
	Usable bool   `json:"usable"`
	Why    string `json:"why"` // it cannot be used; empty when it can
}

// lookPoint is a steady stretch, kept as a test point or dropped.
type lookPoint struct {
	Start    float64 `json:"start_s"`
	End      float64 `json:"end_s"`
	Kind     string  `json:"kind"`
	Power    string  `json:"power"`
	Airspeed float64 `json:"true_airspeed_m_s"`
	Kept     bool    `json:"kept"`
	Reason   string  `json:"reason"`
}

// reduce turns the recording into test points: as the flight that it is of, else as one whose mass nobody told, of which only
// the times of test points count.
func (l *look) reduce() (err error) {
	if l.flight != nil {
		if err := l.reduceAsFlight(); err != nil {
			return err
		}
	} else {
		const unknown = 1 // kg, m², m: kinds and times of test points do not depend on them
		if l.reduction, err = reduce.Reduce(l.recording, reduce.Context{Mass: unknown, WingArea: unknown, MeanChord: unknown}); err != nil {
			return err
		}
	}
	l.complete()
	return nil
}

// complete finds manoeuvres where nothing but missing channels keeps the reduction from it, and takes out what no document could hold.
func (l *look) complete() {
	l.lacking = reduce.Lacking(l.recording)
	if onlyLacking(l.reduction.Findings, l.lacking) {
		if found := manoeuvre.Find(l.recording); found != nil {
			l.reduction.Manoeuvres = found
		}
	}
	l.reduction = study.Sound(l.reduction)
}

func (l *look) reduceAsFlight() (err error) {
	if l.reduction, l.leftOut, err = study.ReduceLog(l.program, *l.flight, l.recording); err != nil {
		return usageError{err}
	}
	return nil
}

// onlyLacking tells whether missing channels are the only refusals.
func onlyLacking(all, lacking []flightlog.Finding) bool {
	count := func(list []flightlog.Finding) (n int) {
		for _, f := range list {
			if f.Severity == flightlog.Refusal {
				n++
			}
		}
		return n
	}
	return count(lacking) > 0 && count(all) == count(lacking)
}

// document gathers everything that look says.
func (l *look) document(ctx context.Context, s streams) (lookDocument, error) {
	doc := l.seen()
	if l.flight != nil {
		doc.Flight = l.flight.Name
		cards, err := l.cards(ctx, s)
		if err != nil {
			return doc, err
		}
		doc.Cards = cards
	}
	doc.Verdict = l.verdict(doc)
	return doc, nil
}

// seen is what the log shows by itself, without planned cards and verdict.
func (l *look) seen() lookDocument {
	doc := lookDocument{Log: l.path, Logger: l.logger.Name, Drafted: l.guesses != nil, Rows: l.recording.Rows, FlyingS: tenth(l.flying().seconds),
		Channels: l.channels(), Findings: append([]flightlog.Finding{}, l.reduction.Findings...), Calibration: l.calibration(), Points: []lookPoint{}, Cards: []lookCard{}}
	doc.Dangers = report.Dangers(l.reduction, "")
	if l.guesses != nil {
		doc.Draft, doc.Lines = program.DraftLogger(l.logger, l.guesses), guessRows(l.guesses)
	}
	if l.program != nil {
		doc.Program = l.program.Name
		if !doc.Drafted {
			doc.Folder = l.foundAt
		}
	}
	for _, p := range l.reduction.Points {
		doc.Points = append(doc.Points, lookPoint{p.Start, p.End, p.Kind, string(p.Power), p.Airspeed, p.Kept, p.Reason})
		doc.byAttitude = doc.byAttitude || p.Kept && p.AlphaMethod == reduce.ByAttitude
	}
	if l.reduction.Air.Enough {
		doc.Air = &l.reduction.Air
	}
	doc.Manoeuvres = usableManoeuvres(l.reduction)
	return doc
}

func tenth(x float64) float64 { return math.Round(10*x) / 10 }

// baseName is the log without its folders, for headings.
func (l *look) baseName() string { return filepath.Base(l.path) }
