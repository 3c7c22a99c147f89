package program

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A list of limits that is cut at the separator of the table must not lose its tail without a word.
func TestAListOfLimitsCutAtASemicolonIsSaid(t *testing.T) {
	files := sandreed()
	rows := []string{
		"part;side;stage;built_to;hours_spent;hours_left;shaped_by;must_pass;responsible;needed_by;notes",
		"nose bowl;;drawn;;0;50;none;aft margin; tip-back;;",
		"elevator;;drawn;;0;60;foreplane;aft margin;Signoff:flutter_and_mass_balance;;",
		`tail cone;;drawn;;0;10;none;"aft margin; tip-back";the bench;;`,
		"spinner;;drawn;;0;10;none;aft margin, tip-back;;;",
	}
	files["parts.csv"] = strings.Join(rows, "\n") + "\n"
	_, err := Load(build(t, files))
	require.ErrorContains(t, err, `parts.csv:2:41: "tip-back" belongs into must_pass, which was cut at a semicolon; put commas between the limits, or the whole list between quotation marks`)
	require.ErrorContains(t, err, `parts.csv:3:44: "Signoff:flutter_and_mass_balance" belongs into must_pass`)
	require.NotContains(t, err.Error(), "parts.csv:4:")
	require.NotContains(t, err.Error(), "parts.csv:5:")
}
