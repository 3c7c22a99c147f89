package program

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero"
	"wingproof/flightlog"
)

func TestLoadReadsAWholeFolder(t *testing.T) {
	p, err := Load(build(t, sandreed()))
	require.NoError(t, err)

	require.Equal(t, "Sandreed two-seater (invented)", p.Name)
	require.Equal(t, uint64(7), p.Seed)
	require.InDelta(t, 0.01, p.Model.Errors.AirspeedScale, 1e-15)
	require.InDelta(t, 0.5*math.Pi/180, p.Model.Errors.Alpha, 1e-15)
	require.InDelta(t, defaultVerticalAir, p.Model.Errors.VerticalAir, 0)
	require.Equal(t, Figure{960, 10, "estimated", "drawing weights"}, p.FullSize.Mass)
	require.InDelta(t, 120*1852.0/3600, p.FullSize.CruiseSpeed, 1e-12)
	require.Len(t, p.Surfaces, 4)
	require.Equal(t, "wing", p.Surfaces[2].Joins)
	require.Equal(t, "tip", p.Surfaces[2].JoinsAt)
	require.InDelta(t, 0.12, p.Surfaces[2].Stations[0].Thickness, 0.002)
	require.InDelta(t, 5.55, p.Surfaces[0].Stations[1].LeadingEdge.X, 1e-12)
	require.InDelta(t, 0.8, p.Surfaces[0].Hinges[0].Effectiveness, 0)
	require.InDelta(t, -25*math.Pi/180, p.Surfaces[2].Hinges[0].TravelMin, 1e-15)
	require.InDelta(t, 400*0.45359237, p.Loadings[0].Items[1].Mass, 1e-9)
	require.InDelta(t, 5, *p.Limits[0].AtLeast, 1e-12)
	require.InDelta(t, 15*math.Pi/180, *p.Limits[1].AtLeast, 1e-15)
	require.Equal(t, "main spar", p.Built[0].Part)
	require.InDelta(t, 0.005, p.TheoryErrors[0].Level["winglet"], 1e-15)
	require.Equal(t, flightlog.Column{Column: "T", Is: flightlog.AirTemperature, Unit: "c", Sign: 1, Scale: 1, Offset: -1.5}, p.Loggers[0].Columns[2])

	require.InDelta(t, 15.1, p.Flights[0].Mass, 0)
	require.InDelta(t, 0.935/0.25, p.Flights[0].CG, 1e-12)
	require.InDelta(t, 101320, p.Flights[0].Pressure, 1e-9)
	require.InDelta(t, 281.65, p.Flights[0].Temperature, 1e-9)
	require.InDelta(t, 0.9405/0.25, p.Flights[1].CG, 1e-12)
	require.InDelta(t, defaultCGSD/0.25, p.Flights[1].CGSD, 1e-12)
	require.Equal(t, "logs/f02.csv", p.Flights[1].Log)
	require.Equal(t, map[string]string{"winglet": "mid", "foreplane": "large"}, p.Flights[2].Levels)
	require.False(t, p.Flights[2].Use)
	require.Equal(t, []string{"aft margin", "tip-back", "signoff:flutter_and_mass_balance"}, p.Parts[1].MustPass)
	require.True(t, p.Parts[0].ShapedByStated)
	require.False(t, p.Parts[3].ShapedByStated)
	require.Equal(t, "2026-05-01", p.Parts[0].NeededBy)
	require.Len(t, p.Missing, 4)
	require.Contains(t, p.Missing[0], "cards.csv")
	require.Contains(t, p.Missing[1], "decisions.csv")
	require.Equal(t, "logs/f01.csv is not there; it is the log of flight f01, which is left out", p.Missing[2])
	require.Contains(t, p.Inputs, "logs/f02.csv")
	require.Contains(t, p.Inputs, "shape/winglet-tall.csv")
	require.NotContains(t, p.Inputs, "decisions.csv")
}

func TestConfigurationsPutTheBaselineFirst(t *testing.T) {
	p, err := Load(build(t, sandreed()))
	require.NoError(t, err)
	require.Equal(t, []map[string]string{
		{"winglet": "mid", "foreplane": "standard"},
		{"winglet": "mid", "foreplane": "large"},
		{"winglet": "small", "foreplane": "standard"},
		{"winglet": "small", "foreplane": "large"},
		{"winglet": "tall", "foreplane": "standard"},
		{"winglet": "tall", "foreplane": "large"},
	}, p.Configurations())
}

func TestAirframeAppliesTheEdits(t *testing.T) {
	p, err := Load(build(t, sandreed()))
	require.NoError(t, err)
	surface := func(a aero.Airframe, name string) aero.Surface {
		for _, s := range a.Surfaces {
			if s.Name == name {
				return s
			}
		}
		return aero.Surface{}
	}
	base, warnings, err := p.Airframe(map[string]string{"winglet": "mid", "foreplane": "standard"})
	require.NoError(t, err)
	require.Empty(t, warnings)
	// Area, chord and its place by hand: two trapezoids of 1.3 m (3.0 to 1.5 m) and 3.0 m (1.5 to 0.75 m).
	require.InDelta(t, 12.6, base.Reference.Area, 1e-9)
	require.InDelta(t, 1.708333, base.Reference.MeanChord, 1e-6)
	require.InDelta(t, 4.057143, base.Reference.MeanChordLeadingEdge, 1e-6)
	require.InDelta(t, 8.6, base.Reference.Span, 1e-12)

	edited, _, err := p.Airframe(map[string]string{"winglet": "small", "foreplane": "large"})
	require.NoError(t, err)
	winglet := surface(edited, "winglet").Stations
	require.InDelta(t, 0.88, winglet[len(winglet)-1].LeadingEdge.Z-winglet[0].LeadingEdge.Z, 1e-9)
	fore := surface(edited, "foreplane").Stations
	require.InDelta(t, 3.75/2, fore[len(fore)-1].LeadingEdge.Y, 1e-9)
	require.InDelta(t, 1.07*surface(base, "foreplane").Stations[0].Chord(), fore[0].Chord(), 1e-9)

	tall, _, err := p.Airframe(map[string]string{"winglet": "tall", "foreplane": "standard"})
	require.NoError(t, err)
	require.InDelta(t, 1.435, surface(tall, "winglet").Stations[2].LeadingEdge.Z, 1e-9)
	require.InDelta(t, 1.16, surface(base, "winglet").Stations[2].LeadingEdge.Z, 1e-9)

	_, _, err = p.Airframe(map[string]string{"winglet": "huge", "foreplane": "standard"})
	require.ErrorContains(t, err, `choice winglet has no level "huge"`)
}

func TestDeclaredReferenceIsCrossChecked(t *testing.T) {
	files := sandreed()
	change(t, files, "program.toml", "[reference]\n", "[reference]\narea_m2 = 13.0\n")
	p, err := Load(build(t, files))
	require.NoError(t, err)
	a, warnings, err := p.Airframe(p.Configurations()[0])
	require.NoError(t, err)
	require.InDelta(t, 13, a.Reference.Area, 0)
	require.Len(t, warnings, 1)
	require.Contains(t, warnings[0], "area_m2 is declared as 13 and the geometry gives 12.6 (3.2 % apart)")
	require.Contains(t, p.Warnings, warnings[0])
}

func TestFindGoesUp(t *testing.T) {
	dir := build(t, sandreed())
	found, err := Find(dir + "/shape")
	require.NoError(t, err)
	require.Equal(t, dir, found)
	_, err = Find(t.TempDir())
	require.ErrorContains(t, err, "no program.toml in")
}

// Mean lines reach the stations: NACA 2415 has slope 2·0.02/0.4 at the nose (NACA Report 460, eq. of the
// front parabola), and a symmetric outline is flat.
func TestStationsCarryTheirMeanLine(t *testing.T) {
	p, err := Load(build(t, sandreed()))
	require.NoError(t, err)
	require.InDelta(t, 0.1, p.Surfaces[0].Stations[0].MeanLine.Slope(0), 1e-12)
	require.InDelta(t, 0.15, p.Surfaces[0].Stations[0].Thickness, 1e-12)
	for _, x := range []float64{0.1, 0.5, 0.9} {
		require.InDelta(t, 0, p.Surfaces[2].Stations[0].MeanLine.Slope(x), 1e-9)
	}
}

// A log that lies elsewhere in the folder, or is written with other capitals, is named.
func TestAMissingLogNamesTheOneThatIsThere(t *testing.T) {
	files := sandreed()
	change(t, files, "flights.csv", "logs/f01.csv", "card/MONDAY.CSV")
	files["logs/Monday.csv"] = "t\n0\n"
	p, err := Load(build(t, files))
	require.NoError(t, err)
	require.Contains(t, p.Missing, "card/MONDAY.CSV is not there; it is the log of flight f01, which is left out; did you mean logs/Monday.csv?")
	require.Contains(t, p.Missing, "logs/f02.csv is not there; it is the log of flight f02, which is left out")
}
