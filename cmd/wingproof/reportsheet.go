package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/report"
)

// sheetFile and sheetEvidenceFile are an issued sheet and the whole board with its evidence as it was then.
func sheetFile(number int) string         { return fmt.Sprintf("sheet-%d.html", number) }
func sheetEvidenceFile(number int) string { return fmt.Sprintf("sheet-%d-evidence.html", number) }

// noOtherSheet refuses to write over a sheet of another record: what was issued once stays. What cannot be read counts as one.
func noOtherSheet(dir string, kept []report.File) error {
	for _, f := range kept {
		path := filepath.Join(dir, f.Name)
		have, err := os.ReadFile(path)
		switch {
		case errors.Is(err, fs.ErrNotExist):
		case err != nil:
			return fmt.Errorf("%s stands where the sheet goes, and cannot be read: move it out of the folder (nothing was written): %w", path, reasonOf(err))
		case !bytes.Equal(have, f.Body):
			return fmt.Errorf("%s is there already, and %s does not list it: move it out of the folder, or put the sheets.csv back that it belongs to (nothing was written)", path, program.SheetsFile)
		}
	}
	return nil
}
