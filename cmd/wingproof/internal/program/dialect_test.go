package program

import (
	"encoding/binary"
	"regexp"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/require"
	"golang.org/x/text/encoding/charmap"
)

// retell saves a comma-separated table as another spreadsheet would.
func retell(table, separator, end string, decimalComma bool) string {
	var out strings.Builder
	for _, line := range strings.Split(strings.TrimSuffix(table, "\n"), "\n") {
		cells := strings.Split(line, ",")
		for i, c := range cells {
			if decimalComma && regexp.MustCompile(`^-?\d+\.\d+$`).MatchString(c) {
				c = strings.Replace(c, ".", ",", 1)
			}
			if strings.Contains(c, separator) && len(separator) == 1 {
				c = `"` + c + `"`
			}
			cells[i] = c
		}
		out.WriteString(strings.Join(cells, separator) + end)
	}
	return out.String()
}

func wide(text string, order binary.AppendByteOrder) string {
	var out []byte
	for _, u := range utf16.Encode([]rune(text)) {
		out = order.AppendUint16(out, u)
	}
	return string(out)
}

// Every way in which a spreadsheet saves the tables gives the same program.
func TestEveryDialectGivesTheSameProgram(t *testing.T) {
	plain := sandreed()
	change(t, plain, "parts.csv", "nose bowl", "nose bowl 45° – Çelik")
	want, err := Load(build(t, plain))
	require.NoError(t, err)
	isoToDots := regexp.MustCompile(`(\d{4})-(\d\d)-(\d\d)`)
	for _, c := range []struct {
		name  string
		table func(string) string
	}{
		{"semicolon, decimal comma, CRLF", func(s string) string { return retell(s, ";", "\r\n", true) }},
		{"tab, decimal comma", func(s string) string { return retell(s, "\t", "\n", true) }},
		{"tab, decimal point", func(s string) string { return retell(s, "\t", "\n", false) }},
		{"byte-order mark", func(s string) string { return "\xef\xbb\xbf" + s }},
		{"UTF-16, little end first", func(s string) string { return "\xff\xfe" + wide(s, binary.LittleEndian) }},
		{"UTF-16, big end first", func(s string) string { return "\xfe\xff" + wide(s, binary.BigEndian) }},
		{"UTF-16 without a mark", func(s string) string { return wide(s, binary.LittleEndian) }},
		{"Windows-1252", func(s string) string {
			narrow, err := charmap.Windows1252.NewEncoder().String(s)
			require.NoError(t, err)
			return narrow
		}},
		{"line ends of old", func(s string) string { return strings.ReplaceAll(s, "\n", "\r") }},
		{"separator line", func(s string) string { return "sep=;\r\n" + retell(s, ";", "\r\n", true) }},
		{"empty rows and columns behind", func(s string) string { return retell(s, ",", ",,,\n", false) + ",,,,,,\n\n,,\n" }},
		{"quoted cells", func(s string) string {
			return `"` + retell(strings.TrimSuffix(s, "\n"), `","`, "\"\n\"", false) + "\"\n"
		}},
		{"spaces around", func(s string) string { return retell(s, " , ", " \n", false) }},
		{"heads in capitals", func(s string) string {
			head, rest, _ := strings.Cut(s, "\n")
			return strings.ReplaceAll(strings.ToUpper(head), "_", " ") + "\n" + rest
		}},
		{"dates with points", func(s string) string { return isoToDots.ReplaceAllString(s, "$3.$2.$1") }},
		{"dates with slashes, day first", func(s string) string { return isoToDots.ReplaceAllString(s, "$3/$2/$1") }},
		{"dates with the hour", func(s string) string { return isoToDots.ReplaceAllString(s, "$1-$2-$3 00:00:00") }},
	} {
		t.Run(c.name, func(t *testing.T) {
			files := sandreed()
			change(t, files, "parts.csv", "nose bowl", "nose bowl 45° – Çelik")
			for name, text := range files {
				if strings.HasSuffix(name, ".csv") && !strings.Contains(text, "#") {
					files[name] = c.table(text)
				}
			}
			got, err := Load(build(t, files))
			require.NoError(t, err)
			got.Dir = want.Dir
			require.Equal(t, want, got)
		})
	}
}

func TestMonthFirst(t *testing.T) {
	files := sandreed()
	change(t, files, "program.toml", `"day_first"`, `"month_first"`)
	change(t, files, "marks.csv", "f01,", "f01,")
	change(t, files, "flights.csv", "2026-03-14", "3/4/2026")
	p, err := Load(build(t, files))
	require.NoError(t, err)
	require.Equal(t, "2026-03-04", p.Flights[0].Date)

	change(t, files, "program.toml", `date_order = "month_first"`, "")
	_, err = Load(build(t, files))
	require.ErrorContains(t, err, `"3/4/2026" is not a date; write 2026-03-14, or say in program.toml whether the day or the month stands first`)
}

// 1.250 among decimal commas may be 1250 or 1,25: nobody guesses.
func TestThousandsAreNotGuessed(t *testing.T) {
	files := sandreed()
	files["shape/spar-allowable.csv"] = "y_m;bending_nm\n0;31.000\n2;14.000\n4,2;600\n"
	_, err := Load(build(t, files))
	require.ErrorContains(t, err, `shape/spar-allowable.csv:2:3: bending_nm "31.000" is not a number; the other numbers of this table have decimal commas, so that this may mean thousands; write 31000 or 31,000 (row 2, column B "bending_nm")`)
}

func TestSplitList(t *testing.T) {
	isName := func(s string) bool { return s == "left and right" }
	for text, want := range map[string][]string{
		"a;b , c+d and e":          {"a", "b", "c", "d", "e"},
		"aft margin, and tip-back": {"aft margin", "tip-back"},
		"left and right; sand":     {"left and right", "sand"},
		" ; ":                      nil,
	} {
		require.Equal(t, want, splitList(text, isName), text)
	}
}

// A name of the user's own may hold what separates the names of a list.
func TestSplitListKeepsNamesThatHoldASeparator(t *testing.T) {
	names := []string{"winglet=0,75 m", "tip twist=+2°", "span=4.2 m; long", "span=4.2 m"}
	isName := func(s string) bool { _, ok := known(s, names); return ok }
	for text, want := range map[string][]string{
		"winglet=0,75 m":                       {"winglet=0,75 m"},
		"tip twist=+2°; winglet=0,75 m":        {"tip twist=+2°", "winglet=0,75 m"},
		"winglet=0,75 m,tip twist=+2°":         {"winglet=0,75 m", "tip twist=+2°"},
		"span=4.2 m; long":                     {"span=4.2 m; long"},
		"span=4.2 m; tip twist=+2°":            {"span=4.2 m", "tip twist=+2°"},
		"winglet=0,7 m; wrong":                 {"winglet=0", "7 m", "wrong"},
		"span=4.2 m and winglet=0,75 m":        {"span=4.2 m", "winglet=0", "75 m"},
		"WINGLET=0,75 M, Tip Twist=+2°, other": {"WINGLET=0,75 M", "Tip Twist=+2°", "other"},
	} {
		require.Equal(t, want, splitList(text, isName), text)
	}
}

func TestColumnLetters(t *testing.T) {
	for index, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 51: "AZ", 52: "BA", 701: "ZZ", 702: "AAA"} {
		require.Equal(t, want, letters(index))
	}
}

// A cell with a line break inside is one row; the rows behind it keep the numbers that a spreadsheet shows.
func TestRowNumbersBehindALineBreak(t *testing.T) {
	files := sandreed()
	change(t, files, "flights.csv", "yes,,calm", "yes,,\"calm,\nthen gusts\"")
	change(t, files, "flights.csv", "field-box,small", "field-box,tiny")
	_, err := Load(build(t, files))
	require.EqualError(t, err, `flights.csv:4:39: level "tiny" is not known; write "mid", "small" or "tall" (row 3, column E "winglet")`)
}
