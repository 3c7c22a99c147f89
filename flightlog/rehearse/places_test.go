package rehearse

import (
	"bytes"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/atmosphere"
	"wingproof/flightlog"
)

// Places by hand: the aircraft's CG is 3.9 m aft and 0.05 m up at full size, so 0.975 m and 0.0125 m on the quarter-scale model.
func TestArmsLeadFromTheCG(t *testing.T) {
	a := model(3.9).arms(flightlog.Sensors{Inertial: &flightlog.Place{X: 0.475, Y: 0.1, Z: 0.2125}, Tube: &flightlog.Place{X: 0.975, Z: 0.0125}})
	require.InDeltaSlice(t, []float64{0.5, 0.1, -0.2}, a.inertial[:], 1e-12)
	require.InDeltaSlice(t, []float64{0, 0, 0}, a.tube[:], 1e-12)
	require.Equal(t, vector{}, a.vanes, "not stated")
}

// A unit ahead of the CG feels pitch rate as a pull backwards and a nose that speeds up as more weight.
func TestForceAheadOfTheCG(t *testing.T) {
	f := forceAt(vector{0, 0, -9.8}, vector{0, 2, 0}, vector{0, 5, 0}, vector{0.5, 0, 0})
	require.InDeltaSlice(t, []float64{-2, 0, -9.8 - 2.5}, f[:], 1e-12)
	v := velocityAt(vector{20, 0, 1}, vector{0, 2, 0.5}, vector{0.5, 0, 0})
	require.InDeltaSlice(t, []float64{20, 0.25, 0}, v[:], 1e-12, "nose up lowers the angle of attack ahead, nose right blows from the right")
}

// away has every sensor well off the CG.
func away() flightlog.Sensors {
	return flightlog.Sensors{
		Inertial: &flightlog.Place{X: 0.6, Y: 0.15, Z: 0.1}, Tube: &flightlog.Place{X: 0.2, Y: 0.8, Z: 0.05},
		Vanes: &flightlog.Place{X: 0.1, Y: -0.6, Z: 0.1}, Antenna: &flightlog.Place{X: 1.2, Y: -0.1, Z: 0.2},
	}
}

// shaken is a flight of strong inputs by an exact recorder.
func shaken(t *testing.T, ins Instruments, watch func(*flight)) Log {
	log, err := fly(model(3.9), []Card{
		{Kind: Climb, Speed: 23, Duration: 6},
		{Kind: Multistep, Speed: 24, Duration: 8, Control: "aileron", Size: 8 * degree, Width: 0.3},
		{Kind: Multistep, Speed: 24, Duration: 8, Control: "elevator", Size: 3 * degree, Width: 0.3},
		{Kind: Multistep, Speed: 24, Duration: 8, Control: "rudder", Size: 10 * degree, Width: 0.3},
	}, still(), ins, seeded(1), watch)
	require.NoError(t, err)
	return log
}

// What the unit feels is the second derivative of its own path less gravity, by differences over 2 ms; what the antenna sees is the first.
func TestSensorsOffTheCGFeelTheirOwnPath(t *testing.T) {
	ins := Instruments{FastRate: 500, AirRate: 500, SatelliteRate: 500, Sensors: away()}
	place := func(s state, arm [3]float64) [3]float64 { // in the earth, exact at a sample
		m := s.rotation()
		n, e, d := m.earth(arm[0], arm[1], arm[2])
		return [3]float64{s.north + n, s.east + e, s.down + d}
	}
	var states []state
	log := shaken(t, ins, func(f *flight) { states = append(states, f.s) })
	unit, antenna := [3]float64{0.375, 0.15, -0.0875}, [3]float64{-0.225, -0.1, -0.1875}
	const dt = 1.0 / 500
	worst, velocity := 0.0, 0.0
	for i := 1; i+1 < len(states); i++ {
		if log.Time[i] < resting+groundRun+1 {
			continue
		}
		before, now, after := place(states[i-1], unit), place(states[i], unit), place(states[i+1], unit)
		fore, aft := place(states[i+1], antenna), place(states[i-1], antenna)
		var a, v [3]float64
		for k := range 3 {
			a[k] = (after[k] - 2*now[k] + before[k]) / (dt * dt)
			v[k] = (fore[k] - aft[k]) / (2 * dt)
		}
		m := states[i].rotation()
		x, y, z := m.body(a[0], a[1], a[2]-atmosphere.Gravity)
		felt := [3]float64{log.Columns[atForward][i], log.Columns[atRight][i], log.Columns[atDown][i]}
		worst = math.Max(worst, math.Max(math.Abs(felt[0]-x), math.Max(math.Abs(felt[1]-y), math.Abs(felt[2]-z))))
		velocity = math.Max(velocity, math.Abs(log.Columns[atGroundSpeed][i]-math.Hypot(v[0], v[1])))
		velocity = math.Max(velocity, math.Abs(log.Columns[atClimb][i]+v[2]))
	}
	plain := shaken(t, Instruments{FastRate: 500, AirRate: 500, SatelliteRate: 500}, nil)
	effect := 0.0
	for i := range plain.Time {
		effect = math.Max(effect, math.Abs(plain.Columns[atDown][i]-log.Columns[atDown][i]))
	}
	require.Greater(t, effect, 1.5, "the arm must matter")
	require.Less(t, worst, 0.12, "a surface moves within a step by up to a twentieth of its way, which the differences see halved")
	require.Less(t, velocity, 2e-3)
}

// The tube and the vanes are blown at by their own velocity: closed forms from the truth at the CG.
func TestTubeAndVanesFeelTheRates(t *testing.T) {
	ins := perfect()
	ins.Sensors, ins.Vanes = away(), Vanes{Fitted: true, Upwash: 1.1, Sidewash: 1.05, AttackBias: 0.01, SideslipBias: -0.02}
	log := shaken(t, ins, nil)
	require.Equal(t, append(Quantities(), flightlog.AngleOfAttack, flightlog.Sideslip), log.Quantities())
	effect := 0.0
	for i := range log.Time {
		v := log.Truth.Airspeed[i]
		if v < 5 {
			continue
		}
		u, side, w := v*math.Cos(log.Truth.Alpha[i])*math.Cos(log.Truth.Beta[i]), v*math.Sin(log.Truth.Beta[i]), v*math.Sin(log.Truth.Alpha[i])*math.Cos(log.Truth.Beta[i])
		p, q, r := log.Columns[atRollRate][i], log.Columns[atPitchRate][i], log.Columns[atYawRate][i]
		at := func(x, y, z float64) (float64, float64, float64) {
			return u + q*z - r*y, side + r*x - p*z, w + p*y - q*x
		}
		a, b, c := at(0.775, 0.8, -0.0375)
		temperature := atmosphere.SeaLevelTemperature - 0.0065*log.Truth.Height[i]
		want := atmosphere.CalibratedAirspeed(math.Sqrt(a*a+b*b+c*c), log.Columns[atPressure][i], temperature)
		require.InDelta(t, want, log.Columns[atAirspeed][i], 1e-9)
		a, b, c = at(0.875, -0.6, -0.0875)
		require.InDelta(t, 1.1*math.Atan(c/a)+0.01, log.Columns[columns][i], 1e-9)
		require.InDelta(t, 1.05*math.Atan(b/a)-0.02, log.Columns[columns+1][i], 1e-9)
		effect = math.Max(effect, math.Abs(math.Atan(c/a)-log.Truth.Alpha[i]))
	}
	require.Greater(t, effect, 1*degree)
}

// Vanes add two columns and change no other, to the last bit.
func TestVanesLeaveTheOtherColumnsAlone(t *testing.T) {
	fly := func(v Vanes) Log {
		ins := DefaultInstruments()
		ins.Vanes = v
		log, err := Fly(model(3.9), []Card{{Kind: Climb, Speed: 23, Duration: 30}}, DefaultWeather(), ins, seeded(4))
		require.NoError(t, err)
		return log
	}
	bits := func(l Log) (out []uint64) {
		for _, c := range l.Columns[:columns] {
			for _, v := range c {
				out = append(out, math.Float64bits(v))
			}
		}
		return out
	}
	plain, fitted := fly(Vanes{}), fly(DefaultVanes())
	require.Equal(t, bits(plain), bits(fitted))
	require.Len(t, plain.Columns, columns)
	require.Equal(t, Quantities(), plain.Quantities())

	// noise scatters by its standard deviation about 1.08·α; 450 samples: 3.3 % of it
	var sum, squares, n float64
	for i, v := range fitted.Columns[columns] {
		if fitted.Time[i] > 15 {
			away := v - 1.08*fitted.Truth.Alpha[i]
			sum, squares, n = sum+away, squares+away*away, n+1
		}
	}
	require.InEpsilon(t, 0.2*degree, math.Sqrt(squares/n-sum*sum/n/n), 0.1)
	require.NotZero(t, sum)
	require.Less(t, math.Abs(sum/n), 1.2*degree, "a bias of 0.3°")
}

func TestVanesGoThroughAFile(t *testing.T) {
	ins := DefaultInstruments()
	ins.Sensors, ins.Vanes = away(), DefaultVanes()
	log, err := Fly(model(3.9), []Card{{Kind: Climb, Speed: 23, Duration: 5}}, still(), ins, seeded(4))
	require.NoError(t, err)
	m, err := log.Map(Dialect{Separator: ';'}, "field box")
	require.NoError(t, err)
	require.Equal(t, away(), m.Sensors)
	r, err := flightlog.Read(bytes.NewReader([]byte(written(t, log, Dialect{Separator: ';'}))), "a.csv", m)
	require.NoError(t, err)
	want := log.Recording("a.csv")
	require.Equal(t, away(), want.Sensors)
	for _, q := range vaneQuantities() {
		require.NotEmpty(t, want.Channels[q].Value)
		require.InDeltaSlice(t, want.Channels[q].Value, r.Channels[q].Value, 1e-4)
	}
	require.Greater(t, want.Channels[flightlog.AngleOfAttack].Time[0], 4.0, "blank in still air at rest")

	ins.Vanes.Noise = -1
	_, err = Fly(model(3.9), nil, still(), ins, seeded(4))
	require.ErrorContains(t, err, "vanes")
}
