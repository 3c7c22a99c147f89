package program

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/aerofoil"
)

// furnished is the sound folder with everything that lattice, stall and loads may be told besides. All of it is
// invented.
func furnished(t testing.TB) map[string]string {
	t.Helper()
	files := sandreed()
	edit := func(old, fresh string) { change(t, files, "program.toml", old, fresh) }
	edit("limit_load_factor = 3.8\n", "limit_load_factor = 3.8\nnegative_limit_load_factor = -1.9\nmanoeuvre_speed_kt = 105\ndive_speed_kt = 165\ngust_cruise_m_s = 15\ngust_dive_ft_s = 25\n\n[fuselage]\nstations = \"shape/fuselage.csv\"\n")
	edit("stations = \"shape/wing.csv\"\n", "stations = \"shape/wing.csv\"\nmass_kg = 95\nmass_sd_kg = 8\n")
	edit("effectiveness = 0.75", "effectiveness = 0.75, effectiveness_sd = 0.1")
	edit("naca = \"3416\"\n", "naca = \"3416\"\npolar = \"shape/fore-polar.csv\"\n[[aerofoil]]\nname = \"tip-12\"\nnaca = \"23012\"\n[[aerofoil]]\nname = \"bent\"\nmean_line = \"shape/bent.csv\"\nthickness_percent = 11.5\n")
	edit("mass_lb = 400, x_m = 3.9, z_m = 0.0", "mass_lb = 400, x_m = 3.9, z_m = 0.0, span_from_m = 0.4, span_to_m = 1.2")
	files["shape/fuselage.csv"] = `# invented
station,x_mm,width_mm,height_mm,z_mm
1,200,0,0,150
2,1500,900,950,200
3,3400,1000,1150,250
4,5600,350,400,120
`
	files["shape/fore-polar.csv"] = `reynolds,flap_deg,state,max_lift,profile_drag,source
1500000,0,clean,1.55,0.0072,invented
1500000,0,contaminated,1.31,0.0098,invented
1500000,20,clean,2.05,,invented
400000,0,clean,1.38,0.0110,invented
400000,20,clean,1.83,0.0190,invented
`
	files["shape/bent.csv"] = `# parabolic arc of 2 % height, z = 0.08 x (1 - x)
x,y
0,0
0.1,0.0072
0.2,0.0128
0.35,0.0182
0.5,0.02
0.65,0.0182
0.8,0.0128
0.9,0.0072
1,0
`
	return files
}

func TestLoadReadsWhatTheLatticeChapterNeeds(t *testing.T) {
	p, err := Load(build(t, furnished(t)))
	require.NoError(t, err)

	full := p.FullSize
	require.InDelta(t, -1.9, full.NegativeLimitLoadFactor, 0)
	require.InDelta(t, 105*1852.0/3600, full.ManoeuvreSpeed, 1e-12)
	require.InDelta(t, 165*1852.0/3600, full.DiveSpeed, 1e-12)
	require.InDelta(t, 15, full.GustCruise, 0)
	require.InDelta(t, 7.62, full.GustDive, 1e-12)

	require.Equal(t, []SurfaceMass{{"wing", 95, 8}}, p.Masses)
	require.Equal(t, []HingeError{{"foreplane", 0, "elevator", 0.1}}, p.HingeErrors)
	fuel := p.Loadings[0].Items[1]
	require.InDelta(t, 0.4, fuel.SpanFrom, 1e-12)
	require.InDelta(t, 1.2, fuel.SpanTo, 1e-12)
	require.Zero(t, fuel.Y)
	require.Len(t, p.Fuselage, 4)
	require.Equal(t, FuselageStation{0.2, 0, 0, 0.15}, p.Fuselage[0])
	for i, want := range []float64{5.6, 0.35, 0.4, 0.12} {
		last := p.Fuselage[3]
		require.InDelta(t, want, []float64{last.X, last.Width, last.Height, last.Z}[i], 1e-12)
	}

	var names []string
	for _, a := range p.Aerofoils {
		names = append(names, a.Name)
	}
	require.Equal(t, []string{"wing-15", "fore-16", "tip-12", "bent", "thin-12"}, names)
	fore := p.Aerofoils[1]
	require.Equal(t, "shape/fore-polar.csv", fore.PolarFile)
	drag := 0.0072
	require.Len(t, fore.Polar, 5)
	require.Equal(t, PolarRow{1.5e6, 0, aerofoil.Clean, 1.55, &drag, "invented", 2}, fore.Polar[0])
	require.Equal(t, aerofoil.Contaminated, fore.Polar[1].State)
	require.InDelta(t, 20*math.Pi/180, fore.Polar[2].Flap, 1e-15)
	require.Nil(t, fore.Polar[2].ProfileDrag)
	rows := fore.Rows()
	require.Equal(t, aerofoil.PolarRow{Reynolds: 1.5e6, State: aerofoil.Contaminated, MaxLift: 1.31, ProfileDrag: 0.0098, Source: "invented"}, rows[1])
	require.Zero(t, rows[2].ProfileDrag)
	for _, file := range []string{"shape/fore-polar.csv", "shape/fuselage.csv", "shape/bent.csv"} {
		require.Contains(t, p.Inputs, file)
	}
	require.Equal(t, usualWarnings(t), p.Warnings)
}

// usualWarnings are those of the sound folder.
func usualWarnings(t *testing.T) []string {
	t.Helper()
	p, err := Load(build(t, sandreed()))
	require.NoError(t, err)
	require.Len(t, p.Warnings, 1)
	require.Contains(t, p.Warnings[0], "do not state mass_sd or cg_sd")
	return p.Warnings
}

// NACA 23012: mean line z″ = k1 (x − m) ahead of m = 0.2025 with k1 = 15.957, NACA Report 537; its slope at the nose
// is k1/6·m²·(3 − m). A parabolic arc z = 4 h x (1 − x) has slope 4 h (1 − 2 x), by hand.
func TestMeanLinesOfFiveDigitsAndOfPoints(t *testing.T) {
	p, err := Load(build(t, furnished(t)))
	require.NoError(t, err)
	five, bent := p.Aerofoils[2], p.Aerofoils[3]
	require.InDelta(t, 15.957/6*0.2025*0.2025*(3-0.2025), five.Line.Slope(0), 2e-4)
	require.InDelta(t, 0.12, five.Thickness, 1e-15)
	require.InDelta(t, 0.115, bent.Thickness, 1e-15)
	for _, x := range []float64{0.1, 0.4, 0.75} {
		require.InDelta(t, 0.08*(1-2*x), bent.Line.Slope(x), 1e-3) // the table holds four decimals
	}
}

// What is not written is not stated: the sound folder has none of it.
func TestAbsentInputsStayZero(t *testing.T) {
	p, err := Load(build(t, sandreed()))
	require.NoError(t, err)
	require.Zero(t, p.FullSize.NegativeLimitLoadFactor)
	require.Zero(t, p.FullSize.ManoeuvreSpeed)
	require.Zero(t, p.FullSize.DiveSpeed)
	require.Zero(t, p.FullSize.GustCruise)
	require.Zero(t, p.FullSize.GustDive)
	require.Empty(t, p.Masses)
	require.Empty(t, p.HingeErrors)
	require.Empty(t, p.Fuselage)
	require.Zero(t, p.Loadings[0].Items[1].SpanTo)
	for _, a := range p.Aerofoils {
		require.Empty(t, a.PolarFile)
		require.Empty(t, a.Polar)
	}
}

// A fin in the middle is one surface on y = 0, not a mirrored pair.
func TestASingleFin(t *testing.T) {
	files := sandreed()
	change(t, files, "program.toml", "[[aerofoil]]\nname = \"wing-15\"", "[[lifting_surface]]\nname = \"keel fin\"\nrole = \"fin\"\nmirrored = false\nmass_kg = 6\nstations = \"shape/fin.csv\"\n[[aerofoil]]\nname = \"wing-15\"")
	files["shape/fin.csv"] = "station,le_x_mm,le_y_mm,le_z_mm,te_x_mm,te_y_mm,te_z_mm,aerofoil\n1,4600,0,300,5400,0,300,thin-12\n2,5000,0,1100,5500,0,1100,thin-12\n"
	p, err := Load(build(t, files))
	require.NoError(t, err)
	fin := p.Surfaces[4]
	require.False(t, fin.Mirrored)
	require.InDelta(t, 0.12, fin.Stations[0].Thickness, 0.002)
	a, _, err := p.Airframe(p.baseline())
	require.NoError(t, err)
	require.False(t, a.Surfaces[4].Mirrored)
	require.Equal(t, usualWarnings(t), p.Warnings)

	files["shape/fin.csv"] = strings.ReplaceAll(files["shape/fin.csv"], ",0,300,", ",500,300,")
	_, err = Load(build(t, files))
	require.ErrorContains(t, err, `shape/fin.csv:2:1: surface "keel fin": y is 0.5 m on a surface without a mirror image; put a single surface on y = 0, or mirror it`)
}
