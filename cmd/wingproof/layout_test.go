package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// repository is the top of the repository, seen from this package.
const repository = "../.."

// The top level is what a visitor sees first: nothing is added to it without a decision. Names that begin with
// a dot, and what .gitignore keeps out of the repository, do not count.
func TestTopLevelOfTheRepository(t *testing.T) {
	want := []string{"DEVELOPERS.md", "README.md", "aero", "cmd", "flightlog", "go.mod", "go.sum", "plots", "testdata"}
	require.Equal(t, want, visibleTopLevel(t))
}

func visibleTopLevel(t *testing.T) []string {
	t.Helper()
	ignored, err := os.ReadFile(filepath.Join(repository, ".gitignore"))
	require.NoError(t, err)
	entries, err := os.ReadDir(repository)
	require.NoError(t, err)
	var names []string
	for _, entry := range entries {
		kept := !strings.HasPrefix(entry.Name(), ".")
		for _, pattern := range strings.Fields(string(ignored)) {
			match, err := path.Match(strings.Trim(pattern, "/"), entry.Name())
			require.NoError(t, err)
			kept = kept && !match
		}
		if kept {
			names = append(names, entry.Name())
		}
	}
	return names
}

// source is one Go file with what it imports, by import path.
type source struct {
	file    string // from the top of the repository
	folder  string // the package, likewise
	test    bool
	imports map[string]string // path to local name
	prints  []string          // fmt.Print and its kin
}

// sources reads every Go file of the repository.
func sources(t *testing.T) []source {
	t.Helper()
	var all []source
	err := filepath.WalkDir(repository, func(file string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if entry.IsDir() && strings.HasPrefix(entry.Name(), ".") && entry.Name() != ".." {
			return filepath.SkipDir
		}
		if entry.IsDir() || filepath.Ext(file) != ".go" {
			return nil
		}
		s, err := sourceOf(file)
		all = append(all, s)
		return err
	})
	require.NoError(t, err)
	require.NotEmpty(t, all)
	return all
}

func sourceOf(file string) (source, error) {
	rel, err := filepath.Rel(repository, file)
	if err != nil {
		return source{}, err
	}
	rel = filepath.ToSlash(rel)
	s := source{file: rel, folder: path.Dir(rel), test: strings.HasSuffix(rel, "_test.go"), imports: map[string]string{}}
	text, err := os.ReadFile(file)
	if err != nil {
		return s, err
	}
	parsed, err := parser.ParseFile(token.NewFileSet(), file, text, parser.ImportsOnly)
	if err != nil {
		return s, err
	}
	for _, spec := range parsed.Imports {
		name, err := strconv.Unquote(spec.Path.Value)
		if err != nil {
			return s, err
		}
		s.imports[name] = path.Base(name)
		if spec.Name != nil {
			s.imports[name] = spec.Name.Name
		}
	}
	for _, call := range []string{"fmt.Print(", "fmt.Printf(", "fmt.Println(", "\tprint(", "\tprintln("} {
		if strings.Contains(string(text), call) {
			s.prints = append(s.prints, strings.TrimSpace(call))
		}
	}
	return s, nil
}

// own lists what a file imports from this module, from the top of the repository.
func (s source) own() []string {
	var out []string
	for name := range maps.Keys(s.imports) {
		if inside, ok := strings.CutPrefix(name, "wingproof/"); ok {
			out = append(out, inside)
		}
	}
	slices.Sort(out)
	return out
}

// under tells whether a package is folder or lies below it.
func under(pkg, folder string) bool { return pkg == folder || strings.HasPrefix(pkg, folder+"/") }

// Data flows one way: aero never knows a log, flightlog never knows a shop part, plots knows plain data only.
// Tests are held to the arrows too.
func TestImportArrows(t *testing.T) {
	const internal = "cmd/wingproof/internal/"
	for _, s := range sources(t) {
		for _, imported := range s.own() {
			allowed := false
			switch {
			case s.folder == imported: // an external test of the package
				allowed = true
			case s.folder == internal+"decide":
				allowed = imported == internal+"evidence"
			case s.folder == internal+"evidence":
				allowed = false
			case under(s.folder, "cmd"):
				allowed = under(imported, "cmd") || under(imported, "flightlog") || under(imported, "aero") || imported == "plots"
			case s.folder == "aero":
				allowed = false
			case under(s.folder, "aero"):
				allowed = imported == "aero" || imported == "aero/atmosphere" || s.folder == "aero/stall" && imported == "aero/aerofoil"
			case under(s.folder, "flightlog"):
				allowed = allowedInFlightlog(s, imported)
			}
			require.True(t, allowed, "%s imports %s, against the arrows", s.file, imported)
		}
	}
}

// allowedInFlightlog: the packages of a recording know the plain data below them; the reduction puts quality, path and
// manoeuvres together; tests may fly rehearsed flights.
func allowedInFlightlog(s source, imported string) bool {
	switch imported {
	case "flightlog", "flightlog/unit", "flightlog/statistic", "flightlog/source", "flightlog/leastsquares", "aero", "aero/atmosphere", "aero/stability":
		return true
	case "flightlog/identify", "flightlog/response": // their results are what the estimates pool
		return s.folder == "flightlog/reduce" || s.folder == "flightlog/estimate"
	case "flightlog/quality", "flightlog/reconstruct", "flightlog/manoeuvre":
		return s.folder == "flightlog/reduce"
	case "flightlog/rehearse":
		return s.test
	}
	return false
}

// Numerics are pure: no file, no clock, no log, nothing printed, no random stream but what is handed in.
func TestNumericsArePure(t *testing.T) {
	numerics := []string{"aero", "flightlog/reduce", "flightlog/quality", "flightlog/estimate", "cmd/wingproof/internal/decide", "cmd/wingproof/internal/evidence"}
	banned := []string{"os", "time", "log", "log/slog", "io/ioutil", "net/http", "math/rand", "syscall"}
	seen := map[string]bool{}
	for _, s := range sources(t) {
		for _, folder := range numerics {
			if s.test || !under(s.folder, folder) {
				continue
			}
			seen[folder] = true
			for _, name := range banned {
				require.NotContains(t, s.imports, name, "%s is numerics and imports %s", s.file, name)
			}
			require.Empty(t, s.prints, "%s is numerics and prints", s.file)
		}
	}
	require.Len(t, seen, len(numerics), "a package of numerics is not where this test looks for it")
}

// Nothing prints to standard output but through the streams that main hands in.
func TestOnlyStreamsPrint(t *testing.T) {
	for _, s := range sources(t) {
		if !s.test {
			require.Empty(t, s.prints, "%s prints past the streams", s.file)
		}
	}
}

// Every package says in a comment which question it answers.
func TestEveryPackageHasADocComment(t *testing.T) {
	documented := map[string]bool{}
	for _, s := range sources(t) {
		if s.test {
			continue
		}
		documented[s.folder] = documented[s.folder] || hasPackageComment(t, s.file)
	}
	for _, folder := range slices.Sorted(maps.Keys(documented)) {
		require.True(t, documented[folder], "package %s has no comment above its package clause", folder)
	}
}

func hasPackageComment(t *testing.T, file string) bool {
	t.Helper()
	parsed, err := parser.ParseFile(token.NewFileSet(), filepath.Join(repository, file), nil, parser.PackageClauseOnly|parser.ParseComments)
	require.NoError(t, err)
	return parsed.Doc != nil
}
