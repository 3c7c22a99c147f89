package plots

// stripDots is the fineness of the picture of a strip chart: crisp on paper, and small enough to stand in a page itself.
const stripDots = 80 // an inch; a unit is 1/72 inch

// StripPicture is StripChart as a picture alone: its wide layout as PNG, in few colours, the inks and their mixtures with the paper. alt
// says in words what it shows.
func StripPicture(d StripChartData) (picture []byte, alt string, err error) {
	if d, err = d.ready(); err != nil {
		return nil, "", err
	}
	picture, err = paintOn(d.layout(), wideWidth).inFewInks(stripDots)
	return picture, clean(d.alt()), err
}
