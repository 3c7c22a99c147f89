package main

import (
	_ "github.com/gofrs/flock"
	_ "github.com/jedib0t/go-pretty/v6/table"
	_ "github.com/natefinch/atomic"
	_ "github.com/pelletier/go-toml/v2"
	_ "github.com/pelletier/go-toml/v2/unstable"
	_ "github.com/rogpeppe/go-internal/testscript"
	_ "github.com/schollz/progressbar/v3"
	_ "github.com/spf13/cobra"
	_ "github.com/stretchr/testify/require"
	_ "golang.org/x/sync/errgroup"
	_ "golang.org/x/term"
	_ "golang.org/x/text/encoding/charmap"
	_ "gonum.org/v1/gonum/mat"
	_ "gonum.org/v1/plot"
	_ "gonum.org/v1/plot/vg/vgsvg"
	_ "pgregory.net/rapid"
)

func main() {}
