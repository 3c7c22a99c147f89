package program

import "math"

// balance is where things stand in a drafted aircraft, full-size m: a first guess that lets the loadings
// balance ahead of the neutral point and the wheels carry them, until the figures are replaced.
type balance struct {
	emptyX, emptyZ        float64
	noseX, mainX, groundZ float64
	loads                 []draftLoad
	seatX, tankX, peopleZ float64
}

// draftLoad is a drafted loading: kilograms of people and of fuel.
type draftLoad struct {
	name         string
	people, fuel float64
}

// balance guesses where the empty aircraft must balance so that the aftmost flying loading has a static
// margin of about 13 %, and where the wheels then stand: tip-back angle near 18°, a fifth of the weight or
// less on the nose wheel. The shares are common practice, no source.
func (o NewOptions) balance() balance {
	b := balance{
		emptyZ: 0.012 * o.Span, groundZ: -0.13 * o.Span, peopleZ: 0.02 * o.Span,
		seatX: o.WingX - 0.1*o.Span, tankX: o.WingX - 0.03*o.Span,
	}
	b.people(o.Mass - o.EmptyMass)
	neutral, chord := o.neutralPoint()
	aftmost := neutral - 0.13*chord
	b.emptyX = math.Inf(1)
	for _, l := range b.loads {
		total := o.EmptyMass + l.people + l.fuel
		b.emptyX = math.Min(b.emptyX, (total*aftmost-l.people*b.seatX-l.fuel*b.tankX)/o.EmptyMass)
	}
	b.mainX = b.emptyX + math.Tan(18*math.Pi/180)*(b.emptyZ-b.groundZ)
	foremost := b.emptyX
	for _, l := range b.loads {
		total := o.EmptyMass + l.people + l.fuel
		foremost = math.Min(foremost, (o.EmptyMass*b.emptyX+l.people*b.seatX+l.fuel*b.tankX)/total)
	}
	b.noseX = b.mainX - (b.mainX-foremost)/0.2
	return b
}

// people fills the loadings: two people where what is carried leaves room for them, else one.
func (b *balance) people(load float64) {
	if load >= 230 {
		b.loads = []draftLoad{{"two aboard, full tanks", 0.45 * load, 0.55 * load}, {"one aboard, little fuel", 0.2 * load, 0.06 * load}}
		return
	}
	heavy := math.Min(90, 0.85*load)
	light := math.Min(65, heavy)
	b.loads = []draftLoad{{"pilot aboard, full tanks", heavy, load - heavy}, {"light pilot, little fuel", light, 0.2 * (load - heavy)}}
}

// neutralPoint guesses neutral point and mean chord by quarter chords weighted with area and lift slope
// 2πA/(2+√(4+A²)): enough for a place holder, not for judging anything.
func (o NewOptions) neutralPoint() (x, chord float64) {
	slope := func(aspect float64) float64 { return 2 * math.Pi * aspect / (2 + math.Sqrt(4+aspect*aspect)) }
	outer := trapezoid(o.RootChord, o.TipChord, o.Span/2-o.StrakeSpan/2, o.WingX, o.WingX+(o.Span/2-o.StrakeSpan/2)*math.Tan(o.Sweep))
	area, moment, square := outer.area, outer.moment, outer.square
	if o.StrakeSpan > 0 {
		inner := trapezoid(o.StrakeChord, o.RootChord, o.StrakeSpan/2, o.WingX+o.RootChord-o.StrakeChord, o.WingX)
		area, moment, square = area+inner.area, moment+inner.moment, square+inner.square
	}
	span := o.ForeplaneSpans[middle(o.ForeplaneSpans)]
	foreArea := span * o.ForeplaneChord
	wing := slope(o.Span * o.Span / area)
	fore := slope(span / o.ForeplaneChord)
	foreX := o.ForeplaneX + 0.3*o.ForeplaneChord
	return (wing*moment + fore*foreArea*foreX) / (wing*area + fore*foreArea), square / area
}

// panel holds both halves of a trapezoid: area, first moment of the quarter chord about the datum, and the
// integral of the squared chord.
type panel struct{ area, moment, square float64 }

func trapezoid(inner, outer, width, innerX, outerX float64) panel {
	mean := (inner + outer) / 2
	// Simpson's rule over the width is exact for products of linear functions.
	at := func(share float64) (chord, quarter float64) {
		chord = inner + share*(outer-inner)
		return chord, innerX + share*(outerX-innerX) + chord/4
	}
	var moment, square float64
	for i, weight := range []float64{1, 4, 1} {
		chord, quarter := at(float64(i) / 2)
		moment += weight / 6 * chord * quarter
		square += weight / 6 * chord * chord
	}
	return panel{area: 2 * width * mean, moment: 2 * width * moment, square: 2 * width * square}
}
