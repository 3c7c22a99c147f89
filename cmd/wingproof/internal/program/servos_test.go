package program

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/flightlog"
)

const benchTest = `
[servo.elevator]
delay_ms = 22
lag_ms = 38
rate_deg_s = 300
backlash_deg = 0.3
lag_sd_ms = 4
source = "bench test"

[servo.rudder]
delay_s = 0.03
lag_s = 0.05
source = "the same bench"
`

func TestServosAreReadInSI(t *testing.T) {
	files := sandreed()
	files["program.toml"] += benchTest
	p, err := Load(build(t, files))
	require.NoError(t, err)
	require.Len(t, p.Servos, 2)
	elevator := p.Servos[0]
	require.Equal(t, flightlog.Elevator, elevator.Control)
	require.InDeltaSlice(t, []float64{0.022, 0.038, 300 * math.Pi / 180, 0.3 * math.Pi / 180, 0.004},
		[]float64{elevator.Delay, elevator.Lag, elevator.Rate, elevator.Backlash, elevator.LagSD}, 1e-12)
	require.Equal(t, flightlog.RudderLeft, p.Servos[1].Control)
	require.Equal(t, defaultLagSD, p.Servos[1].LagSD)
}

func TestOneMistakeInAServo(t *testing.T) {
	for _, s := range []slip{
		{"another control", "", "[servo.rudder]", "[‸servo.flap]", `[servo.flap] names no control; write "elevator", "aileron" or "rudder"`},
		{"no delay", "", "[servo.rudder]\ndelay_s = 0.03\n", "[‸servo.rudder]\n", `[servo.rudder] has no delay_ms; add delay_ms = ...`},
		{"seconds for milliseconds", "", "lag_s = 0.05", "lag_s = ‸50", `lag_s = 50 is out of range; write at least 0 and at most 0.5 s`},
		{"nobody says how it is known", "", "\nsource = \"the same bench\"", "", ``},
	} {
		s.file = "program.toml"
		files := sandreed()
		files["program.toml"] += benchTest
		if s.want == "" {
			change(t, files, s.file, s.old, s.fresh)
			_, err := Load(build(t, files))
			require.ErrorContains(t, err, `[servo.rudder] has no source; add source = "..."`)
			continue
		}
		t.Run(s.name, func(t *testing.T) { requireSlipIn(t, files, s) })
	}
}

func TestInertiasCarryAnError(t *testing.T) {
	p, err := Load(build(t, sandreed()))
	require.NoError(t, err)
	for _, w := range p.Weighings {
		if w.Iy > 0 {
			require.InDelta(t, defaultSpread*w.Iy, w.IySD, 1e-12)
			return
		}
	}
	t.Fatal("no weighing states an inertia")
}
