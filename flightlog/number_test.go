package flightlog

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// fastRoads are the ways to read a number that may refuse one. Whatever stands behind the cell is no part of it.
var fastRoads = []func([]byte, byte) (float64, bool){
	parseShort,
	func(cell []byte, decimal byte) (float64, bool) {
		if len(cell) == 0 || len(cell) > wordSize {
			return 0, false
		}
		row := append(append([]byte{}, cell...), ",1.5,2;.5"...)
		return parseWord(word(row, 0), uint(len(cell)), everyByte*uint64(decimal))
	},
	func(cell []byte, decimal byte) (float64, bool) {
		if len(cell) <= wordSize {
			return 0, false
		}
		row := append(append([]byte("7;"), cell...), "0.,5432109876543210"...)
		return parseWords(row, 2, 2+len(cell), everyByte*uint64(decimal))
	},
}

// Each fast road takes the numbers that it is made for.
func TestNumberFastRoads(t *testing.T) {
	for text, want := range map[string][3]bool{
		"0": {true, true, false}, "-12.3456": {true, true, false}, "12345678": {true, true, false}, ".5": {true, true, false}, "5.": {true, true, false}, "+5": {true, false, false},
		"-12.34567": {true, false, true}, "1234567.12345678": {true, false, true}, "-.12345678": {true, false, true}, "1234567.": {true, true, false}, "-1234567.": {true, false, true},
		"9007199254740992": {true, false, false}, "9007199254740993": {false, false, false}, "1234567.123456789": {true, false, false}, "12345678.5": {true, false, false},
		"0.0000000000000000001": {false, false, false}, "1e5": {}, "": {}, "-": {}, ".": {}, "-.": {}, "1.2.3": {}, "1-": {}, "123456789-1.5": {}, "1.234567.8": {}, "/1": {}, ":1": {},
	} {
		for i, fast := range fastRoads {
			_, ok := fast([]byte(text), '.')
			require.Equal(t, want[i], ok, "%q on road %d", text, i)
		}
	}
}

// The fast and the slow road give the same bits, in both decimal marks.
func TestNumberRoadsAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[+-]?[0-9]{0,18}(\.[0-9]{0,18})?([eE][+-]?[0-9]{1,3})?`).Draw(t, "text")
		for _, decimal := range []byte{'.', ','} {
			written := []byte(strings.Replace(text, ".", string(decimal), 1))
			slow, slowOK := parseLong(written, decimal)
			for _, fast := range fastRoads {
				if v, ok := fast(written, decimal); ok {
					require.True(t, slowOK)
					require.Equal(t, math.Float64bits(slow), math.Float64bits(v), "%q", written)
				}
			}
			got, ok := parseNumber(written, decimal)
			require.Equal(t, slowOK, ok)
			require.Equal(t, slow, got)
		}
	})
}

func TestNumberRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := rapid.Float64().Draw(t, "number")
		got, ok := parseNumber([]byte(strconv.FormatFloat(want, 'g', -1, 64)), '.')
		require.True(t, ok)
		require.Equal(t, want, got)
	})
}

func TestNumberRefuses(t *testing.T) {
	for _, text := range []string{"", "-", ".", "+.", "1.2.3", "1e", "0x10", "1_000", "inf", "NaN", "1e999", "1 2", "12:30", "1,5", "--1", "٣"} {
		_, ok := parseNumber([]byte(text), '.')
		require.False(t, ok, "%q", text)
	}
}

func TestInstant(t *testing.T) {
	const day2026 = 1773446400 // 2026-03-14T00:00:00Z, from memory of the calendar: 20526 days
	require.Equal(t, 20526*86400, day2026)
	for text, want := range map[string]float64{
		"2026-03-14T10:15:30Z":          day2026 + 36930,
		"2026-03-14 10:15:30.25":        day2026 + 36930.25,
		"2026-03-14T10:15:30,5+01:00":   day2026 + 33330.5,
		"20260314T101530.125-0230":      day2026 + 36930.125 + 9000,
		"10:15:30.5":                    36930.5,
		"2026-03-14T10:15:30.123456789": day2026 + 36930.123456789,
	} {
		got, ok := parseInstant([]byte(text))
		require.True(t, ok, text)
		require.InDelta(t, want, float64(got)/1e9, 1e-6, text)
	}
	for _, text := range []string{"", "2026-03-14", "10:15", "2026-13-01T00:00:00", "2026-03-14T25:00:00", "1234567", "0.0200", "12.50", "10:15:30x", "10:15:30.", "2026-03-14T10:15:30+1"} {
		_, ok := parseInstant([]byte(text))
		require.False(t, ok, text)
	}
}
