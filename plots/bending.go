package plots

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/plot"
)

// BendingRatioData is the bending moment along a built part over what the part carries.
type BendingRatioData struct {
	Title  string // empty: "Bending over what PART carries"
	Part   string
	Series []BendingSeries
}

// BendingSeries is one configuration: at each station [m from the plane of symmetry, or along an upright part] the ratio of the
// bending moment at limit load to the allowable, with its interval.
type BendingSeries struct {
	Configuration string
	Station       []float64
	Ratio         []Interval
}

// BendingRatio draws the ratio along the span with the line at 1 that it must not pass: up to three
// configurations share a frame, more get a panel each.
//
// It returns ErrNoData without series or stations.
func BendingRatio(d BendingRatioData) (Figure, error) {
	title := or(d.Title, "Bending over what the "+or(d.Part, "built part")+" carries")
	if len(d.Series) == 0 {
		return Figure{}, fmt.Errorf("plots: %s: %w", title, ErrNoData)
	}
	x, y := emptySpan(), emptySpan()
	x.add(0)
	y.add(0, 1.1)
	var alt strings.Builder
	var all []Interval
	for _, s := range d.Series {
		if err := s.check(); err != nil {
			return Figure{}, fmt.Errorf("plots: %s: %s: %w", title, s.Configuration, err)
		}
		x.add(s.Station...)
		for _, r := range s.Ratio {
			y.add(r.Value)
		}
		all = append(all, s.Ratio...)
		fmt.Fprintf(&alt, "%s: %s. ", s.Configuration, s.note())
	}
	y.reach(all)
	xs, ys := niceAxis("station of the part, m (full size)", x, 8), niceAxis("bending moment over allowable, pure number", y, 6)
	head := header{title: title, note: "Below 1 the part carries the load with its stated knock-downs; above 1 it does not."}
	if len(d.Series) > 3 {
		head.key = []keyEntry{intervalKey("at one station, 95 % interval", seriesMark(0)), limitKey("limit: ratio 1")}
		return compose(title, alt.String(), paintTiles(head, 2, bendingPanels(d.Series, xs, ys)))
	}
	one := curvePanel{title: or(d.Part, "built part"), x: xs, y: ys, things: []plot.Plotter{unity(), unitySaid()}}
	for i, s := range d.Series {
		head.key = append(head.key, intervalKey(s.Configuration, seriesMark(i)))
		one.warn(s.breaks(), s.Configuration+": "+s.note())
		one.things = append(one.things, s.plotters(seriesMark(i))...)
	}
	head.key = append(head.key, limitKey("limit: ratio 1"))
	return compose(title, alt.String(), paintTiles(head, 1, []curvePanel{one}))
}

func unity() plot.Plotter     { return level{limit: Limit{Value: 1}} }
func unitySaid() plot.Plotter { return spokenLevel{"limit: bending over allowable at most 1", 1} }

func bendingPanels(series []BendingSeries, x, y axis) []curvePanel {
	panels := make([]curvePanel, len(series))
	for i, s := range series {
		panels[i] = curvePanel{title: s.Configuration, x: x, y: y, things: append([]plot.Plotter{unity(), unitySaid()}, s.plotters(seriesMark(0))...)}
		value, verdict, parted := strings.Cut(s.note(), " m, ")
		if !parted {
			panels[i].notes = []string{value}
			continue
		}
		panels[i].notes = []string{value + " m"}
		panels[i].warn(s.breaks(), verdict)
	}
	return panels
}

func (s BendingSeries) check() error {
	if len(s.Station) == 0 {
		return ErrNoData
	}
	if err := checkSeries("stations", s.Station); err != nil {
		return err
	}
	if len(s.Station) != len(s.Ratio) {
		return fmt.Errorf("%d stations and %d ratios; want one ratio a station", len(s.Station), len(s.Ratio))
	}
	for i, r := range s.Ratio {
		if err := r.check(); err != nil {
			return fmt.Errorf("station %d: %w", i+1, err)
		}
	}
	return nil
}

// worst is the station where the ratio is greatest; -1 where none is determined.
func (s BendingSeries) worst() int {
	worst := -1
	for i, r := range s.Ratio {
		if r.determined() && (worst < 0 || r.Value > s.Ratio[worst].Value) {
			worst = i
		}
	}
	return worst
}

// breaks tells whether the whole interval lies above what the part carries somewhere.
func (s BendingSeries) breaks() bool {
	for _, r := range s.Ratio {
		if r.determined() && r.Low > 1 {
			return true
		}
	}
	return false
}

// note says where the ratio is greatest.
func (s BendingSeries) note() string {
	worst := s.worst()
	if worst < 0 {
		return "not determined"
	}
	r := s.Ratio[worst]
	return fmt.Sprintf("greatest %s at %s m, %s", r.words(2), number(s.Station[worst], 2), Limit{Value: 1}.verdict(r))
}

// plotters draws the line through determined stations with a band between their bounds, and upright
// intervals at about a dozen stations, so that the bars stay apart.
func (s BendingSeries) plotters(look mark) []plot.Plotter {
	var line Curve
	var bars uprights
	step := int(math.Ceil(float64(len(s.Ratio)) / 12))
	for i, r := range s.Ratio {
		if r.determined() {
			line.X, line.Y = append(line.X, s.Station[i]), append(line.Y, r.Value)
			line.Low, line.High = append(line.Low, r.Low), append(line.High, r.High)
		}
		if i%step == 0 || i == len(s.Ratio)-1 {
			bars.x, bars.y = append(bars.x, s.Station[i]), append(bars.y, r)
		}
	}
	look.size = 2.4
	bars.look = look
	say := spokenUprights{bars.x, bars.y, func(i int) string {
		return said("bending over allowable "+bars.y[i].words(2), s.Configuration, "station "+number(bars.x[i], 2)+" m")
	}}
	return []plot.Plotter{bandOf{line, look}, lineOf{line, look}, bars, say}
}
