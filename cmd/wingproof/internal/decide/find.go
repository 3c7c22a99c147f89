package decide

import "fmt"

// findUnstated blocks parts of which nobody has said what shapes them or what they must pass.
func (o *outcome) findUnstated(part Part, f *findings) {
	if !part.ShapedByStated && len(part.ShapedBy) == 0 {
		f.block(blocker{
			reason: "nobody has said what shapes this part",
			steps:  write("somebody must write in parts.csv, under shaped_by, which choices change it, or none"),
		})
	}
	if !part.MustPassStated && len(part.MustPass) == 0 {
		f.block(blocker{
			reason: "nobody has said what this part must pass",
			steps:  write("somebody must write in parts.csv, under must_pass, which limits it depends on, or none"),
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
		steps: []step{{rankSettle, "add a size, change a built part, a loading or a limit, or reopen what is settled",
			"with the figures as they are no shape is left: add a size, change a part that is built, a loading or a limit, or reopen what is settled"}},
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
				steps:  write("write " + choice + "=… under built_to"), stop: true,
			})
		}
	}
}

// write asks for an entry in the list of parts.
func write(what string) []step { return []step{{rankWrite, what, ""}} }

// rebuild asks whether a part is made anew.
func rebuild(say, full string) []step { return []step{{rankRebuild, say, full}} }

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
	const decideRebuild = "decide whether it is rebuilt"
	switch {
	case !contains(known.Levels, level):
		b.reason = built + ", which is not on the list of sizes any more"
		b.steps = rebuild("correct built_to, or "+decideRebuild, "correct built_to, or decide whether this part is rebuilt to a size that is left"+o.left(state))
	case state.State == Settled && state.Level != level:
		b.reason = fmt.Sprintf("%s, but %s is settled at %s (%s)", built, choice, state.Level, cite(o.standing.settled[choice]))
		b.steps = rebuild(fmt.Sprintf("decide: rebuild it to %s=%s, or reopen the %s", choice, state.Level, choice),
			fmt.Sprintf("decide whether this part is rebuilt to %s=%s or the choice is reopened (settle %s --reopen)", choice, state.Level, choice))
	case verdict.State == Out:
		b.reason = fmt.Sprintf("%s, which is out: %s", built, verdict.Why)
		b.steps = rebuild(decideRebuild, fmt.Sprintf("decide whether this part is rebuilt to a size that is left%s, or what rules %s out is changed: %s", o.left(state), level, verdict.Why))
	default:
		return
	}
	f.block(b)
}

// left lists the sizes of a choice that are still possible, in brackets.
func (o *outcome) left(v ChoiceVerdict) string {
	if len(v.Live) == 0 {
		return ""
	}
	return " (" + list(v.Live, "or") + ")"
}

// findChoices blocks parts whose own shape a choice still changes; plan says what closes it.
func (o *outcome) findChoices(d demands, f *findings) {
	for _, choice := range d.shapedBy {
		v := o.choiceState(choice)
		switch v.State {
		case Open:
			f.block(blocker{reason: fmt.Sprintf("waits for the %s: %s are %s still possible", choice, list(v.Live, "and"), bothOrAll(len(v.Live)))})
		case Elimination:
			f.block(blocker{reason: fmt.Sprintf("only %s=%s is left%s; nobody has confirmed it yet", choice, v.Level, o.outBy(choice, v.Level))})
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
			steps:  []step{{rankSettle, "reopen the " + choice + ", or change what rules it out", ""}}, stop: true,
		})
		return
	}
	f.note("%s is settled at %s (%s)", choice, v.Level, cite(row))
	if doubt := o.againstEvidence(choice); doubt != "" {
		f.note("%s=%s: %s", choice, v.Level, doubt)
	}
}
