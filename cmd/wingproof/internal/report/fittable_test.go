package report

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/flightlog"
	"wingproof/flightlog/identify"
	"wingproof/flightlog/manoeuvre"
	"wingproof/flightlog/reduce"
)

// sampleFits are invented numbers of two configurations: two roads to one of them, one that is weak, one that is not determined, and
// warnings as package estimate words them.
func sampleFits() []evidence.Estimate {
	c := "foreplane=small, winglet=mid"
	of := func(quantity, unit, scale string, value, low, high float64, warnings ...string) evidence.Estimate {
		e := estimateOf(c, quantity, unit, scale, evidence.Measured, value, low, high)
		e.Flights, e.Power, e.Warnings = []string{"9", "11", "13"}, evidence.Pointer("level"), warnings
		e.At.CG = evidence.Pointer(3.828)
		return e
	}
	road := func(e evidence.Estimate, name string) evidence.Estimate {
		e.Method = evidence.Pointer(name)
		return e
	}
	alike := func(a, b string) string {
		return "the input of flights 9 and 11 hardly tells " + a + " from " + b + " (correlation over 0.95): if one is wrong the other is wrong with it; fly a multistep with steps of unequal length"
	}
	off := func(flight, where, off, share string) string {
		return "flight " + flight + ": the point at " + where + " lies " + off + " robust standard deviations off in elevator and counts " + share + " %"
	}
	roll := of("lift_by_pitch_rate", "1/rad", evidence.ModelScale, 0, 0, 0,
		"left out of lift by pitch rate: flight 9: the inputs moved the model too little against its noise: lift by pitch rate comes out as -2.3 ± 4.7; fly larger inputs in calmer air, or more of them",
		"left out of lift by pitch rate: flight 11: the inputs moved the model too little against its noise: lift by pitch rate comes out as 4 ± 2.8; fly larger inputs in calmer air, or more of them")
	roll.State, roll.Value, roll.Flights = evidence.NotDetermined, nil, nil
	bank := of("bank_per_sideslip", "1", evidence.ModelScale, 0.05, 0, 0.11, "the 95 % interval reaches 0.05 to either side", off("13", "-1.2° of sideslip", "6.6", "28"))
	bank.State = evidence.Weak
	other := of(evidence.NeutralPoint, "m", evidence.ModelScale, 4.06, 4.04, 4.08)
	other.Configuration = "foreplane=large, winglet=mid"
	return []evidence.Estimate{
		of("elevator_per_lift", "rad", evidence.ModelScale, 0.63, 0.60, 0.66, off("9", "CL 0.675", "7.9", "20"), off("9", "CL 0.726", "13.0", "7"), off("11", "CL 0.500", "5.1", "47")),
		road(of(evidence.DirectionalStiffness, "1/rad", evidence.ModelScale, 0.0437, 0.0401, 0.0473, alike("directional stiffness", "dihedral effect")), "weighted mean of roads"),
		road(of(evidence.DirectionalStiffness, "1/rad", evidence.ModelScale, 0.0434, 0.0394, 0.0473), "steady sideslips: slopes times control power"),
		road(of(evidence.DirectionalStiffness, "1/rad", evidence.ModelScale, 0.041, 0.035, 0.047), "Dutch roll in the free response: frequency"),
		of("dihedral_effect", "1/rad", evidence.ModelScale, -0.128, -0.141, -0.116, alike("dihedral effect", "directional stiffness")),
		of("dutch_roll_frequency", "rad/s", evidence.ModelScale, 4.55, 4.41, 4.69, "flight 9 lies 4.2 standard deviations from the others and counts 30 %", "flight 11 lies 3.9 standard deviations from the others and counts 40 %"),
		of("dutch_roll_frequency", "rad/s", evidence.FullSize, 2.57, 2.42, 2.73, "the model is heavier than to scale"),
		of("max_lift_coefficient", "1", evidence.ModelScale, 1.08, 0.97, 1.18,
			"flight 9 reached CL 1.21 without a break, above the interval: the breaks that were found may be something else than the stall",
			"flight 13 reached CL 1.29 without a break, above the interval: the breaks that were found may be something else than the stall"),
		roll, bank, other,
	}
}

func sampleMissing() map[string][]string {
	return map[string][]string{"foreplane=large, winglet=mid": {"no deceleration can be used: maximum lift is not determined; fly decelerations by 1 m/s a second"}}
}

// sampleDynamics is an invented flight with something of everything beside test points: kept, dropped, and a wing that let go first.
func sampleDynamics() reduce.Reduction {
	return reduce.Reduction{Flight: "13",
		Stalls: []reduce.StallPoint{
			{Time: 385.4, Power: reduce.Idle, Slowing: 1.2, Lift: 0.91, Alpha: 0.157, Elevator: 0.454, Broke: true, First: reduce.FirstForeplane, Sign: "the nose drops by 5°/s although the elevator is not lowered", Kept: true, Reason: "airspeed falls by 1.2 m/s a second"},
			{Time: 454, Power: reduce.Idle, Slowing: 0.5, Lift: 1.12, Alpha: 0.2, Elevator: 0.4, Broke: true, First: reduce.FirstWing, Sign: "a wing drops by 40°/s", Kept: true, Reason: "airspeed falls by 0.5 m/s a second"},
			{Time: 470, Power: reduce.Idle, Reason: "it is too short to be read"}},
		Slips:      []reduce.SlipPoint{{Start: 345, End: 352, Power: reduce.Level, Lift: 0.5, Sideslip: 0.106, Rudder: 0.14, Aileron: 0.06, Bank: 0.002, Kept: true, Reason: "steady for 7.0 s"}},
		Loads:      []reduce.LoadPoint{{Start: 430, End: 430.7, Kind: "pull_up", Power: reduce.Level, LoadFactor: 1.44, Lift: 0.68, Elevator: 0.34, PitchRate: 0.17, Reason: "the elevator moves by 3° in it"}},
		Manoeuvres: []manoeuvre.Manoeuvre{{Kind: manoeuvre.Doublet, Control: flightlog.Elevator, Start: 254, End: 259}, {Kind: manoeuvre.Multistep, Control: flightlog.RudderLeft, Start: 308, End: 316}},
		Segments:   []identify.Segment{{Control: flightlog.Elevator, Power: "level", Start: 252, Step: 0.02, Airspeed: make([]float64, 355)}},
		Findings: []flightlog.Finding{{Severity: flightlog.Note, Channel: flightlog.RudderLeft, Start: 308, End: 316,
			What: "the rudder multistep is left out of the fits of derivatives: the airspeed has a gap from 309 to 311 s", Consequence: "the others serve without it"}}}
}

// One golden file holds the tables of the fits at both widths, the dangers and what flights hold beside steady points.
func TestFitTablesMatchTheirGoldenFile(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, TellDangers(&b, Dangers(sampleDynamics(), "foreplane=small, winglet=mid"), 100))
	for _, width := range []int{100, 80} {
		require.NoError(t, FitTable(&b, sampleFits(), sampleMissing(), 0.25, width))
		b.WriteString("\n")
	}
	require.NoError(t, PointTable(&b, []reduce.Reduction{sampleDynamics()}, 0.25, 110))
	golden := filepath.Join("..", "..", "..", "..", "testdata", "golden", "fits.txt")
	if *update {
		require.NoError(t, os.WriteFile(golden, b.Bytes(), 0o644))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	require.Equal(t, strings.ReplaceAll(string(want), "\r\n", "\n"), b.String())
}

func TestFitTableKeepsItsWidth(t *testing.T) {
	for _, width := range []int{80, 100, 140} {
		requireWidth(t, printed(t, func(w io.Writer) error { return FitTable(w, sampleFits(), sampleMissing(), 0.25, width) }), width)
		requireWidth(t, printed(t, func(w io.Writer) error {
			return PointTable(w, []reduce.Reduction{sampleDynamics()}, 0.25, max(width, 100))
		}), max(width, 100))
	}
}

// What repeats flight by flight becomes one line, and still every flight is named with how much it counts; a pair is told once.
func TestWarningsThatRepeatAreToldOnce(t *testing.T) {
	lines := warningLines(sampleFits())
	all := strings.Join(lines, "\n")
	require.Equal(t, 1, strings.Count(all, "beside the rest of their flight count less: 9"))
	for _, want := range []string{"9 at CL 0.675 (7.9 standard deviations off, counts 20 %)", "9 at CL 0.726 (13.0 standard deviations off, counts 7 %)", "11 at CL 0.500 (5.1",
		"13 at −1.2° of sideslip", "9 (4.2 standard deviations off, counts 30 %); 11 (3.9", "came 9 (CL 1.21) and 13 (CL 1.29)", "not used from 9 (−2.3 ± 4.7) and 11 (4 ± 2.8)",
		"directional stiffness and dihedral effect (9, 11)"} {
		require.Contains(t, all, want)
	}
	require.Equal(t, 1, strings.Count(all, "dihedral effect (9"), "the pair is not told from both sides")
	require.NotContains(t, all, "robust")
	require.Len(t, lines, 8)
}

// A sentence of no known form stands as it is, with what it concerns.
func TestAnUnknownWarningStandsAsItIs(t *testing.T) {
	e := estimateOf("c", "roll_damping", "1/rad", evidence.ModelScale, evidence.Measured, -0.4, -0.5, -0.3)
	e.Warnings = []string{"flight 9: the moon was full"}
	require.Equal(t, []string{"roll damping Cl_p: flight 9: the moon was full"}, warningLines([]evidence.Estimate{e, e}))
}

func TestDangersNameFlightTimeAndConfiguration(t *testing.T) {
	d := Dangers(sampleDynamics(), "winglet=mid")
	require.Len(t, d, 1, "a foreplane that lets go first is none")
	for _, want := range []string{"DANGER", "flight 13", "454 s", "winglet mid", "a wing drops by 40°/s", "do not slow"} {
		require.Contains(t, d[0].Words(), want)
	}
	require.Contains(t, Danger{Time: 12}.Words(), "in this log at 12 s")
}

// The page tells dangers above the evidence and sets measured beside predicted, roads together first.
func TestPageTellsDangersAndMotions(t *testing.T) {
	c := sample(t)
	require.NotContains(t, render(t, c), "Danger seen in flight")
	requireSays(t, render(t, c), "No derivative was measured")
	c.Dangers = Dangers(sampleDynamics(), "winglet=mid")
	c.Estimates = append(c.Estimates, sampleFits()...)
	c.Estimates = append(c.Estimates, estimateOf("foreplane=small, winglet=mid", evidence.DirectionalStiffness, "1/rad", evidence.ModelScale, evidence.Predicted, 0.0381, 0.03, 0.046))
	page := render(t, c)
	elements(t, closed(page))
	require.Less(t, strings.Index(page, "Danger seen in flight"), strings.Index(page, `<section id="margin"`))
	rows := motionRows(c.Estimates, "foreplane=small, winglet=mid")
	require.Equal(t, "directional stiffness Cn_β", rows[0].Quantity)
	require.Equal(t, "0.0437 (0.0401 to 0.0473)", rows[0].Measured.Text)
	require.Equal(t, "3 flights, level; 2 roads together", rows[0].Measured.Note)
	require.Equal(t, "0.038 (0.030 to 0.046)", rows[0].Predicted.Text)
	require.Equal(t, "2.57 (2.42 to 2.73) rad/s", rows[2].FullSize.Text)
	require.Empty(t, motionRows(c.Estimates, "foreplane=large, winglet=mid"), "a neutral point is no motion")
}

// A difference table names a quantity once, above its levels.
func TestDifferenceTableNamesEachQuantityOnce(t *testing.T) {
	e := estimateOf("", evidence.NeutralPoint, "m", evidence.ModelScale, evidence.Measured, -0.0018, -0.0054, 0.0018)
	e.Flights, e.Power = []string{"9", "11"}, evidence.Pointer("idle")
	rows := []DifferenceRow{{"winglet", "small", "mid", e}, {"winglet", "tall", "mid", e}}
	text := printed(t, func(w io.Writer) error { return DifferenceTable(w, rows, 100) })
	requireWidth(t, text, 100)
	require.Equal(t, 1, strings.Count(text, "neutral point"))
	require.Contains(t, text, "winglet tall minus mid   −0.0018 (−0.0054 to 0.0018) m  2 flights, idle")
}
