package rehearse

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/atmosphere"
	"wingproof/aero/stability"
)

// turned takes a vector of the earth into axes yawed, pitched and rolled one after the other, each by a plane rotation.
func turned(v [3]float64, roll, pitch, heading float64) [3]float64 {
	plane := func(a, b, angle float64) (float64, float64) {
		sin, cos := math.Sincos(angle)
		return a*cos + b*sin, b*cos - a*sin
	}
	v[0], v[1] = plane(v[0], v[1], heading)
	v[2], v[0] = plane(v[2], v[0], pitch)
	v[1], v[2] = plane(v[1], v[2], roll)
	return v
}

// truthFlight is a flight in wind and gusts by a recorder with programme errors and without noise.
func truthFlight(t *testing.T) (Log, Instruments) {
	w := DefaultWeather()
	w.WindSpeed, w.WindFrom, w.Turbulence = 4, 0.7, 0.15
	ins := perfect()
	ins.AirspeedScale, ins.Boresight, ins.ElevatorZero, ins.ElevatorScale = 0.02, 0.03, 0.01, 0.05
	ins.SatelliteRate = 25
	log, err := Fly(model(3.9), []Card{
		{Kind: Climb, Speed: 23, Duration: 20},
		{Kind: Turn, Speed: 24, Duration: 12, Bank: 0.5},
		{Kind: Doublet, Speed: 24, Duration: 9, Control: "rudder", Size: 8 * degree, Width: 0.5},
		{Kind: Glide, Speed: 22, Duration: 10},
	}, w, ins, seeded(5))
	require.NoError(t, err)
	for i, slice := range log.Truth.slices() {
		require.Len(t, *slice, len(log.Time), "slice %d", i)
	}
	return log, ins
}

// Angles of the flow come back from what a perfect recorder writes: ground velocity less wind, turned into the body by three plane
// rotations.
func TestTruthOfTheFlow(t *testing.T) {
	log, ins := truthFlight(t)
	tr := &log.Truth
	largest := 0.0
	for i := range log.Time {
		ground, track := log.Columns[atGroundSpeed][i], log.Columns[atTrack][i]
		v := turned([3]float64{
			ground*math.Cos(track) - tr.WindNorth[i], ground*math.Sin(track) - tr.WindEast[i], -log.Columns[atClimb][i] - tr.WindDown[i],
		}, tr.Roll[i], tr.Pitch[i], tr.Heading[i])
		speed := math.Sqrt(v[0]*v[0] + v[1]*v[1] + v[2]*v[2])
		require.InDelta(t, speed, tr.Airspeed[i], 1e-9)
		require.InDelta(t, math.Atan(v[2]/v[0]), tr.Alpha[i], 1e-9)
		require.InDelta(t, math.Atan(v[1]/math.Hypot(v[0], v[2])), tr.Beta[i], 1e-9)
		largest = math.Max(largest, math.Abs(tr.Beta[i]))
		if p := log.Columns[atPressure][i]; speed > 5 {
			temperature := atmosphere.SeaLevelTemperature - 0.0065*tr.Height[i]
			calibrated := log.Columns[atAirspeed][i] / (1 + ins.AirspeedScale)
			require.InEpsilon(t, atmosphere.TrueAirspeed(calibrated, p, temperature), tr.Airspeed[i], 1e-6)
		}
	}
	require.Greater(t, largest, 3*degree)
}

// The attitude is the body's: the unit, mounted nose up, sees that much more pitch when the wings are level.
func TestTruthOfTheAttitude(t *testing.T) {
	log, ins := truthFlight(t)
	tr := &log.Truth
	level := 0
	for i := range log.Time {
		if math.Abs(tr.Roll[i]) < 0.2*degree {
			level++
			require.InDelta(t, tr.Pitch[i]+ins.Boresight, log.Columns[atPitch][i], 2e-6)
			require.InDelta(t, 0, wrap(tr.Heading[i]-log.Columns[atHeading][i]), 2e-4)
		}
	}
	require.Greater(t, level, 300)
}

// Height is the integral of the climb rate, and the steady wind is the mean of the whole.
func TestTruthOfHeightAndWind(t *testing.T) {
	log, _ := truthFlight(t)
	tr := &log.Truth
	height, north, east := tr.Height[0], 0.0, 0.0
	for i := range log.Time {
		if i > 0 {
			height += (log.Columns[atClimb][i] + log.Columns[atClimb][i-1]) / 2 * (log.Time[i] - log.Time[i-1])
		}
		require.InDelta(t, height, tr.Height[i], 0.1)
		require.InDelta(t, -4*math.Cos(0.7), tr.SteadyNorth[i], 1e-12)
		require.InDelta(t, -4*math.Sin(0.7), tr.SteadyEast[i], 1e-12)
		north, east = north+(tr.WindNorth[i]-tr.SteadyNorth[i])/float64(len(log.Time)), east+(tr.WindEast[i]-tr.SteadyEast[i])/float64(len(log.Time))
	}
	require.InDelta(t, 0, north, 0.4) // sd 0.6 over some 40 correlation times: four times 0.1
	require.InDelta(t, 0, east, 0.4)
}

// A steady glide in still air shows α and elevator of the trim, and the surface goes with what was logged.
func TestTruthOfTheTrim(t *testing.T) {
	ins := perfect()
	ins.ElevatorZero, ins.ElevatorScale, ins.SatelliteRate = 0.01, 0.05, 25
	log, err := Fly(model(3.9), []Card{{Kind: Climb, Speed: 23, Duration: 25}, {Kind: Glide, Speed: 21, Duration: 22}}, still(), ins, seeded(1))
	require.NoError(t, err)
	last := len(log.Time) - 1
	tr := &log.Truth
	path := math.Asin(log.Columns[atClimb][last] / tr.Airspeed[last])
	d := stability.Moved(canard(), 3.9, 0.05)
	standard, err := atmosphere.Standard(tr.Height[last])
	require.NoError(t, err)
	lift := 15 * atmosphere.Gravity * math.Cos(path) / (0.5 * standard.Density * tr.Airspeed[last] * tr.Airspeed[last] * 12.6 / 16)
	alpha, elevator, err := stability.Trim(d, lift)
	require.NoError(t, err)
	require.InDelta(t, alpha, tr.Alpha[last], 0.05*degree)
	require.InDelta(t, alpha+path, tr.Pitch[last], 0.1*degree)
	require.InDelta(t, elevator, tr.Elevator[last], 0.05*degree)
	require.InDelta(t, log.Columns[atElevator][last]*1.05+0.01, tr.Elevator[last], 0.02*degree)
	require.InDelta(t, log.Columns[atElevator][0]*1.05+0.01, tr.Elevator[0], 1e-12, "at rest")
	require.InDelta(t, 0, tr.Beta[last], 0.05*degree)
}
