package decide

import "fmt"

// blocker is one thing that keeps a part from being frozen.
type blocker struct {
	reason string
	steps  []step // what would clear it, where that does not follow from the choices and limits of the part
	stop   bool   // whatever the stage: ask before another hand is laid on the part
}

// findings are what is to be said of a part.
type findings struct {
	blockers []blocker
	notes    []string // reasons that do not block
	details  []string // for the chain
}

func (f *findings) block(b blocker) { f.blockers = append(f.blockers, b) }

func (f *findings) note(format string, args ...any) {
	f.notes = append(f.notes, fmt.Sprintf(format, args...))
}

func (f *findings) detail(format string, args ...any) {
	f.details = append(f.details, fmt.Sprintf(format, args...))
}

// board gives every part its row, in the order of the parts.
func (o *outcome) board() ([]Row, error) {
	rows := make([]Row, 0, len(o.problem.Parts))
	for _, part := range o.problem.Parts {
		d, err := o.demandsOf(part)
		if err != nil {
			return nil, fmt.Errorf("part %q: %w", part.Name, err)
		}
		rows = append(rows, o.row(part, d))
	}
	return rows, nil
}

// row judges one part.
//
// Frozen: nothing blocks. Then a drawn part may start, a fitted one is done, any other carries on. A
// pending part waits when it is only drawn; once something of it exists, or where it is built to the wrong
// level, the shop stops and asks.
func (o *outcome) row(part Part, d demands) Row {
	f := o.find(part, d)
	row := Row{
		Part: part.Name, Side: part.Side, Stage: part.Stage, BuiltTo: part.BuiltTo,
		HoursSpent: part.HoursSpent, HoursLeft: part.HoursLeft, Responsible: part.Responsible, NeededBy: part.NeededBy,
		Reasons: []string{}, Chain: append(o.chain(d), f.details...),
	}
	row.Status, row.OnPaper = f.status()
	stop := false
	var steps []step
	if len(f.blockers) > 0 {
		steps = o.plan(d)
	}
	for _, b := range f.blockers {
		stop = stop || b.stop
		row.Reasons = append(row.Reasons, b.reason)
		steps = append(steps, b.steps...)
	}
	row.Reasons = append(row.Reasons, f.notes...)
	row.Clears = clears(steps)
	row.Chain = append(row.Chain, fullSteps(steps)...)
	row.Action = action(row.Status, part.Stage, stop)
	if row.Status == Frozen {
		row.Next = nextOperation(part)
		if len(row.Reasons) == 0 {
			row.Reasons = append(row.Reasons, "no undecided question touches this part")
		}
	}
	for _, words := range o.strengthOf(part) {
		row.Reasons[0] += "; " + words
	}
	return row
}

// find looks for everything that there is to be said of a part.
func (o *outcome) find(part Part, d demands) findings {
	var f findings
	o.findUnstated(part, &f)
	o.findContradiction(d, &f)
	o.findBuiltTo(part, d, &f)
	o.findChoices(d, &f)
	o.findLimits(d, &f)
	o.findSignoffs(part, d, &f)
	return f
}

// status is frozen when nothing blocks. onPaper tells that some blocker is a gap in the list of parts, or a rebuild that somebody must decide on.
func (f findings) status() (status string, onPaper bool) {
	if len(f.blockers) == 0 {
		return Frozen, false
	}
	for _, b := range f.blockers {
		for _, s := range b.steps {
			onPaper = onPaper || s.rank == rankWrite || s.rank == rankRebuild
		}
	}
	return Pending, onPaper
}

// action is the word on the wall.
func action(status, stage string, stop bool) string {
	switch {
	case status == Pending && (stop || stage != stageDrawn):
		return StopAndAsk
	case status == Pending:
		return Wait
	case stage == stageDrawn:
		return Start
	case stage == stageFitted:
		return Done
	default:
		return CarryOn
	}
}
