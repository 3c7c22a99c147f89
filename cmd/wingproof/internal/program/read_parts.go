package program

import (
	"fmt"
	"strings"
)

// partStages lists how far a part can be, in the order of the work.
func partStages() []string { return []string{"drawn", "plug", "mould", "laid_up", "ready", "fitted"} }

// partWays lists how a part comes to be. Moulded is taken where nothing is written.
func partWays() []string { return []string{"moulded", "built", "bought"} }

// signoff begins a must-pass entry that a dated decision row clears.
const signoff = "signoff:"

type partColumns struct {
	name, side, made, stage, builtTo, spent, left, shapedBy, mustPass, responsible, neededBy, notes column
}

func (l *loader) readParts(t *table) {
	c := partColumns{
		name: t.text("part", true), side: t.text("side", false), made: t.text("made", false), stage: t.text("stage", true), builtTo: t.text("built_to", false),
		spent: t.measured(number("hours_spent", 0, 1e6)), left: t.measured(number("hours_left", 0, 1e6)),
		shapedBy: t.text("shaped_by", false), mustPass: t.text("must_pass", false),
		responsible: t.text("responsible", false), neededBy: t.text("needed_by", false), notes: t.text("notes", false),
	}
	seen := map[string]int{}
	for _, r := range t.rows {
		p := Part{Name: t.need(r, c.name, "the name of the part"), Side: r.cell(c.side).text, Responsible: r.cell(c.responsible).text,
			NeededBy: t.date(r, c.neededBy), Notes: r.cell(c.notes).text}
		key := folded(p.Name) + "\x00" + folded(p.Side)
		if first, twice := seen[key]; twice && p.Name != "" {
			t.wrong(r, c.name, fmt.Sprintf("the part %s already stands in row %d", quoted(p.Name), first), "give it another name or another side")
		}
		seen[key] = r.number
		t.need(r, c.stage, oneOf(partStages()))
		p.Stage = t.named(r, c.stage, partStages(), "stage")
		p.Made = t.named(r, c.made, partWays(), "way of making")
		if !t.mistaken(r, c.made) {
			checkStage(t, r, c, p)
		}
		p.HoursSpent, _ = t.number(r, c.spent)
		p.HoursLeft, _ = t.number(r, c.left)
		p.ShapedBy, p.ShapedByStated = l.partNames(t, r, c.shapedBy, l.choiceNames(), "choice")
		p.MustPass, p.MustPassStated = l.partNames(t, r, c.mustPass, l.limitNames(), "limit")
		l.cutPasses(t, r, c.responsible, c.notes)
		p.BuiltTo = l.builtTo(t, r, c.builtTo)
		l.checkBuiltTo(t, r, c, p)
		l.p.Parts = append(l.p.Parts, p)
	}
}

// checkStage refuses a plug or a mould of what needs none, and a part out of a mould that is ready without having been laid up.
func checkStage(t *table, r row, c partColumns, p Part) {
	moulded := p.Made == "" || p.Made == "moulded"
	switch p.Stage {
	case "plug", "mould", "laid_up":
		if !moulded {
			t.wrong(r, c.stage, fmt.Sprintf("a part that is %s has no stage %s", p.Made, p.Stage), "write drawn, ready or fitted, or write moulded under made")
		}
	case "ready":
		if moulded {
			t.wrong(r, c.stage, "a part out of a mould has no stage ready", "write laid_up, or write built or bought under made")
		}
	}
}

// partNames reads a list of names, or the word none. An empty cell is not stated.
func (l *loader) partNames(t *table, r row, c column, list []string, what string) (names []string, stated bool) {
	text := r.cell(c).text
	if text == "" {
		return nil, false
	}
	if folded(text) == "none" {
		return nil, true
	}
	isName := func(s string) bool { _, ok := known(s, list); return ok }
	for _, piece := range splitList(text, isName) {
		name, ok := known(piece, list)
		if !ok && what == "limit" && strings.HasPrefix(strings.ToLower(piece), signoff) {
			name, ok = signoff+strings.TrimSpace(piece[len(signoff):]), len(piece) > len(signoff)
		}
		if !ok {
			right := suggest(piece, append(list[:len(list):len(list)], "none"), what)
			if len(list) == 0 {
				right = fmt.Sprintf("program.toml states no %s: add [[%[1]s]] there, or write none", what)
			}
			t.wrong(r, c, fmt.Sprintf("there is no %s %s", what, quoted(piece)), right)
			continue
		}
		names = append(names, name)
	}
	return names, true
}

// builtTo reads a cell such as "winglet=mid; foreplane=large".
func (l *loader) builtTo(t *table, r row, c column) map[string]string {
	text := r.cell(c).text
	levels := map[string]string{}
	if text == "" || folded(text) == "none" {
		return levels
	}
	for _, piece := range splitList(text, l.isLevelOfChoice) {
		name, level, ok := strings.Cut(piece, "=")
		if !ok {
			t.wrong(r, c, quoted(piece)+" does not say which level of which choice", "write choice=level, such as winglet=mid; foreplane=large")
			continue
		}
		name, level = strings.TrimSpace(name), strings.TrimSpace(level)
		choiceName, ok := known(name, l.choiceNames())
		if !ok {
			t.wrong(r, c, "there is no choice "+quoted(name), suggest(name, l.choiceNames(), "choice"))
			continue
		}
		choice := l.choice(choiceName)
		levelName, ok := known(level, choice.levelNames())
		if !ok {
			t.wrong(r, c, fmt.Sprintf("choice %s has no level %s", choiceName, quoted(level)), suggest(level, choice.levelNames(), "level"))
			continue
		}
		if before, twice := levels[choiceName]; twice && before != levelName {
			t.wrong(r, c, fmt.Sprintf("the part is built to two levels of %s", choiceName), "keep the one that it was built to")
		}
		levels[choiceName] = levelName
	}
	return levels
}

// isLevelOfChoice tells whether a text such as "winglet=mid" names a choice and one of its levels.
func (l *loader) isLevelOfChoice(text string) bool {
	name, level, ok := strings.Cut(text, "=")
	if !ok {
		return false
	}
	choice, ok := known(strings.TrimSpace(name), l.choiceNames())
	if !ok {
		return false
	}
	_, ok = known(strings.TrimSpace(level), l.choice(choice).levelNames())
	return ok
}

// checkBuiltTo reports a part past drawn that does not say to which level of its shaping choices it is built.
func (l *loader) checkBuiltTo(t *table, r row, c partColumns, p Part) {
	if p.Stage == "" || p.Stage == "drawn" {
		return
	}
	for _, choice := range p.ShapedBy {
		if p.BuiltTo[choice] == "" && !t.mistaken(r, c.builtTo) {
			t.wrong(r, c.builtTo, fmt.Sprintf("the part is past drawn and does not say to which level of %s it is built", choice),
				"write "+choice+"="+strings.Join(l.choice(choice).levelNames(), " or "+choice+"="))
		}
	}
}

// mistaken tells whether the cell already has a mistake.
func (t *table) mistaken(r row, c column) bool {
	at := r.cell(c).at
	for _, m := range t.l.mistakes {
		if m.File == t.file && m.Line == at.line && m.Column == at.column && c.index >= 0 {
			return true
		}
	}
	return false
}
