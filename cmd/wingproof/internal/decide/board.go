package decide

import (
	"fmt"
	"slices"
	"strings"
)

// blocker is one thing that keeps a part from being frozen.
type blocker struct {
	reason string
	clears string
	stop   bool // whatever the stage: ask before another hand is laid on the part
}

// findings are what is to be said of a part.
type findings struct {
	blockers []blocker
	notes    []string // reasons that do not block
}

func (f *findings) block(b blocker) { f.blockers = append(f.blockers, b) }

func (f *findings) note(format string, args ...any) {
	f.notes = append(f.notes, fmt.Sprintf(format, args...))
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
	var f findings
	o.findUnstated(part, &f)
	o.findContradiction(d, &f)
	o.findBuiltTo(part, d, &f)
	o.findChoices(d, &f)
	o.findLimits(d, &f)
	o.findSignoffs(d, &f)
	row := Row{
		Part: part.Name, Side: part.Side, Stage: part.Stage, Status: Frozen, BuiltTo: part.BuiltTo,
		HoursSpent: part.HoursSpent, HoursLeft: part.HoursLeft, Responsible: part.Responsible, NeededBy: part.NeededBy,
		Reasons: []string{}, Chain: o.chain(part, d),
	}
	stop := false
	var clears []string
	for _, b := range f.blockers {
		row.Status = Pending
		stop = stop || b.stop
		row.Reasons = append(row.Reasons, b.reason)
		if b.clears != "" && !slices.Contains(clears, b.clears) {
			clears = append(clears, b.clears)
		}
	}
	row.Reasons = append(row.Reasons, f.notes...)
	row.Clears = strings.Join(clears, "; and ")
	row.Action = action(row.Status, part.Stage, stop)
	if row.Status == Frozen {
		row.Next = nextOperation(part.Stage)
		if len(row.Reasons) == 0 {
			row.Reasons = append(row.Reasons, "nothing that is still open shapes this part or limits it")
		}
	}
	return row
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

// findUnstated blocks parts of which nobody has said what shapes them or what they must pass.
func (o *outcome) findUnstated(part Part, f *findings) {
	if !part.ShapedByStated && len(part.ShapedBy) == 0 {
		f.block(blocker{
			reason: "nobody has said what shapes this part",
			clears: "write under shaped_by which choices change it, or the word none",
		})
	}
	if !part.MustPassStated && len(part.MustPass) == 0 {
		f.block(blocker{
			reason: "nobody has said what this part must pass",
			clears: "write under must_pass which limits it depends on, or the word none",
		})
	}
}

// findContradiction blocks every part that a choice or a limit reaches when no configuration is left.
func (o *outcome) findContradiction(d demands, f *findings) {
	if o.liveCount() > 0 || (len(d.shapedBy) == 0 && len(d.limits) == 0) {
		return
	}
	f.block(blocker{
		reason: Contradiction + ": " + o.contradiction(),
		clears: "add a size, change a part that is built, a loading or a limit, or reopen what is settled: with the figures as they are no shape is left",
	})
}

// findBuiltTo blocks parts built to a level that is out or not the settled one, and parts past drawn that
// do not say what they were built to.
func (o *outcome) findBuiltTo(part Part, d demands, f *findings) {
	for _, choice := range sortedKeys(part.BuiltTo) {
		o.findWrongLevel(choice, part, f)
	}
	if part.Stage == stageDrawn {
		return
	}
	for _, choice := range d.shapedBy {
		if part.BuiltTo[choice] == "" {
			f.block(blocker{
				reason: "nobody has said which " + choice + " this part was built to",
				clears: "write " + choice + "=… under built_to", stop: true,
			})
		}
	}
}

// findWrongLevel blocks a part built to a level that will not be.
func (o *outcome) findWrongLevel(choice string, part Part, f *findings) {
	level := part.BuiltTo[choice]
	if level == "" {
		return
	}
	built := "built to " + choice + "=" + level
	verdict, state := o.verdictOn(choice, level), o.choiceState(choice)
	b := blocker{stop: true}
	known, _ := o.space.choice(choice)
	switch {
	case !contains(known.Levels, level):
		b.reason = fmt.Sprintf("%s, which is not on the list of sizes any more", built)
		b.clears = "correct built_to, or decide whether this part is rebuilt to a level that is left"
	case state.State == Settled && state.Level != level:
		b.reason = fmt.Sprintf("%s, but %s is settled at %s (%s)", built, choice, state.Level, cite(o.standing.settled[choice]))
		b.clears = fmt.Sprintf("decide whether this part is rebuilt to %s=%s or the choice is reopened", choice, state.Level)
	case verdict.State == Out:
		b.reason = fmt.Sprintf("%s, which is out: %s", built, verdict.Why)
		b.clears = "decide whether this part is rebuilt to a level that is left, or what rules the level out is changed"
	case state.State == Elimination && state.Level != level:
		b.reason = fmt.Sprintf("%s, but only %s=%s is left", built, choice, state.Level)
		b.clears = "decide whether this part is rebuilt"
	default:
		return
	}
	f.block(b)
}

// findChoices blocks parts whose own shape a choice still changes.
func (o *outcome) findChoices(d demands, f *findings) {
	for _, choice := range d.shapedBy {
		v := o.choiceState(choice)
		switch v.State {
		case Open:
			f.block(blocker{
				reason: fmt.Sprintf("waits for the %s: %s are %s still possible", choice, list(v.Live, "and"), bothOrAll(len(v.Live))),
				clears: o.clearChoice(choice, v),
			})
		case Elimination:
			f.block(blocker{
				reason: fmt.Sprintf("only %s=%s is left%s; nobody has confirmed it yet", choice, v.Level, o.whatRuledOut(choice, v.Level)),
				clears: fmt.Sprintf("confirm with settle %s %s", choice, v.Level),
			})
		case Settled:
			o.findSettled(choice, v, f)
		}
	}
}

// findSettled blocks a part whose settled level the evidence has since ruled out, and repeats a level that
// was settled without proof.
func (o *outcome) findSettled(choice string, v ChoiceVerdict, f *findings) {
	row := o.standing.settled[choice]
	if o.verdictOn(choice, v.Level).State == Out {
		f.block(blocker{
			reason: fmt.Sprintf("%s is settled at %s (%s), but %s", choice, v.Level, cite(row), o.againstEvidence(choice)),
			clears: "reopen the " + choice + ", or change what rules it out", stop: true,
		})
		return
	}
	f.note("%s is settled at %s (%s)", choice, v.Level, cite(row))
	if doubt := o.againstEvidence(choice); doubt != "" {
		f.note("%s=%s: %s", choice, v.Level, doubt)
	}
}

// findLimits blocks parts whose limits do not hold together in every live configuration, and says of the
// others why open choices do not matter to them.
func (o *outcome) findLimits(d demands, f *findings) {
	if len(d.limits) == 0 || o.liveCount() == 0 {
		return
	}
	worst, least := -1, 2.0
	for c, live := range o.live {
		if live && o.judgement.together(c, d.limits, false) < least {
			worst, least = c, o.judgement.together(c, d.limits, false)
		}
	}
	if reached(least, o.judgement.n) {
		f.note("%s", o.holdsEverywhere(d, least))
		return
	}
	open := o.openLimits(d)
	for _, r := range open {
		o.blockLimit(r, f)
	}
	if len(open) == 0 {
		f.block(blocker{
			reason: fmt.Sprintf("waits for %s together: each holds by itself, but with %s all of them hold only with %s", o.phrases(d.limits), o.space.configs[worst].name, surety(least)),
			clears: o.clearRequirement(o.leastSure(d.limits, worst), worst),
		})
	}
}

// blockLimit names a limit, the configuration that is least sure of it, and how many are not sure.
func (o *outcome) blockLimit(r int, f *findings) {
	configs := o.liveConfigs()
	c, notSure := o.weakest(r, configs), 0
	for _, k := range configs {
		if !reached(o.judgement.verdicts[k][r].Probability, o.judgement.n) {
			notSure++
		}
	}
	text := fmt.Sprintf("waits for %s: with %s it is only %s sure to hold", o.judgement.requirements[r].phrase(), o.space.configs[c].name, surety(o.judgement.verdicts[c][r].Probability))
	switch {
	case len(o.space.choices) == 0 || o.judgement.requirements[r].kind() == restsOnWeight:
		text = fmt.Sprintf("waits for %s: it is only %s sure to hold, whatever the open sizes", o.judgement.requirements[r].phrase(), surety(o.judgement.verdicts[c][r].Probability))
		if len(o.space.choices) == 0 {
			text = strings.TrimSuffix(text, ", whatever the open sizes")
		}
	case len(configs) > 1:
		text += fmt.Sprintf(" (%d of %d combinations still possible are not sure)", notSure, len(configs))
	}
	f.block(blocker{reason: text, clears: o.clearRequirement(r, c)})
}

// surety writes a probability, and says so where it is too near 95 % to count.
func surety(p float64) string {
	if p >= sure {
		return percent(p) + ", which is too close to 95 % to count,"
	}
	return percent(p)
}

// holdsEverywhere says why the open choices do not matter to a part's limits.
func (o *outcome) holdsEverywhere(d demands, least float64) string {
	verb := "holds"
	if len(d.limits) > 1 {
		verb = "hold together"
	}
	var open []string
	for _, v := range o.choices {
		if len(v.Live) > 1 && !slices.Contains(d.shapedBy, v.Choice) {
			open = append(open, v.Choice)
		}
	}
	if len(open) == 0 {
		return fmt.Sprintf("%s %s (%s sure)", o.phrases(d.limits), verb, percent(least))
	}
	that := "that choice"
	if len(open) > 1 {
		that = "those choices"
	}
	return fmt.Sprintf("%s %s for every %s still possible (at worst %s sure), so this part does not depend on %s", o.phrases(d.limits), verb, list(open, "and"), percent(least), that)
}

// findSignoffs blocks parts that a person has yet to sign for.
func (o *outcome) findSignoffs(d demands, f *findings) {
	for _, s := range d.signoffs {
		name := plainName(s.name)
		row, found, lapsed := o.standing.signoff(s.name, d.shapedBy)
		why := ""
		if s.added {
			why = ". Winglets, foreplanes, control surfaces and parts that a choice shapes all need this one, since flutter is not judged here; to do without, name another sign-off, or none, under must_pass"
		}
		clears := fmt.Sprintf("a sign-off row for %s in the record of decisions, by whoever is competent to give it; one row serves every part that waits for it", s.name)
		switch {
		case !found:
			f.block(blocker{reason: fmt.Sprintf("waits for a signature: nobody has signed off %s%s", name, why), clears: clears})
		case lapsed != nil:
			f.block(blocker{reason: fmt.Sprintf("waits for a new signature: %s was signed off (%s) before %s changed (%s)", name, cite(row), lapsed.Choice, cite(*lapsed)), clears: clears})
		default:
			f.note("%s signed off (%s)", name, cite(row))
		}
	}
}
