package program

import "fmt"

// InUse is a file of the folder that cannot be written now, because somebody else has it open or changed it
// a moment ago. Nothing was written; the command ends with exit status 1.
type InUse struct {
	File string // relative to the folder
	Why  string
}

// Error says which file and what to do.
func (e *InUse) Error() string {
	return fmt.Sprintf("%s %s; close it and repeat (nothing was written)", e.File, e.Why)
}
