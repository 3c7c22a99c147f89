package plots_test

import (
	"bytes"
	"image"
	"image/png"
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/plots"
)

// The picture is the wide layout twice as large, with its inks, small enough to be sent, and the same each time.
func TestEveryFigureHasAPicture(t *testing.T) {
	for _, k := range kinds() {
		t.Run(k.name, func(t *testing.T) {
			f, err := k.draw()
			require.NoError(t, err)
			raw, err := f.Picture()
			require.NoError(t, err)
			again, err := f.Picture()
			require.NoError(t, err)
			require.True(t, bytes.Equal(raw, again))
			require.Less(t, len(raw), 100_000)
			picture, err := png.Decode(bytes.NewReader(raw))
			require.NoError(t, err)
			d := read(t, f.SVG)
			require.InDelta(t, 5*d.width/3, picture.Bounds().Dx(), 1)
			require.InDelta(t, 5*d.height/3, picture.Bounds().Dy(), 1)
			requireInks(t, picture)
		})
	}
}

// requireInks checks that letters stand in the upper left corner, that most is paper, and that paper is white.
func requireInks(t *testing.T, picture image.Image) {
	dark, white, heading := 0, 0, 0
	b := picture.Bounds()
	for y := range b.Dy() {
		for x := range b.Dx() {
			switch r, g, blue, _ := picture.At(x, y).RGBA(); {
			case r == 0xffff && g == 0xffff && blue == 0xffff:
				white++
			case r < 0x4000 && g < 0x4000 && blue < 0x4000:
				dark++
				if x < 300 && y < 50 {
					heading++
				}
			}
		}
	}
	require.Greater(t, dark, 5000)
	require.Greater(t, heading, 500, "the title")
	require.Greater(t, white, b.Dx()*b.Dy()/2)
}

func TestOnlyDrawnFiguresHaveAPicture(t *testing.T) {
	_, err := plots.Figure{Title: "made by hand"}.Picture()
	require.ErrorContains(t, err, "no picture")
}
