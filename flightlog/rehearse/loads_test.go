package rehearse

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// A pusher's propeller under power adds 0.1·½ of lift slope behind the CG, to lift and to stability; idle it adds nothing.
func TestNormalForceOfThePropeller(t *testing.T) {
	ac := model(3.9)
	plain := frame(t, ac)
	ac.Propulsion.NormalForce, ac.Propulsion.Aft = 0.1, 0.3
	f := frame(t, ac)
	const air, u, w, q = 1.2, 22.0, 2.0, 0.4
	speed := math.Hypot(u, w)
	force := 0.5 * air * speed * speed * f.area
	for _, setting := range []float64{0, 0.5} {
		c := controls{thrust: setting}
		with, without := f.loads(air, u, 0, w, 0, q, 0, c, change{}), plain.loads(air, u, 0, w, 0, q, 0, c, change{})
		want := force * 0.1 * setting * (math.Atan(w/u) + q*0.3/speed)
		require.InDelta(t, -want, with.z-without.z, 1e-9)
		require.InDelta(t, -want*0.3, with.pitch-without.pitch, 1e-9)
		require.Equal(t, without.x, with.x)
	}
	ac.Propulsion.NormalForce = -1
	_, err := newAirframe(ac)
	require.ErrorContains(t, err, "normal force")
}

// With power the trim moves: the pusher's propeller steadies, and a level run takes more elevator than a glide at its speed.
func TestPowerMovesTrim(t *testing.T) {
	elevator := func(normal, height float64) (idle, power float64) {
		ac := model(3.9)
		ac.Propulsion.NormalForce, ac.Propulsion.Aft, ac.Propulsion.Height = normal, 0.4, height
		log, err := Fly(ac, []Card{
			{Kind: Climb, Speed: 23, Duration: 20}, {Kind: Glide, Speed: 21, Duration: 18},
			{Kind: Climb, Speed: 23, Duration: 20}, {Kind: Level, Speed: 21, Duration: 22},
		}, still(), perfect(), seeded(1))
		require.NoError(t, err)
		idle, _, _ = meanOver(log, atElevator, log.Stretches[1].End-4, log.Stretches[1].End)
		power, _, _ = meanOver(log, atElevator, log.Stretches[3].End-4, log.Stretches[3].End)
		return idle, power
	}
	idle, power := elevator(0, 0)
	idleNormal, powerNormal := elevator(0.5, 0)
	require.InDelta(t, idle, idleNormal, 0.02*degree)
	require.Greater(t, powerNormal-power, 0.3*degree)
	_, powerHigh := elevator(0, 0.05)
	require.Greater(t, powerHigh-power, 0.3*degree, "a high thrust line lowers the nose")
}
