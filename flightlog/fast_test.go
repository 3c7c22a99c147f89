package flightlog

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The fast road takes the usual lines of every dialect, and leaves the odd ones alone.
func TestFastRowTakes(t *testing.T) {
	m := fieldBox()
	iso := fieldBox()
	iso.Time.Unit = "iso"
	for _, c := range []struct {
		heads, line string
		m           Map
		takes       bool
	}{
		{"time,wy,speed", "10.00,1.5,36", m, true},
		{"time,wy,speed", "10.00,,", m, true},
		{"time;wy;speed", "10,00;1,5;36", m, true},
		{"time\twy\tspeed", "10\t1.5\t36", m, true},
		{"rate\ttime\twy\tspeed", "\t1.5\t36\t36", m, true},
		{"time,wy,speed,,", "10.00,1.5,36,,", m, true},
		{"time,wy,speed", "10.00,1.5,36, ,", m, true},
		{"note,speed,wy,time", "calm,,ERR,1700000000000000", m, true},
		{"time,wy,speed", "2026-03-14T10:15:30.25Z,1.5,36", iso, true},
		{"time,wy,speed", "10.00,-1234567.12345678,nan", m, true},
		{"time,wy,speed", "10.00, 1.5 ,36", m, true},
		{"time,wy,speed", " 10.00,1.5,36", m, false},
		{"time,wy,speed", "x,1.5,36", m, false},
		{"time,wy,speed", ",,", m, false},
		{"time,wy,speed", "10.00,1.5", m, false},
		{"time,wy,speed", "10.00,1.5,36,4", m, false},
		{"time,wy,speed", "# 10.00,1.5,36", m, false},
		{"time,wy,speed", "", m, false},
		{"time,wy,speed", "10.00,1.5,36" + strings.Repeat(",", mostEnds), m, false},
		{"time,wy,speed", "10.00,1.5,36" + strings.Repeat(" ", 1<<16), m, false},
	} {
		separator := c.heads[4:5]
		cell := map[string]string{",": "1.5", "\t": "1.5", ";": "1,5"}[separator]
		row := strings.Repeat(cell+separator, strings.Count(c.heads, separator)) + cell
		text, err := openText(strings.NewReader(c.heads+"\n"+row+"\n"), "a.csv")
		require.NoError(t, err)
		l, err := findLayout(text, "a.csv", c.m)
		require.NoError(t, err)
		p := parser{layout: l, block: newBlock(len(l.plans))}
		require.Equal(t, c.takes, p.fastRow(append([]byte(c.line), make([]byte, linePad)...)[:len(c.line)], 1), "%q", c.line)
		require.Equal(t, c.takes, p.block.rows() == 1)
	}
}
