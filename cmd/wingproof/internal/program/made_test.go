package program

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// withMade is the parts table of the sound folder with a column of how each part is made.
func withMade(made, stage string) string {
	return "part,side,made,stage,built_to,hours_spent,hours_left,shaped_by,must_pass\n" +
		"cable duct,," + made + "," + stage + ",,0,18,none,none\n" +
		"main spar,both,,laid_up,,220,40,none,aft margin\n"
}

func TestHowAPartIsMade(t *testing.T) {
	for _, c := range []struct{ made, stage, want string }{
		{"moulded", "plug", ""},
		{"Built", "ready", ""},
		{"bought", "drawn", ""},
		{"", "laid_up", ""},
		{"built", "‸plug", `a part that is built has no stage plug; write drawn, ready or fitted, or write moulded under made (row 2, column D "stage")`},
		{"bought", "‸laid_up", `a part that is bought has no stage laid_up; write drawn, ready or fitted, or write moulded under made (row 2, column D "stage")`},
		{"", "‸ready", `a part out of a mould has no stage ready; write laid_up, or write built or bought under made (row 2, column D "stage")`},
		{"‸wooden", "ready", `way of making "wooden" is not known; write "moulded", "built" or "bought" (row 2, column C "made")`},
	} {
		files := sandreed()
		text := withMade(c.made, c.stage)
		files["parts.csv"] = strings.Replace(text, pointer, "", 1)
		p, err := Load(build(t, files))
		if c.want == "" {
			require.NoError(t, err, "%s, %s", c.made, c.stage)
			require.Equal(t, strings.ToLower(c.made), p.Parts[0].Made)
			require.Empty(t, p.Parts[1].Made)
			continue
		}
		require.EqualError(t, err, place(t, "parts.csv", text)+c.want)
	}
}
