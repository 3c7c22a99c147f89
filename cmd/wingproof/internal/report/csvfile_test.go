package report

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestCSVFileKeepsSpreadsheetsFromReckoning holds cells that a spreadsheet takes for formulas, and numbers that it should take for
// numbers.
func TestCSVFileKeepsSpreadsheetsFromReckoning(t *testing.T) {
	body, err := CSVFile([]string{"flight", "x_m", "notes"}, [][]string{
		{"=1+1", "-0.25", "@SUM(A1)"}, {"+49 30", "1e-05", "-wind, \"gusts\""}, {"-", "", "\t=1"}, {"F01", "-3", "plain"}, {"＝1", "+2", "two\nlines"}})
	require.NoError(t, err)
	text := string(body)
	require.Equal(t, "flight,x_m,notes\r\n'=1+1,-0.25,'@SUM(A1)\r\n'+49 30,1e-05,\"'-wind, \"\"gusts\"\"\"\r\n'-,,'\t=1\r\nF01,-3,plain\r\n'＝1,+2,\"two\r\nlines\"\r\n", text)
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 6)
	_, err = CSVFile([]string{"a"}, [][]string{{"1", "2"}})
	require.ErrorContains(t, err, "row 1 of a table has 2 cells where the heads have 1")
}

// TestFactsJSONLeavesNothingOut holds every kind of nothing.
func TestFactsJSONLeavesNothingOut(t *testing.T) {
	type inner struct {
		Here string `json:"here,omitempty"`
	}
	type facts struct {
		inner
		None   *float64           `json:"none"`
		List   []string           `json:"list"`
		Table  map[string]float64 `json:"table"`
		Number float64            `json:"number"`
		Endles float64            `json:"endless"`
		Any    any                `json:"any"`
		Left   string             `json:"-"`
		hidden int
	}
	body, err := FactsJSON(facts{Number: 0.1 + 0.2, Endles: math.Inf(1), Table: map[string]float64{"b": -1e-30, "a": 1234567891}, hidden: 1, Left: "x"})
	require.NoError(t, err)
	require.Equal(t, `{"none":null,"list":[],"table":{"a":1.234568e+09,"b":-1e-30},"number":0.3,"endless":null,"any":null}`+"\n", string(body))
	type outer struct {
		Inner inner  `json:"inner"`
		Text  string `json:"text"`
	}
	body, err = FactsJSON(outer{Text: "a<b & \"ü\"\n"})
	require.NoError(t, err)
	require.Equal(t, `{"inner":{"here":""},"text":"a<b & \"ü\"\n"}`+"\n", string(body))
	require.True(t, json.Valid(body))
	_, err = FactsJSON(func() {})
	require.ErrorContains(t, err, "is no plain data")
}
