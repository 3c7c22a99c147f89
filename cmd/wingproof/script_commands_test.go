package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"

	"github.com/rogpeppe/go-internal/testscript"
)

// pointer stands in an edit where the mistake must be told.
const pointer = "‸"

type scriptCommand = func(ts *testscript.TestScript, neg bool, args []string)

func scriptCommands() map[string]scriptCommand {
	return map[string]scriptCommand{
		"status":    taking(2, statusCommand),
		"edit":      taking(3, editCommand),
		"mistake":   taking(3, mistakeCommand),
		"refused":   taking(1, refusedCommand),
		"remember":  taking(2, rememberCommand),
		"unchanged": taking(2, unchangedCommand),
		"board":     taking(3, boardCommand),
		"binary":    taking(1, binaryCommand),
		"one":       taking(2, oneCommand),
	}
}

// taking checks the number of words that a command wants and refuses the mark !.
func taking(least int, command func(*testscript.TestScript, []string)) scriptCommand {
	return func(ts *testscript.TestScript, neg bool, args []string) {
		if neg || len(args) < least {
			ts.Fatalf("this command takes no ! and wants %d words or more", least)
		}
		command(ts, args)
	}
}

func statusCommand(ts *testscript.TestScript, args []string) {
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	err = ts.Exec(args[1], args[2:]...)
	var exit *exec.ExitError
	if errors.As(err, &exit) {
		got, err = exit.ExitCode(), nil
	}
	ts.Check(err)
	if got != want {
		ts.Fatalf("exit status %d, want %d", got, want)
	}
}

func editCommand(ts *testscript.TestScript, args []string) {
	if strings.Contains(args[2], pointer) {
		ts.Fatalf("edit makes no mistake to point to; use mistake")
	}
	edited(ts, ts.MkAbs(args[0]), args)
}

// mistakeCommand makes one edit on the sound folder and remembers the place that is marked.
func mistakeCommand(ts *testscript.TestScript, args []string) {
	dir, state := ts.MkAbs("sandreed"), stateOf(ts)
	ts.Check(layOut(state.sound, dir))
	ts.Check(writeOver(filepath.Join(dir, "decisions.csv"), []byte(decisionsBefore)))
	ts.Check(writeOver(filepath.Join(dir, "report", "index.html"), []byte("last week's board\n")))
	path := filepath.Join(dir, filepath.FromSlash(args[0]))
	text := edited(ts, path, args)
	before, after, found := strings.Cut(text, pointer)
	if !found {
		ts.Fatalf("no %s marks where the mistake must be told", pointer)
	}
	line := strings.Count(before, "\n") + 1
	column := len(before) - strings.LastIndex(before, "\n")
	state.place = fmt.Sprintf("%s:%d:%d: ", args[0], line, column)
	ts.Check(writeOver(path, []byte(before+after)))
}

// decisionsBefore is a record of decisions with one sound row, for scripts that look at mistakes.
const decisionsBefore = `number,event,date,choice,level,who,why,inputs_sha256,previous_sha256
1,signoff,2026-03-20,flutter_and_mass_balance,,T.O.,report 12,,
`

// edited replaces the one OLD of a file and returns what the file holds then.
func edited(ts *testscript.TestScript, path string, args []string) string {
	breaks := strings.NewReplacer(`\n`, "\n")
	old, fresh := breaks.Replace(args[1]), breaks.Replace(args[2])
	content, err := os.ReadFile(path)
	ts.Check(err)
	if n := strings.Count(string(content), old); n != 1 {
		ts.Fatalf("%s holds %q %d times, want once", args[0], old, n)
	}
	text := strings.Replace(string(content), old, fresh, 1)
	ts.Check(writeOver(path, []byte(text)))
	return text
}

// refusedCommand runs every command on the folder with its mistake. Each must end with exit status 2, print
// no result, tell the mistake where it is and what would be right, and write nothing: the report of last
// week stays.
func refusedCommand(ts *testscript.TestScript, args []string) {
	dir, state := ts.MkAbs("sandreed"), stateOf(ts)
	told := regexp.MustCompile("(?m)^" + regexp.QuoteMeta(state.place) + ".*" + args[0])
	before, err := listing(dir)
	ts.Check(err)
	for _, command := range folderCommands() {
		got := wingproof(append(command, "--program", dir)...)
		line := strings.Join(command, " ")
		switch {
		case got.status != 2:
			ts.Fatalf("%s: exit status %d, want 2\n%s", line, got.status, got.err)
		case got.stdout != "":
			ts.Fatalf("%s printed a result all the same:\n%s", line, got.stdout)
		case !told.MatchString(got.err):
			ts.Fatalf("%s: no line of stderr matches %s\n%s", line, told, got.err)
		}
		for _, text := range strings.Split(strings.TrimSuffix(got.err, "\n"), "\n") {
			if !placed.MatchString(text) {
				ts.Fatalf("%s: this line is not file:line:column: what; what would be right\n%s", line, text)
			}
		}
		after, err := listing(dir)
		ts.Check(err)
		if after != before {
			ts.Fatalf("%s wrote into the folder; before:\n%s\nafter:\n%s", line, before, after)
		}
	}
}

// placed is how every mistake is told: file:line:column: what is wrong; what would be right.
var placed = regexp.MustCompile(`^[\w./-]+:[1-9]\d*:[1-9]\d*: .+; .+$`)

// folderCommands is a command line for everything that reads a program folder.
func folderCommands() [][]string {
	return [][]string{
		{"check"}, {"scale"}, {"weigh", "sheet.csv"}, {"lattice"}, {"reduce", "--json"}, {"fit"}, {"margin"}, {"plan"}, {"rehearse", "--manoeuvres", "glide"}, {"next"}, {"parts"}, {"parts", "--json"}, {"report"},
		{"settle", "winglet", "mid", "--who", "S.I.", "--why", "so"},
	}
}

func rememberCommand(ts *testscript.TestScript, args []string) {
	files, err := listing(ts.MkAbs(args[1]))
	ts.Check(err)
	stateOf(ts).remembered[args[0]] = files
}

func unchangedCommand(ts *testscript.TestScript, args []string) {
	files, err := listing(ts.MkAbs(args[1]))
	ts.Check(err)
	before, ok := stateOf(ts).remembered[args[0]]
	if !ok {
		ts.Fatalf("nothing is remembered as %s", args[0])
	}
	if files != before {
		ts.Fatalf("%s changed; before:\n%s\nafter:\n%s", args[1], before, files)
	}
}

func boardCommand(ts *testscript.TestScript, args []string) {
	var doc partsDocument
	ts.Check(json.Unmarshal([]byte(ts.ReadFile("stdout")), &doc))
	for _, row := range doc.Parts {
		if row.Part != args[0] {
			continue
		}
		if row.Status != args[1] || row.Action != args[2] {
			ts.Fatalf("%s is %s, %s; want %s, %s: %s", row.Part, row.Status, row.Action, args[1], args[2], strings.Join(row.Reasons, "; "))
		}
		return
	}
	ts.Fatalf("the board has no part %q", args[0])
}

// oneCommand leaves the winglet as the one choice of a folder: "one choice DIR".
func oneCommand(ts *testscript.TestScript, args []string) {
	if args[0] != "choice" {
		ts.Fatalf("write: one choice DIR")
	}
	ts.Check(withoutForeplane(ts.MkAbs(args[1])))
}

// binaryCommand writes bytes that no table has.
func binaryCommand(ts *testscript.TestScript, args []string) {
	random := rand.New(rand.NewPCG(1, 2))
	content := make([]byte, 4096)
	for i := range content {
		content[i] = byte(random.Uint32())
	}
	ts.Check(writeOver(ts.MkAbs(args[0]), content))
}
