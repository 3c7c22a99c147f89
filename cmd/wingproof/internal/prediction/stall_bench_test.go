package prediction

import (
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
	"wingproof/cmd/wingproof/internal/program"
)

// All stall cases of one configuration of the demo, its lattice solved beforehand.
func BenchmarkStall(b *testing.B) {
	p, err := program.Load("../demo/scenario")
	require.NoError(b, err)
	airframe, _, err := p.Airframe(p.Configurations()[0])
	require.NoError(b, err)
	s := StallSetup(Setup{CG: r3.Vec{X: 3.75}})
	all, err := Analyse([]aero.Airframe{airframe}, s)
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		_, _, err := Stall(p, &all[0], s)
		require.NoError(b, err)
	}
}
