package main

import (
	"errors"

	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
	"wingproof/cmd/wingproof/internal/study"
)

// boardHead is what stands around a board: the sheet that it is or would be, and the record of decisions.
type boardHead struct {
	sheet   report.Sheet
	decided []report.Decided
}

// boardHeadOf heads the board as a draft, compares it with the last sheet, and puts an alarm on the verdict where the sheet on
// the wall still lets the shop work on what the board stops.
func boardHeadOf(st *study.Study) (boardHead, error) {
	decided, err := recordOf(st)
	if err != nil {
		return boardHead{}, err
	}
	h := boardHead{draftOf(st), decided}
	if alarm := h.sheet.Alarm(); alarm != "" {
		st.Verdict.Alarms = append(st.Verdict.Alarms, alarm)
	}
	return h, nil
}

// draftOf is the board as a draft, with what changed since the last sheet.
func draftOf(st *study.Study) report.Sheet {
	sheet := report.Sheet{Date: st.Verdict.Date, NewestFlight: newestFlight(st), Changed: []report.Change{}}
	n := len(st.Program.Sheets)
	if n == 0 {
		return sheet
	}
	last := st.Program.Sheets[n-1]
	sheet.Last = &report.Issued{Number: last.Number, Date: last.Date, IssuedBy: last.IssuedBy, NewestFlight: last.NewestFlight, InputsSHA256: last.InputsSHA256}
	for _, c := range last.ChangesSince(sheetRows(st)) {
		sheet.Changed = append(sheet.Changed, report.Change{Part: report.PartName(c.Part, c.Side), Was: c.Was, Is: c.Is, StageWas: c.StageWas, StageIs: c.StageIs,
			Withdrawn: c.Withdrawn()})
	}
	return sheet
}

// sheetRows is the board as sheets.csv keeps it.
func sheetRows(st *study.Study) []program.SheetRow {
	var rows []program.SheetRow
	for _, r := range st.Verdict.Board {
		rows = append(rows, program.SheetRow{Part: r.Part, Side: r.Side, Stage: r.Stage, Action: r.Action})
	}
	return rows
}

// basisOf is what a study was judged on, for the row that is written behind it.
func basisOf(p *program.Program, inputs program.Inputs) program.Basis {
	decisions, sheets := program.LastDigest(p.Decisions), program.LastSheetDigest(p.Sheets)
	return program.Basis{Inputs: inputs, Decisions: &decisions, Sheets: &sheets}
}

// attempts is how often a row is judged anew when another was recorded meanwhile.
const attempts = 4

// untilRecorded repeats a judgement and the writing of its row while others get in between: each row is then judged on the record
// as it stands when it is written.
func untilRecorded(once func() error) error {
	var err error
	for range attempts {
		err = once()
		var overtaken *program.Overtaken
		if !errors.As(err, &overtaken) || !overtaken.ByRow {
			return err
		}
	}
	return err
}
