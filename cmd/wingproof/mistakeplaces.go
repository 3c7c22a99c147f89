package main

import (
	"io"
	"regexp"

	"wingproof/cmd/wingproof/internal/report"
)

// placeOf is where a mistake is: file, line and column, at the begin of a line.
var placeOf = regexp.MustCompile(`(?m)^[^\s:]+:\d+:\d+:`)

// placesMarked is an error as it is told: the place of each mistake stands out where the writer shows that.
func placesMarked(w io.Writer, err error) string {
	return placeOf.ReplaceAllStringFunc(err.Error(), func(place string) string { return report.Alarm(w, place) })
}
