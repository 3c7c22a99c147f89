package report

import "wingproof/aero/similitude"

// Doubt is how well a full-size figure is known that a target follows from.
type Doubt struct {
	Quantity string
	Percent  float64 // one standard deviation
	Status   string  // estimated or weighed
}

// Scaling is what the scaling sheet shows besides the targets themselves.
type Scaling struct {
	Program           string
	Imitates          similitude.Loading
	CGXSD             *float64 // m, full size
	Sheet             similitude.Sheet
	Doubts            []Doubt
	Loadings          []similitude.Loading // those that fly, CG furthest forward first
	Weighing, Weighed string               // name and date; empty when there is none
	Ballast           *similitude.Proposal
	Notes             []string
}
