package program

import (
	"io/fs"
	"path"
	"strings"
)

// cleanPath turns a path as written on any system into one relative to the program folder with slashes.
func cleanPath(text string) (clean, right string) {
	slashed := path.Clean(strings.ReplaceAll(strings.TrimSpace(text), `\`, "/"))
	drive := len(slashed) > 1 && slashed[1] == ':'
	if drive || !fs.ValidPath(slashed) || slashed == "." || strings.ContainsRune(slashed, 0) {
		return "", "copy the file into the program folder and write its path from there, such as logs/f01.csv"
	}
	return slashed, ""
}
