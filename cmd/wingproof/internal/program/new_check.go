package program

import (
	"errors"
	"fmt"
	"math"
)

// check reports every figure that makes no aircraft.
func (o NewOptions) check() error {
	var wrong []error
	say := func(bad bool, text string, parts ...any) {
		if bad {
			wrong = append(wrong, fmt.Errorf(text, parts...))
		}
	}
	say(!(o.LengthRatio > 0 && o.LengthRatio <= 1), "length ratio %g: give model over full size, more than 0 and at most 1, such as 0.25 or 1:4", o.LengthRatio)
	for _, n := range []struct {
		name  string
		value float64
	}{{"span", o.Span}, {"root chord", o.RootChord}, {"tip chord", o.TipChord}, {"foreplane chord", o.ForeplaneChord},
		{"mass", o.Mass}, {"empty mass", o.EmptyMass}, {"cruising speed", o.CruiseSpeed}} {
		say(!(n.value > 0) || math.IsInf(n.value, 0), "%s %g: give more than 0", n.name, n.value)
	}
	lists := [][]float64{o.ForeplaneSpans, o.WingletHeights}
	if o.noWinglets() {
		lists = lists[:1]
	}
	for _, list := range lists {
		for i, value := range list {
			say(!(value > 0), "foreplane span or winglet height %g: give more than 0", value)
			for _, earlier := range list[:i] {
				say(earlier == value, "foreplane span or winglet height %g is there twice; give each level once", value)
			}
		}
	}
	say(!(math.Abs(o.Sweep) < 70*math.Pi/180), "sweep %.3g°: give less than 70°", o.Sweep*180/math.Pi)
	say(o.StrakeSpan >= o.Span, "the strakes are %g m wide and the wing %g m: give less for the strakes", o.StrakeSpan, o.Span)
	say(o.StrakeChord > 0 && o.StrakeChord < o.RootChord, "strake chord %g m: give at least the wing's root chord, or none", o.StrakeChord)
	say(o.EmptyMass > o.Mass, "the empty mass %g kg is more than the gross mass %g kg: exchange them", o.EmptyMass, o.Mass)
	if len(wrong) == 0 {
		o.checkProportions(say)
	}
	return errors.Join(wrong...)
}

// checkProportions reports what a wrong unit or an exchanged answer makes of an aircraft: figures that are
// each a fair number but do not belong to one machine.
func (o NewOptions) checkProportions(say func(bad bool, text string, parts ...any)) {
	const widest = 60 // m
	say(o.Span > widest, "span %g m: more than %d m; a bare number is in metres, so give it a unit, such as \"%g mm\"", o.Span, widest, o.Span)
	if o.Span > widest {
		return
	}
	for _, n := range []struct {
		name  string
		value float64
	}{{"root chord", o.RootChord}, {"tip chord", o.TipChord}, {"strake chord", o.StrakeChord}, {"foreplane chord", o.ForeplaneChord},
		{"height of the foreplane above the wing", math.Abs(o.ForeplaneZ)}} {
		say(n.value > o.Span, "%s %g m on a span of %g m: a bare number is in metres, so give it a unit, such as \"%g mm\"", n.name, n.value, o.Span, n.value)
	}
	for _, span := range o.ForeplaneSpans {
		say(span > 1.2*o.Span, "foreplane span %g m: the wing's is %g m; give tip to tip in metres, or with a unit", span, o.Span)
	}
	for _, height := range o.WingletHeights {
		say(height > o.Span/2, "winglet height %g m: half the wing is %g m; give metres, or a unit such as \"%g mm\"", height, o.Span/2, height)
	}
	say(math.Abs(o.WingX) > 10*o.Span, "the wing's root stands %g m aft of the datum of an aircraft of %g m span: give metres, or a unit", o.WingX, o.Span)
	say(o.ForeplaneX >= o.WingX, "the foreplane's leading edge stands %g m aft of the datum and the wing's root %g m: x counts aft, and a foreplane stands ahead of the wing", o.ForeplaneX, o.WingX)
	loading := o.Mass / (o.Span * (o.RootChord + o.TipChord) / 2)
	say(loading < 2 || loading > 2000, "gross mass %g kg on a wing of about %.3g m²: give the full-size aircraft in kg, or with a unit", o.Mass, o.Span*(o.RootChord+o.TipChord)/2)
	say(o.CruiseSpeed < 8 || o.CruiseSpeed > 300, "cruising speed %.3g m/s: a bare number is in knots; give the full-size aircraft's, or a unit such as \"200 km/h\"", o.CruiseSpeed)
}
