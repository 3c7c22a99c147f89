package program

import (
	"fmt"
	"math"
	"strings"
)

// cut is one station of a drafted surface, metres; incidence turns the chord leading edge up.
type cut struct {
	x, y, z, chord, incidence float64
	aerofoil                  string
}

func stationsText(comment string, cuts []cut) string {
	var b strings.Builder
	b.WriteString("# " + comment + "\n")
	b.WriteString("station,le_x_mm,le_y_mm,le_z_mm,te_x_mm,te_y_mm,te_z_mm,aerofoil\n")
	for i, c := range cuts {
		mm := func(v float64) string { return fmt.Sprintf("%.2f", 1000*v+0) }
		fmt.Fprintf(&b, "%d,%s,%s,%s,%s,%s,%s,%s\n", i+1, mm(c.x), mm(c.y), mm(c.z),
			mm(c.x+c.chord*math.Cos(c.incidence)), mm(c.y), mm(c.z-c.chord*math.Sin(c.incidence)), c.aerofoil)
	}
	return b.String()
}

const replaceShape = "drafted from a few figures; replace by points of your own drawing: x aft, y right, z up from the datum; full size"

// shapeFiles drafts the geometry tables, and what an invented spar carries as a pattern to overwrite.
func (o NewOptions) shapeFiles() map[string]string {
	root, tip := o.StrakeSpan/2, o.Span/2
	wing := func(share float64) cut {
		y := root + share*(tip-root)
		return cut{x: o.WingX + (y-root)*math.Tan(o.Sweep), y: y, chord: o.RootChord + share*(o.TipChord-o.RootChord), aerofoil: "wing section"}
	}
	end := wing(1)
	fore := o.ForeplaneSpans[middle(o.ForeplaneSpans)]
	foreplane := func(share float64) cut {
		chord := o.ForeplaneChord * (1.1 - 0.2*share)
		return cut{x: o.ForeplaneX + 0.25*(1.1*o.ForeplaneChord-chord), y: share * fore / 2, z: o.ForeplaneZ, chord: chord, incidence: 2 * math.Pi / 180, aerofoil: "foreplane section"}
	}
	files := map[string]string{
		"shape/wing.csv":      stationsText(replaceShape, []cut{wing(0), wing(0.55), wing(1)}),
		"shape/foreplane.csv": stationsText(replaceShape, []cut{foreplane(0), foreplane(0.5), foreplane(1)}),
	}
	if !o.noWinglets() {
		height := o.WingletHeights[middle(o.WingletHeights)]
		winglet := func(share float64) cut {
			return cut{x: end.x + share*height*math.Tan(32*math.Pi/180), y: tip, z: share * height, chord: o.TipChord * (1 - 0.55*share), aerofoil: "winglet section"}
		}
		files["shape/winglet.csv"] = stationsText(replaceShape, []cut{winglet(0), winglet(0.5), winglet(1)})
	}
	if o.StrakeSpan > 0 {
		back := o.WingX + o.RootChord
		files["shape/strake.csv"] = stationsText(replaceShape, []cut{
			{x: back - o.StrakeChord, chord: o.StrakeChord, aerofoil: "wing section"},
			{x: o.WingX, y: root, chord: o.RootChord, aerofoil: "wing section"}})
	}
	return files
}
