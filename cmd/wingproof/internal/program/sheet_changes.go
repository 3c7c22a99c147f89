package program

// SheetChange is what became of one part since a sheet was issued. Was or Is is empty for a part that is new or gone.
type SheetChange struct {
	Part     string `json:"part"`
	Side     string `json:"side"`
	Was      string `json:"was"` // the word on the sheet
	Is       string `json:"is"`  // the word on the board now
	StageWas string `json:"stage_was"`
	StageIs  string `json:"stage_is"`
}

// Withdrawn tells that the sheet lets the shop work on the part and the board does not any more.
func (c SheetChange) Withdrawn() bool {
	return mayWork(c.Was) && c.Is != "" && !mayWork(c.Is)
}

func mayWork(action string) bool {
	return action == "start" || action == "carry on" || action == "done"
}

// ChangesSince compares the board with a sheet, in the order of the board, parts that are gone behind: another word, another stage, a
// part that is new or gone. What did not change is not listed.
func (s Sheet) ChangesSince(now []SheetRow) []SheetChange {
	key := func(r SheetRow) string { return folded(r.Part) + "\x00" + folded(r.Side) }
	before := map[string]SheetRow{}
	for _, r := range s.Board {
		before[key(r)] = r
	}
	out := []SheetChange{}
	listed := map[string]bool{}
	for _, r := range now {
		was := before[key(r)]
		listed[key(r)] = true
		if was.Action != r.Action || was.Stage != r.Stage {
			out = append(out, SheetChange{r.Part, r.Side, was.Action, r.Action, was.Stage, r.Stage})
		}
	}
	for _, r := range s.Board {
		if !listed[key(r)] {
			out = append(out, SheetChange{Part: r.Part, Side: r.Side, Was: r.Action, StageWas: r.Stage})
		}
	}
	return out
}
