package report

import (
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/similitude"
)

// sampleScaling is the scaling sheet of the sample with a loading, an invented weighing and a ballast.
func sampleScaling(t *testing.T, c Content) Scaling {
	t.Helper()
	place := similitude.Place{X: 3.72, Z: 0.16}
	percent := func(x float64) float64 { return 100 * (x - 3.4) / 1.05 }
	sheet, err := similitude.NewSheet(0.25, similitude.FullSize{Mass: 960, Ix: 1800, Iy: 1500, CG: &place, WingArea: 11, MeanChord: 1.05,
		Speeds: []similitude.Speed{{Name: "cruise", True: 61.7}}}, 100, 1500,
		&similitude.Weighed{Mass: 16.1, MassSD: 0.05, Ix: 2.03, IxSD: 0.05, CG: &similitude.Place{X: 0.94, Z: 0.04}, XSD: 0.001})
	require.NoError(t, err)
	sd := 0.008
	forward := similitude.Place{X: 3.6, Z: 0.15}
	s := Scaling{Program: c.Program, Imitates: similitude.NewLoading(sheet.Ratios, "gross mass", 960, &place, percent), CGXSD: &sd, Sheet: sheet,
		Doubts:   []Doubt{{"mass", 1.1, "estimated"}},
		Loadings: []similitude.Loading{similitude.NewLoading(sheet.Ratios, "two aboard", 900, &forward, percent), similitude.NewLoading(sheet.Ratios, "light pilot", 700, &place, percent)},
		Weighing: "aft ballast", Weighed: "2026-03-12", Notes: []string{"a note"}}
	proposal, err := similitude.Propose(similitude.Ballasting{Now: similitude.Body{Mass: 16.1, CG: similitude.Place{X: 0.94, Z: 0.04}, Ix: 2.03},
		Target: similitude.Body{Mass: sheet.Rows[0].Target, CG: similitude.Place{X: 0.93, Z: 0.04}, Ix: sheet.Rows[1].Target}, Asked: similitude.Asked{Ix: true},
		Bays: []similitude.Bay{{Name: "nose", From: 0.1, To: 0.2, Z: 0.05, Most: 0.1}, {Name: "wing", From: 1.1, To: 1.1, Y: 0.3, Most: 0.8}}})
	require.NoError(t, err)
	s.Ballast = &proposal
	return s
}

// The sheet is read by people who have never met a formula: each of its answers stands there in words.
func TestScaleTableAnswersInWords(t *testing.T) {
	c := sample(t)
	text := printed(t, func(w io.Writer) error { return ScaleTable(w, sampleScaling(t, c), 110) })
	requireWidth(t, text, 110)
	flat := strings.Join(strings.Fields(text), " ")
	for _, want := range []string{
		"the model imitates: gross mass, CG midway between the ends of the loadings that fly",
		"weighed: aft ballast",
		"CG aft of datum", "930.0 mm", "+10.0 ± 2.0 mm",
		"the static margin is 3.8 % of the chord smaller",
		"smaller than its 95 %, so the weighing cannot tell it from none",
		"the targets are no better than the full-size figures, 95 %: mass ± 2.2 % (estimated), CG ± 3.9 mm on the model",
		"CGs that the loadings ask of the model: 900.0 to 930.0 mm",
		"2.00 times as fast", "a period of 10 s at full size takes 5.00 s", "20 °/s of roll at full size are 40.0 °/s",
		"1 N on the model stands for", "not to scale: the Reynolds number",
		"0.100 kg (full)", "note: a note", "CAUTION: fix ballast",
	} {
		require.Contains(t, flat, want)
	}
}
