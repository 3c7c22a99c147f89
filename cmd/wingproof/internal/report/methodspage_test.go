package report

import (
	"html"
	"html/template"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestFormulaGoesUpAndDown(t *testing.T) {
	for in, want := range map[string]string{
		"C_L":            "C<sub>L</sub>",
		"x_{NP} = −b_0":  "x<sub>NP</sub> = −b<sub>0</sub>",
		"R^T·v":          "R<sup>T</sup>·v",
		"e^{−σt}":        "e<sup>−σt</sup>",
		"a < b_{<i>}":    "a &lt; b<sub>&lt;i&gt;</sub>",
		"ends with _":    "ends with _",
		"unclosed x_{ab": "unclosed x<sub>ab</sub>",
		"":               "",
	} {
		require.Equal(t, template.HTML(want), formula(in))
	}
}

// Every equation explains signs with a unit or as a pure number, and every section says where it comes from.
func TestMethodsAreExplainedAndSourced(t *testing.T) {
	ids := map[string]bool{}
	for _, s := range methodSections() {
		require.False(t, ids[s.ID], s.ID)
		ids[s.ID] = true
		require.NotEmpty(t, s.Lead, s.ID)
		require.NotEmpty(t, s.Sources, s.ID)
		for _, e := range s.Equations {
			require.NotEmpty(t, e.Lines, s.ID)
			require.NotEmpty(t, e.Symbols, s.ID)
			for _, sign := range e.Symbols {
				require.NotEmpty(t, sign.Means, "%s: %s", s.ID, sign.Sign)
			}
		}
	}
	for _, want := range []string{"path", "points", "neutral", "lift", "drag", "slips", "identification", "motions", "intervals", "lattice", "stallorder", "similarity", "belief", "fullsize", "draws", "falsefreeze"} {
		require.True(t, ids[want], want)
	}
}

func TestMethodsPageHoldsErrorsAndWhatIsNotJudged(t *testing.T) {
	page, err := MethodsPage(sample(t))
	require.NoError(t, err)
	elements(t, closed(string(page)))
	text := html.UnescapeString(string(page))
	for _, want := range []string{"x<sub>NP</sub> = −b<sub>0</sub> / b<sub>1</sub>", "Limit aft margin", "common practice, no source", "deep stall and spin", "is safe to fly", "of 3,497 parts"} {
		requireSays(t, text, want)
	}
	require.NotRegexp(t, regexp.MustCompile(`[A-Za-zα-ω]_[{A-Za-z]`), regexp.MustCompile(`(?s)<style>.*?</style>|<[^>]*>`).ReplaceAllString(plainOf(text), ""), "an underscore is left in the text")
}

// Each word of the trade that the board shows is explained.
func TestGlossaryKnowsTheWordsOfTheBoard(t *testing.T) {
	var all strings.Builder
	for _, g := range glossary() {
		require.NotEmpty(t, g.Terms, g.Head)
		for _, w := range g.Terms {
			all.WriteString(strings.ToLower(w.Word + " " + w.Means + "\n"))
		}
	}
	for _, word := range []string{"stop and ask", "start", "carry on", "wait", "done", "plug", "mould", "laid up", "fitted", "drawn", "out", "good", "unproven", "sign-off", "draft", "void",
		"static margin", "neutral point", "cg", "mean aerodynamic chord", "trimmed", "lift coefficient", "directional stiffness", "dihedral effect", "span efficiency", "stall order", "trim room", "rotation",
		"tip-back", "nose wheel share", "overturn", "fuel travel", "short period", "phugoid", "dutch roll", "spiral", "roll time constant", "damping ratio", "level 1", "bending over allowable", "proof load",
		"doublet", "multistep", "test point", "finding", "glide", "sideslip", "deceleration", "airspeed scale", "reynolds number", "measured", "predicted", "anchored", "not determined", "weak", "forecast", "flutter", "contaminated", "datum", "load factor"} {
		require.Contains(t, all.String(), word)
	}
	require.NotContains(t, all.String(), "is safe to fly")
}
