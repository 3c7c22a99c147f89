package main

import (
	"maps"
	"strings"

	"wingproof/cmd/wingproof/internal/program"
)

// levelsFlag reads choice=level pairs such as "winglet=mid, foreplane=long"; choices that are not named stand at their
// baseline. What is wrong goes to m.
func levelsFlag(p *program.Program, text string, m *mistakes) map[string]string {
	levels := maps.Clone(p.Configurations()[0])
	maps.Copy(levels, namedLevels(p, text, m))
	return levels
}

// namedLevels is levelsFlag without the choices that are not named.
func namedLevels(p *program.Program, text string, m *mistakes) map[string]string {
	levels := map[string]string{}
	if len(p.Choices) == 0 {
		m.add("--configuration: program.toml has no choice; there is one configuration, and it is shown without this flag")
		return levels
	}
	named := map[string]bool{}
	for pair := range strings.SplitSeq(text, ",") {
		name, level, ok := strings.Cut(pair, "=")
		if !ok {
			m.add("--configuration: %q is no choice=level; write it such as %s", strings.TrimSpace(pair), exampleLevels(p))
			continue
		}
		choice, ok := choiceOf(p, name)
		switch {
		case !ok:
			m.add("--configuration: no choice %q in program.toml; it has %s", strings.TrimSpace(name), strings.Join(choiceNames(p), ", "))
		case named[choice.Name]:
			m.add("--configuration: %s is named twice; give it one level", choice.Name)
		default:
			named[choice.Name] = true
			if known, ok := levelOf(choice, level); ok {
				levels[choice.Name] = known
			} else {
				m.add("--configuration: choice %s has no level %q; it has %s", choice.Name, strings.TrimSpace(level), strings.Join(levelNames(choice), ", "))
			}
		}
	}
	return levels
}

// exampleLevels is a configuration of this program as the flag takes it.
func exampleLevels(p *program.Program) string {
	c := p.Choices[0]
	return `"` + c.Name + "=" + c.Levels[len(c.Levels)-1].Name + `"`
}

// choiceOf finds a choice by its name.
func choiceOf(p *program.Program, name string) (program.Choice, bool) {
	for _, c := range p.Choices {
		if sameName(c.Name, name) {
			return c, true
		}
	}
	return program.Choice{}, false
}

func choiceNames(p *program.Program) []string {
	var names []string
	for _, c := range p.Choices {
		names = append(names, c.Name)
	}
	return names
}

// levelOf finds a level of a choice by its name, as the program writes it.
func levelOf(c program.Choice, name string) (string, bool) {
	for _, l := range c.Levels {
		if sameName(l.Name, name) {
			return l.Name, true
		}
	}
	return "", false
}

func levelNames(c program.Choice) []string {
	var names []string
	for _, l := range c.Levels {
		names = append(names, l.Name)
	}
	return names
}
