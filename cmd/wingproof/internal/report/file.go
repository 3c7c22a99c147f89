package report

// File is one file of the report folder, made in memory: the folder is written, and pages are served, from a list of them.
type File struct {
	Name string // below the report folder, with slashes: "figures/static-margin.svg"
	Body []byte
}
