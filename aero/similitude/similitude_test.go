package similitude

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"wingproof/aero/atmosphere"
)

const derived = "worked from the ratios of NASA TP-1435 with the density ratio from equal relative density"

func air(t require.TestingT, altitude float64) atmosphere.State {
	s, err := atmosphere.Standard(altitude)
	require.NoError(t, err)
	return s
}

// Half of the last digit printed, as a share of the value, is the claim in each row.
func near(t *testing.T, want, got, rel float64, what string) {
	t.Helper()
	require.InDelta(t, want, got, rel*math.Abs(want), "%s: %s", what, derived)
}

func TestRatiosInEqualAir(t *testing.T) {
	sea := air(t, 0)
	for _, n := range []float64{0.25, 0.2} {
		r, err := Froude(n, sea, sea)
		require.NoError(t, err)
		const source = "multiplier under Froude scaling, public sheet after NASA TP-1435"
		require.InEpsilon(t, math.Pow(n, 2), r.Area, 1e-14, source)
		require.InEpsilon(t, math.Pow(n, 3), r.Volume, 1e-14, source)
		require.InEpsilon(t, math.Pow(n, 0.5), r.Time, 1e-14, source)
		require.InEpsilon(t, math.Pow(n, 0.5), r.Speed, 1e-14, source)
		require.InEpsilon(t, math.Pow(n, -1), r.AngularAcceleration, 1e-14, source)
		require.InEpsilon(t, math.Pow(n, 2), r.Spring, 1e-14, source)
		require.InEpsilon(t, math.Pow(n, 2.5), r.Damper, 1e-14, source)
		require.InEpsilon(t, math.Pow(n, 3.5), r.Momentum, 1e-14, source)
		require.InEpsilon(t, math.Pow(n, 4.5), r.AngularMomentum, 1e-14, source)
		require.InEpsilon(t, math.Pow(n, 4), r.Moment, 1e-14, source)
		require.InEpsilon(t, math.Pow(n, 4), r.Energy, 1e-14, source)
		require.InEpsilon(t, math.Pow(n, 3.5), r.Power, 1e-14, source)
		require.InEpsilon(t, math.Pow(n, 5), r.Stiffness, 1e-14, source)
		require.Equal(t, 1.0, r.LinearAcceleration)
		require.Equal(t, 1.0, r.Angle)
	}
	r, err := Froude(0.25, sea, sea)
	require.NoError(t, err)
	near(t, 0.015625, r.Mass, 1e-12, "mass")
	near(t, 9.765625e-4, r.Inertia, 1e-12, "inertia")
	near(t, 0.25, r.WingLoading, 1e-12, "wing loading")
	near(t, 0.125, r.Reynolds, 1e-12, "Reynolds number")
	near(t, 0.5, r.Mach, 1e-12, "Mach number")
	near(t, 2, r.AngularRate, 1e-12, "frequency")
}

func TestWorkedExample(t *testing.T) {
	full := FullSize{
		Mass: 700, Ix: 900, Iy: 1100, Iz: 1800, MeanChord: 1, WingArea: 10,
		Speeds: []Speed{{"cruise", 70}, {"stall", 30}},
		Times:  []Time{{"phugoid period", 20}},
	}
	rows := []struct {
		n, mass, ix, iy, iz, cruise, stall, dutchRoll, phugoid, reynolds, mach, force, moment, power float64
	}{
		{0.25, 13.46612, 1.082099, 1.322565, 2.164198, 35, 15, 4.6, 10, 5.85038e5, 0.487931, 0.0192373, 0.00480933, 0.00961866},
		{0.20, 6.894653, 0.354582, 0.433378, 0.709164, 31.30495, 13.41641, 5.142956, 8.944272, 4.18619e5, 0.436419, 0.00984951, 0.00196990, 0.00440483},
	}
	for _, r := range rows {
		s, err := NewSheet(r.n, full, 300, 2400, nil)
		require.NoError(t, err)
		const rel = 3e-6
		near(t, 1.231189, s.Ratios.Density, rel, "density ratio")
		for i, want := range []float64{r.mass, r.ix, r.iy, r.iz} {
			near(t, want, s.Rows[i].Target, rel, s.Rows[i].Quantity)
			require.Nil(t, s.Rows[i].Measured)
		}
		near(t, r.cruise, s.Speeds[0].ModelTrue, rel, "cruise")
		near(t, r.stall, s.Speeds[1].ModelTrue, rel, "stall")
		near(t, r.dutchRoll, 2.3*s.Ratios.AngularRate, rel, "Dutch roll")
		near(t, r.phugoid, s.Times[0].Model, rel, "phugoid")
		near(t, 3.94979e6, *s.Speeds[0].FullReynolds, rel, "full-size Reynolds number")
		near(t, r.reynolds, *s.Speeds[0].ModelReynolds, rel, "model Reynolds number")
		near(t, r.mach, s.Speeds[0].ModelMach/s.Speeds[0].FullMach, rel, "Mach ratio")
		near(t, r.force, s.Ratios.Force, rel, "force")
		near(t, r.moment, s.Ratios.Moment, rel, "moment")
		near(t, r.power, s.Ratios.Power, rel, "power")
	}
}

// The crew flies calibrated airspeed: √(λσ) but for compressibility, which is below 0.3 % at these speeds.
func TestCalibratedSpeedRatio(t *testing.T) {
	s, err := NewSheet(0.25, FullSize{Mass: 700, Speeds: []Speed{{"cruise", 70}}}, 300, 2400, nil)
	require.NoError(t, err)
	require.InEpsilon(t, s.Ratios.CalibratedSpeed, s.Speeds[0].ModelCalibrated/s.Speeds[0].FullCalibrated, 3e-3)
	require.InDelta(t, math.Sqrt(0.25*1.231189), s.Ratios.CalibratedSpeed, 1e-6)
}

func TestDeparturesAndWhatTheySpoil(t *testing.T) {
	full := FullSize{Mass: 700, Ix: 900, Iy: 1100, Iz: 1800, WingArea: 10, Speeds: []Speed{{"cruise", 70}}}
	w := &Weighed{Mass: 13.46612 * 1.10, Iy: 1.322565 * 1.21, Iz: 2.164198 * 1.001}
	s, err := NewSheet(0.25, full, 300, 2400, w)
	require.NoError(t, err)
	require.InDelta(t, 10, *s.Rows[0].Departure, 1e-3)
	require.Contains(t, s.Rows[0].Spoils, "4.9 % faster")
	require.Nil(t, s.Rows[1].Departure, "Ix was not measured")
	require.Empty(t, s.Rows[1].Spoils)
	require.Contains(t, s.Rows[2].Spoils, "10.0 % longer", "the root of 1.21")
	require.Contains(t, s.Rows[3].Spoils, "nothing that matters")
	require.Empty(t, s.CG, "no full-size CG")

	// the ballasted speed gives the same lift coefficient with the weighed mass
	row := s.Speeds[0]
	q := 0.5 * s.ModelAir.Density * *row.BallastTrue * *row.BallastTrue
	lift := w.Mass * atmosphere.Gravity / (q * full.WingArea * s.Ratios.Area)
	require.InEpsilon(t, *row.Lift, lift, 1e-12)
	require.Greater(t, *row.BallastCalibrated, row.ModelCalibrated)
}

func TestSheetRefuses(t *testing.T) {
	_, err := NewSheet(0, FullSize{Mass: 1}, 0, 0, nil)
	require.ErrorContains(t, err, "length ratio 0")
	_, err = NewSheet(0.25, FullSize{}, 0, 0, nil)
	require.ErrorContains(t, err, "mass")
	_, err = NewSheet(0.25, FullSize{Mass: 1}, 30000, 0, nil)
	require.ErrorContains(t, err, "model's test altitude")
	_, err = NewSheet(0.25, FullSize{Mass: 1, Speeds: []Speed{{"dive", -1}}}, 0, 0, nil)
	require.ErrorContains(t, err, `"dive"`)
	_, err = Froude(0.25, atmosphere.State{}, air(t, 0))
	require.ErrorContains(t, err, "model air")
}

// Model to full size and back is the identity for every row.
func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Float64Range(0.05, 1).Draw(t, "length ratio")
		low := air(t, rapid.Float64Range(0, 5000).Draw(t, "model altitude"))
		high := air(t, rapid.Float64Range(0, 5000).Draw(t, "full-size altitude"))
		down, err := Froude(n, low, high)
		require.NoError(t, err)
		up, err := Froude(1/n, high, low)
		require.NoError(t, err)
		for _, pair := range [][2]float64{
			{down.Length, up.Length}, {down.Area, up.Area}, {down.Volume, up.Volume}, {down.Speed, up.Speed},
			{down.CalibratedSpeed, up.CalibratedSpeed}, {down.Time, up.Time}, {down.AngularRate, up.AngularRate},
			{down.AngularAcceleration, up.AngularAcceleration}, {down.Mass, up.Mass}, {down.Force, up.Force},
			{down.WingLoading, up.WingLoading}, {down.DynamicPressure, up.DynamicPressure}, {down.Moment, up.Moment},
			{down.Energy, up.Energy}, {down.Momentum, up.Momentum}, {down.AngularMomentum, up.AngularMomentum},
			{down.Inertia, up.Inertia}, {down.Power, up.Power}, {down.Stiffness, up.Stiffness}, {down.Spring, up.Spring},
			{down.Damper, up.Damper}, {down.Reynolds, up.Reynolds}, {down.Mach, up.Mach},
		} {
			require.InEpsilon(t, 1, pair[0]*pair[1], 1e-12)
		}
	})
}
