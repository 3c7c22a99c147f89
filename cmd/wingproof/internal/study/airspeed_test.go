package study

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/program"
	"wingproof/flightlog"
	"wingproof/flightlog/reduce"
)

func flightWithScale(name, logger string, scale, sd float64) Flight {
	f := Flight{Flight: program.Flight{Name: name, Logger: logger}, Used: true}
	f.Reduction.Air = reduce.Air{Enough: true, ScaleKnown: true, AirspeedScale: scale, ScaleOwnSD: sd, ScaleSharedSD: 0.001}
	f.Reduction.Points = []reduce.TestPoint{{Flight: name, Airspeed: 20, Lift: 0.5}}
	return f
}

// Worked by hand: two flights say 1.0 % and 1.4 %, each ± 0.2 %: mean 1.2 %, χ² = 2, spread √2, variance (0.2 %)²/2·2 = 4e-6. Half of
// 0.4 % of density adds 4e-6. Against a prior of (1.5 %)² = 2.25e-4, with 8e-6 from the flights, the scale is
// 1.2 %·225/233 and the variance 225·8/233·1e-6.
func TestAirspeedScaleIsPooledByHand(t *testing.T) {
	s := &Study{Program: &program.Program{}}
	s.Program.Loggers = []flightlog.Map{{Name: "a"}, {Name: "b"}}
	s.Program.Model.Errors = program.InstrumentErrors{AirspeedScale: 0.015, Density: 0.004}
	s.Flights = []Flight{flightWithScale("F1", "a", 0.010, 0.002), flightWithScale("F2", "a", 0.014, 0.002), flightWithScale("F3", "b", 0.1, 0.001)}
	s.Flights[2].Reduction.Air.ScaleKnown = false
	s.calibrateAirspeed()
	require.Len(t, s.Airspeeds, 1)
	c := s.Airspeeds[0]
	require.Equal(t, []string{"F1", "F2"}, c.Flights)
	require.InDelta(t, math.Sqrt2, c.Spread, 1e-12)
	require.InDelta(t, 0.012*225/233, c.Scale, 1e-12)
	require.InDelta(t, math.Sqrt(225*8.0/233*1e-6), c.SD, 1e-12)
	require.InDelta(t, 20/(1+c.Scale), s.Flights[0].Reduction.Points[0].Airspeed, 1e-12)
	require.InDelta(t, 20.0, s.Flights[2].Reduction.Points[0].Airspeed, 0, "another logger keeps its airspeed")
	require.InDelta(t, 0.015, s.airspeedSD(), 0, "the logger whose flights do not turn keeps what was declared")
	s.Flights[2].Used = false
	require.InDelta(t, c.SD, s.airspeedSD(), 0)
}

// A steady glide at 20 m/s and −4° of path, α 3°: a tube that reads 2 % high tells a wrong speed, path angle, lift and drag, and the
// scale taken off gives back the true ones.
func TestScaleTakenOffGivesTheTruth(t *testing.T) {
	const speed, density, mass, area, scale = 20.0, 1.2, 12.0, 0.6, 0.02
	path, theta := -4*math.Pi/180, -1*math.Pi/180
	weight, q := mass*9.80665, density*speed*speed/2
	sink := speed * math.Sin(-path)
	told := speed * (1 + scale)
	toldPath := -math.Asin(sink / told)
	p := reduce.TestPoint{
		AlphaMethod: reduce.ByAttitude, Airspeed: told, DynamicPressure: density * told * told / 2, Reynolds: told, PathAngle: toldPath, Alpha: theta - toldPath,
		Lift: weight * math.Cos(path) / (density * told * told / 2 * area), Drag: weight * sink / told / (density * told * told / 2 * area), HasDrag: true,
	}
	got := reduce.Reduction{Points: []reduce.TestPoint{p}}.WithoutAirspeedScale(scale).Points[0]
	require.InDelta(t, speed, got.Airspeed, 1e-12)
	require.InDelta(t, speed, got.Reynolds, 1e-12)
	require.InDelta(t, q, got.DynamicPressure, 1e-9)
	require.InDelta(t, path, got.PathAngle, 1e-12)
	require.InDelta(t, theta-path, got.Alpha, 1e-12)
	require.InDelta(t, weight*math.Cos(path)/(q*area), got.Lift, 1e-12)
	require.InDelta(t, weight*math.Sin(-path)/(q*area), got.Drag, 1e-12)
}

// The height of the CG is that of the weighing; where nobody took it the inertial unit has no vertical arm.
func TestHeightOfTheCG(t *testing.T) {
	in := reductionInputs{LengthRatio: 0.25, Weighing: program.Weighing{CGZ: 0.4, CGZKnown: true}}
	in.Logger.Sensors.Inertial = &flightlog.Place{Z: 0.07}
	require.InDelta(t, 0.1, in.heightOfCG(), 1e-15)
	in.Weighing = program.Weighing{}
	require.InDelta(t, 0.07, in.heightOfCG(), 0)
	in.Logger.Sensors.Inertial = nil
	require.Zero(t, in.heightOfCG())
}
