package main

import (
	"bytes"
	"fmt"
	"strings"

	"github.com/spf13/cobra"
)

// newCompletionCommand prints what a shell needs to complete this program's words.
func newCompletionCommand(s streams) *cobra.Command {
	shells := []string{"bash", "zsh", "fish", "powershell"}
	var asJSON bool
	c := &cobra.Command{
		Use:   "completion SHELL",
		Short: "what a shell needs to complete commands, flags and the program's own names",
		Long: `completion prints a script for bash, zsh, fish or powershell. With it the Tab key completes commands, flags and the names of the
program folder: choices, levels, configurations, flights, parts, loggers, weighings and loadings. Nothing is computed for that.

  bash          wingproof completion bash > ~/.local/share/bash-completion/completions/wingproof
  zsh           wingproof completion zsh > a file _wingproof in a folder of $fpath
  fish          wingproof completion fish > ~/.config/fish/completions/wingproof.fish
  powershell    wingproof completion powershell >> $PROFILE

Each takes effect in the next shell.`,
		Example:               "  wingproof completion bash\n  wingproof completion fish --json",
		ValidArgs:             shells,
		DisableFlagsInUseLine: true,
		Args:                  exactly(1, "one of "+strings.Join(shells, ", ")),
		RunE: func(c *cobra.Command, args []string) error {
			script, err := completionScript(c.Root(), args[0])
			if err != nil {
				return err
			}
			if asJSON {
				return printJSON(s.Out, completionDocument{args[0], script})
			}
			_, err = fmt.Fprint(s.Out, script)
			return err
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON document that holds the script")
	return c
}

// completionDocument is what completion --json prints.
type completionDocument struct {
	Shell  string `json:"shell"`
	Script string `json:"script"`
}

// completionScript is the script for one shell.
func completionScript(root *cobra.Command, shell string) (string, error) {
	var b bytes.Buffer
	var err error
	switch shell {
	case "bash":
		err = root.GenBashCompletionV2(&b, true)
	case "zsh":
		err = root.GenZshCompletion(&b)
	case "fish":
		err = root.GenFishCompletion(&b, true)
	case "powershell":
		err = root.GenPowerShellCompletionWithDesc(&b)
	default:
		return "", usagef("completion: no script for %q; there is bash, zsh, fish and powershell", shell)
	}
	return b.String(), err
}
