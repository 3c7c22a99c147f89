package plots

import (
	"bytes"
	"fmt"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
)

// rasterDots is the fineness of pictures: two dots for each unit of a layout, so that thin lines stay crisp on fine screens
// and on paper.
const rasterDots = 144 // an inch; a unit is 1/72 inch

// raster renders a layout as a PNG picture.
func raster(lay layout, width vg.Length) ([]byte, error) {
	height, paint := lay(width)
	height = vg.Length(math.Ceil(float64(height)))
	canvas := vgimg.NewWith(vgimg.UseWH(width, height), vgimg.UseDPI(rasterDots), vgimg.UseBackgroundColor(paper))
	paint(draw.New(canvas))
	var out bytes.Buffer
	if _, err := (vgimg.PngCanvas{Canvas: canvas}).WriteTo(&out); err != nil {
		return nil, fmt.Errorf("plots: write a picture: %w", err)
	}
	return out.Bytes(), nil
}
