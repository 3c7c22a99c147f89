package weighing

import (
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"wingproof/aero"
)

// figures are the lines "name = number" of the example worked by hand, each with half its last digit.
type figures struct {
	value, half map[string]float64
}

func handWorked(t *testing.T) figures {
	t.Helper()
	text, err := os.ReadFile("../../testdata/hand/weigh.txt")
	require.NoError(t, err)
	f := figures{map[string]float64{}, map[string]float64{}}
	line := regexp.MustCompile(`^(\w+) += (-?[\d.]+)(?:\s|$)`)
	for _, l := range strings.Split(string(text), "\n") {
		m := line.FindStringSubmatch(l)
		if m == nil {
			require.True(t, l == "" || strings.HasPrefix(l, "#"), l)
			continue
		}
		require.NotContains(t, f.value, m[1])
		f.value[m[1]], err = strconv.ParseFloat(m[2], 64)
		require.NoError(t, err)
		_, decimals, _ := strings.Cut(m[2], ".")
		f.half[m[1]] = 0.5 * math.Pow(10, -float64(len(decimals)))
	}
	require.Greater(t, len(f.value), 50)
	return f
}

// near compares with the printed figure, to half its last digit and a hair.
func (f figures) near(t *testing.T, name string, got float64) {
	t.Helper()
	require.Contains(t, f.value, name)
	require.InDelta(t, f.value[name], got, 1.01*f.half[name], name)
}

func (f figures) exact(name string) Figure { return Figure{Value: f.value[name]} }

func (f figures) at(name string) *Figure { v := f.exact(name); return &v }

func (f figures) session() Session {
	v := f.value
	point := func(name, x, z string, y float64) Point {
		return Point{Name: name, X: f.exact(x), Y: &Figure{Value: y}, Z: f.at(z)}
	}
	load := func(name, whole, tare string) Reading {
		return Reading{Point: name, Loads: []float64{v[whole]}, Tare: f.exact(tare)}
	}
	twenty := func(names ...string) (out []Timing) {
		for _, n := range names {
			out = append(out, Timing{20, v[n]})
		}
		return out
	}
	half := v["up_main_kg"] / 2
	return Session{
		Gravity: f.exact("gravity"),
		Points: []Point{point("nose", "nose_x_m", "nose_z_m", 0), point("left", "main_x_m", "main_z_m", -v["main_y_m"]),
			point("right", "main_x_m", "main_z_m", v["main_y_m"])},
		Attitudes: []Attitude{
			{Name: "level", Readings: []Reading{load("nose", "nose_kg", "nose_tare_kg"), load("left", "left_kg", "left_tare_kg"), load("right", "right_kg", "right_tare_kg")}},
			{Name: "nose up", Tilted: true, Angle: Figure{Value: v["up_deg"] * math.Pi / 180}, Readings: []Reading{
				{Point: "nose", Loads: []float64{v["up_nose_kg"]}}, {Point: "left", Loads: []float64{half}}, {Point: "right", Loads: []float64{half}}}},
		},
		Swings: []Swing{
			{Name: "yaw", Axis: Yaw, Spacing: f.exact("yaw_spacing_m"), Length: f.exact("yaw_length_m"), Timings: twenty("yaw_time_1_s", "yaw_time_2_s")},
			{Name: "roll", Rig: CompoundRig, Axis: Roll, PivotZ: f.at("roll_pivot_z_m"), Timings: twenty("roll_time_s"),
				Hanger: &Hanger{Mass: f.exact("cradle_kg"), Depth: f.at("cradle_depth_m"), Timings: twenty("cradle_time_s")}},
			{Name: "pitch", Rig: CompoundRig, Axis: Pitch, PivotX: f.at("pitch_pivot_x_m"), PivotZ: f.at("pitch_pivot_z_m"), Timings: twenty("pitch_time_s")},
			{Name: "inclined", Axis: Inclined, Angle: Figure{Value: v["inclined_deg"] * math.Pi / 180}, Spacing: f.exact("inclined_spacing_m"), Length: f.exact("inclined_length_m"),
				Timings: twenty("inclined_time_s")},
		},
	}
}

func value(t *testing.T, r Result, q Quantity) float64 {
	t.Helper()
	n, ok := r.Number(q)
	require.True(t, ok, q)
	return n.Value
}

// Every line of testdata/hand/weigh.txt.
func TestTheExampleWorkedByHand(t *testing.T) {
	f := handWorked(t)
	s := f.session()
	r, err := Solve(s)
	require.NoError(t, err)
	for q, name := range map[Quantity]string{Mass: "mass", CGX: "cg_x", CGY: "cg_y", CGZ: "cg_z", Ix: "ix", Iy: "iy", Iz: "iz", Ixz: "ixz"} {
		f.near(t, name, value(t, r, q))
	}
	require.Empty(t, r.Missing)
	require.Empty(t, r.Warnings)
	p, err := newPlan(s)
	require.NoError(t, err)
	level, _, _ := p.attitudes[0].stands(p.values)
	f.near(t, "level_h", level)
	up, cos, sin := p.attitudes[1].stands(p.values)
	f.near(t, "up_h", up)
	f.near(t, "up_nose_h", f.value["nose_x_m"]*cos+f.value["nose_z_m"]*sin)
	f.near(t, "up_main_h", f.value["main_x_m"]*cos+f.value["main_z_m"]*sin)
	f.near(t, "roll_arm_m", r.Swings[1].Arm)
	f.near(t, "pitch_arm_m", r.Swings[2].Arm)
	f.near(t, "inclined", r.Swings[3].Value)
	f.near(t, "cradle_period_s", PeriodOf(s.Swings[1].Hanger.Timings, 0).Value)
	f.near(t, "cradle_about_axis", Pendulum(f.value["cradle_kg"]*f.value["cradle_depth_m"], f.value["gravity"], f.value["cradle_period_s"]))
	moment := 16*r.Swings[1].Arm + f.value["cradle_kg"]*f.value["cradle_depth_m"]
	f.near(t, "roll_about_axis", Pendulum(moment, f.value["gravity"], f.value["roll_time_s"]/20))
}

func TestTheErrorsWorkedByHand(t *testing.T) {
	f := handWorked(t)
	s := f.session()
	s.Swings = s.Swings[:1]
	s.Swings[0].Spacing.SD, s.Swings[0].Length.SD, s.Swings[0].TimingSD = f.value["yaw_spacing_sd_m"], f.value["yaw_length_sd_m"], f.value["timing_sd_s"]
	period := PeriodOf(s.Swings[0].Timings, s.Swings[0].TimingSD)
	f.near(t, "yaw_period_s", period.Value)
	f.near(t, "yaw_period_sd_s", period.SD)
	f.near(t, "timing_pooled_sd_s", period.SD*math.Sqrt(800))
	r, err := Solve(s)
	require.NoError(t, err)
	n, ok := r.Number(Iz)
	require.True(t, ok)
	f.near(t, "iz_sd", n.SD)
	require.Len(t, n.Parts, 3)
	for k, name := range []string{"iz_from_timing", "iz_from_spacing", "iz_from_length"} {
		f.near(t, name, math.Abs(n.Parts[k].SD))
	}
	require.Negative(t, n.Parts[2].SD, "a longer line means a smaller inertia")
}

func TestTheAirWorkedByHand(t *testing.T) {
	f := handWorked(t)
	c, b := f.value["plate_chord_m"], f.value["plate_span_m"]
	half := aero.Surface{Name: "plate", Role: aero.RoleWing, Mirrored: true, Stations: []aero.Station{
		{TrailingEdge: r3.Vec{X: c}}, {LeadingEdge: r3.Vec{Y: b / 2}, TrailingEdge: r3.Vec{X: c, Y: b / 2}}}}
	air := Air{Airframe: aero.Airframe{Surfaces: []aero.Surface{half}}, Ratio: 1, Density: f.value["density"]}
	f.near(t, "strip_mass", air.strips()[0].mass*2*cuts/b)
	middle := r3.Vec{X: c / 2}
	require.InEpsilon(t, f.value["plate_roll"], air.Inertia(middle, r3.Vec{X: 1}), 2e-4, "the sum over strips, short of the integral by 1/(4·40²)")
	f.near(t, "plate_pitch", air.Inertia(middle, r3.Vec{Y: 1}))
	require.InDelta(t, 0, air.Inertia(middle, r3.Vec{Z: 1}), 1e-12, "a flat plate turns in its own plane and moves no air")
}
