package main

import (
	"encoding/json"
	"fmt"
	"io"
)

// streams are what a command reads and writes: results go to Out, everything else to Err.
type streams struct {
	In  io.Reader
	Out io.Writer
	Err io.Writer

	line *progressLine // where progress is drawn; nil where it is not
	room int           // columns of that line; 0 unknown
}

// printJSON writes one JSON document with a stable layout.
func printJSON(w io.Writer, v any) error {
	encoder := json.NewEncoder(w)
	encoder.SetIndent("", "  ")
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(v); err != nil {
		return fmt.Errorf("write the JSON document: %w", err)
	}
	return nil
}
