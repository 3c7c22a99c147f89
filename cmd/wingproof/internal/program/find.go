package program

import (
	"fmt"
	"os"
	"path/filepath"
)

// File names that are fixed in a program folder.
const (
	ProgramFile   = "program.toml"
	FlightsFile   = "flights.csv"
	MarksFile     = "marks.csv"
	CardsFile     = "cards.csv"
	PartsFile     = "parts.csv"
	DecisionsFile = "decisions.csv"
	SheetsFile    = "sheets.csv"
	weighingsFile = "weighings.csv" // unless [model] weighings names another
	cacheFolder   = ".wingproof"
)

// Find returns the folder that holds program.toml: dir itself or the nearest parent of it. An empty dir
// is the current folder.
func Find(dir string) (string, error) {
	if dir == "" {
		dir = "."
	}
	start, err := filepath.Abs(dir)
	if err != nil {
		return "", fmt.Errorf("find the program folder from %s: %w", dir, err)
	}
	for folder := start; ; {
		if info, err := os.Stat(filepath.Join(folder, ProgramFile)); err == nil && info.Mode().IsRegular() {
			return folder, nil
		}
		parent := filepath.Dir(folder)
		if parent == folder {
			return "", fmt.Errorf("no %s in %s or in any folder above it; go to the program folder, name it with --program DIR, or begin one with: wingproof new DIR", ProgramFile, start)
		}
		folder = parent
	}
}
