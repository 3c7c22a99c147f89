package main

import (
	"os"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"wingproof/cmd/wingproof/internal/program"
	"wingproof/flightlog"
)

// names are the words of a program folder that complete what somebody types; typed is what stands there already.
type names func(p *program.Program, words []string, typed string) []string

// flagNames are the flags that take a name of the program folder.
func flagNames() map[string]names {
	return map[string]names{
		"configuration": configurationNames,
		"flight":        func(p *program.Program, _ []string, _ string) []string { return flightNames(p) },
		"why":           func(p *program.Program, _ []string, _ string) []string { return partNamesOf(p) },
		"part":          func(p *program.Program, _ []string, _ string) []string { return partNamesOf(p) },
		"logger":        func(p *program.Program, _ []string, _ string) []string { return loggerNames(p) },
		"weighing":      func(p *program.Program, _ []string, _ string) []string { return weighingNames(p) },
		"loading":       func(p *program.Program, _ []string, _ string) []string { return loadingNames(p) },
	}
}

// wordNames are the commands that take names of the program folder as words.
func wordNames() map[string]names {
	return map[string]names{
		"compare": func(p *program.Program, words []string, _ string) []string { return choicesFor(p, words) },
		"settle":  settleNames,
	}
}

// completeNames lets a shell complete the names of the program folder for every command below root that takes them.
func completeNames(root *cobra.Command) {
	root.CompletionOptions.HiddenDefaultCmd = true
	for _, c := range root.Commands() {
		if complete, takes := wordNames()[c.Name()]; takes {
			c.ValidArgsFunction = completing(complete)
		}
		for flag, complete := range flagNames() {
			if c.Flags().Lookup(flag) != nil {
				_ = c.RegisterFlagCompletionFunc(flag, completing(complete)) // it fails only for a flag that is not there
			}
		}
		for _, flag := range []string{"program", "dir"} {
			if c.Flags().Lookup(flag) != nil {
				_ = c.RegisterFlagCompletionFunc(flag, cobra.FixedCompletions(nil, cobra.ShellCompDirectiveFilterDirs))
			}
		}
	}
}

// completing reads the folder that the command line names. A folder that cannot be read completes nothing and says nothing: the command
// itself tells what is wrong.
func completing(complete names) cobra.CompletionFunc {
	return func(c *cobra.Command, words []string, typed string) ([]cobra.Completion, cobra.ShellCompDirective) {
		p := folderOfLine(c)
		if p == nil {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		var found []cobra.Completion
		for _, name := range complete(p, words, typed) {
			if strings.HasPrefix(strings.ToLower(name), strings.ToLower(typed)) {
				found = append(found, name)
			}
		}
		return found, cobra.ShellCompDirectiveNoFileComp
	}
}

// folderOfLine is the program folder of --program, else the one that encloses the current folder; nil where none can be read.
func folderOfLine(c *cobra.Command) *program.Program {
	dir := ""
	if flag := c.Flags().Lookup("program"); flag != nil {
		dir = flag.Value.String()
	}
	if dir == "" {
		here, err := os.Getwd()
		if err != nil {
			return nil
		}
		if dir, err = program.Find(here); err != nil {
			return nil
		}
	}
	p, err := program.Load(dir)
	if err != nil {
		return nil
	}
	return p
}

// choicesFor are the choices where none stands yet.
func choicesFor(p *program.Program, words []string) []string {
	if len(words) > 0 {
		return nil
	}
	return choiceNames(p)
}

// settleNames are the choices, then the levels of the one that stands there.
func settleNames(p *program.Program, words []string, _ string) []string {
	switch len(words) {
	case 0:
		return choiceNames(p)
	case 1:
		if choice, known := choiceOf(p, words[0]); known {
			return levelNames(choice)
		}
	}
	return nil
}

// configurationNames complete a list such as winglet=tall,foreplane=long pair by pair: what stands before the last comma is kept, and a
// choice that it names comes no more.
func configurationNames(p *program.Program, _ []string, typed string) []string {
	before := typed[:strings.LastIndex(typed, ",")+1]
	var found []string
	for _, choice := range p.Choices {
		if strings.Contains(","+before, ","+choice.Name+"=") {
			continue
		}
		for _, level := range choice.Levels {
			found = append(found, before+choice.Name+"="+level.Name)
		}
	}
	return found
}

func partNamesOf(p *program.Program) []string {
	return distinct(p.Parts, func(part program.Part) string { return part.Name })
}

func loggerNames(p *program.Program) []string {
	return distinct(p.Loggers, func(m flightlog.Map) string { return m.Name })
}

func weighingNames(p *program.Program) []string {
	return distinct(p.Weighings, func(w program.Weighing) string { return w.Name })
}

func loadingNames(p *program.Program) []string {
	return distinct(p.Loadings, func(l program.Loading) string { return l.Name })
}

// distinct are the names of rows in their order, each once.
func distinct[T any](rows []T, name func(T) string) []string {
	var found []string
	for _, row := range rows {
		if n := name(row); !slices.Contains(found, n) {
			found = append(found, n)
		}
	}
	return found
}
