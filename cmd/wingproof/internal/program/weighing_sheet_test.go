package program

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/weighing"
)

func readSheet(t testing.TB, text string) (WeighingSheet, error) {
	t.Helper()
	return ReadWeighingSheet(&Program{DateOrder: "day_first"}, "sheet.csv", []byte(text))
}

func TestTheBlankSheetWorksAsItIs(t *testing.T) {
	sheet, err := readSheet(t, BlankWeighingSheet())
	require.NoError(t, err)
	require.Empty(t, sheet.Missing)
	require.Equal(t, "2026-03-12", sheet.Date)
	require.Equal(t, []string{"time_sd_s 0.15"}, without(sheet.Assumed, "angle_sd_deg 0.2"))
	s := sheet.Session
	require.Len(t, s.Points, 3)
	require.Len(t, s.Attitudes, 2)
	require.Equal(t, weighing.Reading{Point: "nose", Loads: []float64{3.150, 3.154}, SD: 0.003, Tare: weighing.Figure{Value: 0.2}}, s.Attitudes[0].Readings[0])
	require.InDelta(t, 20*math.Pi/180, s.Attitudes[1].Angle.Value, 1e-12)
	require.True(t, s.Attitudes[1].Tilted)
	require.Len(t, s.Swings, 4)
	roll := s.Swings[1]
	require.Equal(t, weighing.CompoundRig, roll.Rig)
	require.Equal(t, weighing.Figure{Value: 0.43, SD: 0.0007}, *roll.PivotZ)
	require.Nil(t, roll.PivotX)
	require.Equal(t, 1.2, roll.Hanger.Mass.Value)
	require.Len(t, roll.Timings, 3)
	require.Len(t, roll.Hanger.Timings, 1)
	r, err := weighing.Solve(s)
	require.NoError(t, err)
	require.Len(t, r.Numbers, 8)
	require.Empty(t, r.Missing)
	require.Empty(t, r.Warnings)
}

func without(list []string, word string) []string {
	var out []string
	for _, w := range list {
		if w != word {
			out = append(out, w)
		}
	}
	return out
}

// The same sheet as other spreadsheets save it, and in other units.
func TestSheetsInOtherDialects(t *testing.T) {
	want, err := readSheet(t, BlankWeighingSheet())
	require.NoError(t, err)
	body := BlankWeighingSheet()[strings.Index(BlankWeighingSheet(), "what,"):]
	swap := strings.NewReplacer(",", ";", ".", ",")
	for name, text := range map[string]string{
		"semicolons and decimal commas": swap.Replace(body),
		"CRLF and a byte-order mark":    "\xef\xbb\xbf" + strings.ReplaceAll(body, "\n", "\r\n"),
		"empty rows and columns":        strings.ReplaceAll(body, "\n", ",,\n") + ",,,\n\n",
		"capitals":                      strings.Replace(strings.ReplaceAll(body, "bifilar,yaw", "Bifilar,Yaw"), "what,run", "What,Run", 1),
	} {
		got, err := readSheet(t, text)
		require.NoError(t, err, name)
		if name == "capitals" {
			got.Session.Swings[0].Name = "yaw"
		}
		require.Equal(t, want, got, name)
	}
	inches, err := readSheet(t, "what,point,x_in,reading_lb,tare_g,position_sd_in\nscale,nose,10,4,0,0.04\nscale,main,40,30,0,0.04\n")
	require.NoError(t, err)
	require.InDelta(t, 0.254, inches.Session.Points[0].X.Value, 1e-12)
	require.InDelta(t, 4*0.45359237, inches.Session.Attitudes[0].Readings[0].Loads[0], 1e-12)
}

func TestMistakesInASheet(t *testing.T) {
	const heads = "what,run,point,x_mm,z_mm,reading_g,tare_g,axis,angle_deg,load,spacing_mm,length_mm,periods,time_s,hanger_g,date\n"
	for _, c := range []struct{ name, rows, want string }{
		{"unknown row", "scales,,nose,300,,3000,,,,,,,,,,", `sheet.csv:2:1: row "scales" is not known; did you mean "scale"?`},
		{"letter for a digit", "scale,,nose,3OO,,3000,,,,,,,,,,", `sheet.csv:2:13: x_mm "3OO" is not a number; write digits`},
		{"grams into kilograms", "scale,,nose,300,,3000000,,,,,,,,,,", `sheet.csv:2:18: reading_g = 3e+06 is out of range`},
		{"tare and reading mixed up", "scale,,nose,300,,200,3000,,,,,,,,,", `sheet.csv:2:22: the tare is not less than the reading`},
		{"a cell in the wrong row", "scale,,nose,300,,3000,,,,,800,,,,,", `sheet.csv:2:27: spacing_mm has no place in a row of scale; empty the cell`},
		{"no run", "bifilar,,,,,,,yaw,,,800,2400,20,63,,", `sheet.csv:2:9: run is empty; write a name`},
		{"no axis", "bifilar,a,,,,,,,,,800,2400,20,63,,", `sheet.csv:2:16: the run does not say which axis`},
		{"an axis that is none", "bifilar,a,,,,,,jaw,,,800,2400,20,63,,", `sheet.csv:2:16: axis "jaw" is not known; did you mean "yaw"?`},
		{"an angle that means nothing", "bifilar,a,,,,,,yaw,10,,800,2400,20,63,,", `sheet.csv:2:20: angle_deg goes with an inclined axis only`},
		{"half a period", "bifilar,a,,,,,,yaw,,,800,2400,20.5,63,,", `sheet.csv:2:31: periods = 20.5 is not a whole number`},
		{"a time of nothing", "bifilar,a,,,,,,yaw,,,800,2400,,63,,", `sheet.csv:2:31: periods is empty beside a time`},
		{"two lengths", "bifilar,a,,,,,,yaw,,,800,2400,20,63,,\nbifilar,a,,,,,,,,,800,2300,20,63,,", `sheet.csv:3:23: length_mm differs from that in row 2`},
		{"one name for two runs", "bifilar,a,,,,,,yaw,,,800,2400,20,63,,\ncompound,a,,,430,,,roll,,,,,20,31,,", `sheet.csv:3:10: the run "a" is one of bifilar, in row 2`},
		{"a point in two places", "scale,,nose,300,,3000,,,,,,,,,,\nscale,,nose,310,,3000,,,,,,,,,,", `sheet.csv:3:13: x_mm of "nose" differs from that in row 2`},
		{"hanger without mass", "bifilar,a,,,,,,yaw,,,800,2400,20,63,,\nbifilar,a,,,,,,,,hanger,,,20,23,,", `sheet.csv:3:33: the hanger was swung and its mass is not stated`},
		{"two days", "scale,,nose,300,,3000,,,,,,,,,,12.3.2026\nscale,,main,900,,3000,,,,,,,,,,13.3.2026", `sheet.csv:3:32: the date is 2026-03-13 here and 2026-03-12 in row 2`},
	} {
		_, err := readSheet(t, heads+c.rows+"\n")
		require.ErrorContains(t, err, c.want, c.name)
	}
	_, err := readSheet(t, "what,point,x,reading_g\nscale,nose,300,3000\n")
	require.ErrorContains(t, err, `sheet.csv:1:12: "x" does not say its unit; write x_mm`)
	_, err = readSheet(t, "what,point,weight_g\nscale,nose,300\n")
	require.ErrorContains(t, err, `no column of this table is called "weight_g"`)
	_, err = readSheet(t, "\n")
	require.ErrorContains(t, err, "the table is empty")
}

func TestPartlyFilledSheets(t *testing.T) {
	const heads = "what,run,point,x_mm,z_mm,reading_g,tare_g,axis,angle_deg,load,spacing_mm,length_mm,periods,time_s,hanger_g\n"
	for _, c := range []struct{ name, rows, want string }{
		{"a reading to come", "scale,,nose,300,,3000,,,,,,,,,\nscale,,main,1090,,,,,,,,,,,", `run "level" (scale): reading_g of "main" is empty`},
		{"no station", "scale,,nose,,,3000,,,,,,,,,", `run "level" (scale): x_mm of "nose" is empty`},
		{"no timing", "bifilar,a,,,,,,yaw,,,800,2400,,,", `run "a" (bifilar): no timing of the model`},
		{"no spacing", "bifilar,a,,,,,,yaw,,,,2400,20,63,", `run "a" (bifilar): spacing_mm is empty`},
		{"no angle", "bifilar,a,,,,,,inclined,,,800,2400,20,63,", `run "a" (bifilar): angle_deg is empty`},
		{"hanger not swung", "bifilar,a,,,,,,yaw,,,800,2400,20,63,900", `run "a" (bifilar): the hanger has not been swung alone`},
		{"height of a wheel", "tilt,up,nose,300,,3000,,,20,,,,,,\n", `run "up" (tilt): z_mm of "nose" is empty`},
		{"angle of a tilt", "tilt,up,nose,300,-200,3000,,,,,,,,,\n", `run "up" (tilt): angle_deg is empty`},
	} {
		sheet, err := readSheet(t, heads+c.rows+"\n")
		require.NoError(t, err, c.name)
		require.NotEmpty(t, sheet.Missing, c.name)
		require.Contains(t, sheet.Missing[0], c.want, c.name)
		require.Empty(t, sheet.Session.Swings, c.name)
		require.Empty(t, sheet.Session.Attitudes, c.name)
	}
	hook, err := readSheet(t, heads+"tilt,hung,hook,700,300,,,,35,,,,,,\n")
	require.NoError(t, err)
	require.Len(t, hook.Session.Attitudes, 1, "a hook needs no reading")
}

func FuzzWeighingSheet(f *testing.F) {
	f.Add([]byte(BlankWeighingSheet()))
	f.Add([]byte("what;run;axis;periods;time_s;spacing_mm;length_mm;load;hanger_g\nbifilar;a;yaw;20;63,5;800;2400;;\nbifilar;a;;20;23;;;hanger;900\n"))
	f.Add([]byte("what,point,x_mm,reading_g\nscale,a,1,1\nscale,a,,2\ntilt,a,1,1\n"))
	f.Fuzz(func(t *testing.T, raw []byte) {
		if len(raw) > largestFuzz {
			return
		}
		sheet, err := ReadWeighingSheet(&Program{DateOrder: "year_first"}, "sheet.csv", raw)
		if err != nil {
			requirePositions(t, err, inMemory(nil, "sheet.csv", raw))
			return
		}
		r, err := weighing.Solve(sheet.Session)
		require.NoError(t, err, "what was read can be worked out, or says what it lacks")
		for _, n := range r.Numbers {
			require.False(t, math.IsNaN(n.Value))
		}
	})
}

func sampleWeighing() Weighing {
	return Weighing{Name: "day 3", Date: "2026-03-20", Mass: 15.123, MassSD: 0.012, CGX: 3.7612, CGXSD: 0.0048, CGZ: 0.0812, CGZSD: 0.012, CGZKnown: true,
		Ix: 1.412, IxSD: 0.031, Iy: 2.123, IySD: 0.022, Iz: 3.301, IzSD: 0.019, Ixz: -0.021, IxzSD: 0.009}
}

func TestAddWeighing(t *testing.T) {
	files := sandreed()
	files["weighings.csv"] = "weighing;date;mass_g;mass_sd_g;cg_x_in;cg_x_sd_in;cg_z_mm;cg_z_sd_mm;ix_kg_m2;ix_sd_kg_m2;iy_kg_m2;iy_sd_kg_m2;iz_kg_m2;iz_sd_kg_m2;ixz_kg_m2;ixz_sd_kg_m2;notes\r\n" +
		"w1;13.3.2026;15100;20;36,8;0,05;20;3;1,4;;2,1;;3,3;;0,02;;\r\n"
	dir := build(t, files)
	w := sampleWeighing()
	file, err := AddWeighing(dir, w, "by weigh")
	require.NoError(t, err)
	require.Equal(t, "weighings.csv", file)
	raw, err := os.ReadFile(filepath.Join(dir, file))
	require.NoError(t, err)
	require.Equal(t, files["weighings.csv"]+"day 3;2026-03-20;15123;12;37,02;0,047;20,3;3;1,412;0,031;2,123;0,022;3,301;0,019;-0,021;0,009;by weigh\r\n", string(raw))
	p, err := Load(dir)
	require.NoError(t, err)
	got := p.Weighings[1]
	require.InDelta(t, w.Mass, got.Mass, 1e-9)
	require.InDelta(t, w.CGX, got.CGX, 1e-3)
	require.InDelta(t, w.Ixz, got.Ixz, 1e-9)
	require.InDelta(t, w.IxzSD, got.IxzSD, 1e-9)
}

func TestAddWeighingToANewTable(t *testing.T) {
	files := sandreed()
	delete(files, "weighings.csv")
	files["flights.csv"] = strings.ReplaceAll(files["flights.csv"], ",w1,,,", ",,15.2,940,")
	dir := build(t, files)
	w := sampleWeighing()
	w.Ixz, w.IxzSD, w.CGZKnown, w.Iy = 0, 0, false, 0
	_, err := AddWeighing(dir, w, "")
	require.NoError(t, err)
	raw, err := os.ReadFile(filepath.Join(dir, "weighings.csv"))
	require.NoError(t, err)
	require.Equal(t, strings.Join(weighingHeads(), ",")+"\nday 3,2026-03-20,15.123,0.012,940.3,1.2,,,1.412,0.031,,,3.301,0.019,,,\n", string(raw))
	p, err := Load(dir)
	require.NoError(t, err)
	require.Len(t, p.Weighings, 1)
}

func TestAddWeighingRefuses(t *testing.T) {
	for _, c := range []struct {
		name, want string
		change     func(w *Weighing)
	}{
		{"a name twice", `weighings.csv holds a weighing "w1" already`, func(w *Weighing) { w.Name = " W1 " }},
		{"no name", "needs a name", func(w *Weighing) { w.Name = " " }},
		{"a formula", "a spreadsheet takes for a formula", func(w *Weighing) { w.Name = "=1+1" }},
		{"no date", "needs its date", func(w *Weighing) { w.Date = "" }},
		{"no CG", "needs mass and CG", func(w *Weighing) { w.CGX = math.NaN() }},
		{"off the aircraft", "the CG comes out at 9403 mm of the model, whose surfaces reach from", func(w *Weighing) { w.CGX *= 10 }},
		{"grams for kilograms", "a model to scale weighs 15 kg", func(w *Weighing) { w.Mass *= 1000 }},
		{"negative", "Iy comes out negative", func(w *Weighing) { w.Iy = -1 }},
	} {
		files := sandreed()
		files["weighings.csv"] = strings.Replace(files["weighings.csv"], "ixz_kg_m2,", "ixz_kg_m2,ixz_sd_kg_m2,ix_sd_kg_m2,iy_sd_kg_m2,iz_sd_kg_m2,", 1)
		files["weighings.csv"] = strings.Replace(files["weighings.csv"], ",0.02,\n", ",0.02,,,,,\n", 1)
		dir := build(t, files)
		w := sampleWeighing()
		c.change(&w)
		_, err := AddWeighing(dir, w, "")
		var refused *Refused
		require.True(t, errors.As(err, &refused), "%s: %v", c.name, err)
		require.ErrorContains(t, err, c.want, c.name)
		raw, err := os.ReadFile(filepath.Join(dir, "weighings.csv"))
		require.NoError(t, err)
		require.Equal(t, files["weighings.csv"], string(raw), c.name)
	}
	dir := build(t, sandreed())
	_, err := AddWeighing(dir, sampleWeighing(), "")
	require.ErrorContains(t, err, "weighings.csv:1:1: there is no column for what was measured: ix_sd_kg_m2, iy_sd_kg_m2, iz_sd_kg_m2")
	require.ErrorContains(t, err, "nothing was written")
	require.NoError(t, os.WriteFile(filepath.Join(dir, ".~lock.weighings.csv#"), nil, 0o644))
	_, err = AddWeighing(dir, sampleWeighing(), "")
	var open *InUse
	require.ErrorAs(t, err, &open)
}
