package flightlog

import (
	"bytes"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestZeroBytes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := rapid.SliceOfN(rapid.SampledFrom([]byte{0, 0, 1, 0x7f, 0x80, 0x81, 0xff}), 8, 8).Draw(t, "bytes")
		found := zeroBytes(word(b, 0))
		for i, c := range b {
			want := uint64(0)
			if c == 0 {
				want = 0x80
			}
			require.Equal(t, want, found>>(8*i)&0xff)
		}
	})
}

func TestCellEnds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		line := rapid.SliceOfN(rapid.SampledFrom([]byte(",,1-\x2b\xac\xff\x00")), 0, 300).Draw(t, "line")
		var want []uint16
		for i, c := range append(line, ',') {
			if c == ',' {
				want = append(want, uint16(i))
			}
		}
		row := append(append([]byte{}, line...), bytes.Repeat([]byte(","), linePad)...)
		for _, room := range []int{0, 15, 100, 316} {
			ends := make([]uint16, room)
			if cells := cellEnds(row, len(line), everyByte*uint64(','), ends); cells > 0 {
				require.Equal(t, want, ends[:cells])
			} else {
				require.Greater(t, len(want)+batch, room)
			}
		}
	})
}

func TestDigitsAtOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.SliceOfN(rapid.SampledFrom([]byte("0123456789012345678901234567890123456789/:.\x00\x80\xb5\xff")), 8, 8).Draw(t, "text")
		n := rapid.IntRange(0, 8).Draw(t, "digits")
		want, err := strconv.ParseUint("0"+string(text[:n]), 10, 64)
		got, ok := digitsAtOnce(word(text, 0), uint(n))
		require.Equal(t, err == nil, ok)
		if ok {
			require.Equal(t, want, got)
		}
	})
}
