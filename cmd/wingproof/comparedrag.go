package main

import (
	"math"

	"wingproof/cmd/wingproof/internal/prediction"
	"wingproof/cmd/wingproof/internal/report"
)

// dragOf is the drag of every level in one flight condition.
type dragOf struct {
	condition prediction.DragCondition
	levels    []prediction.LiftingDrag
	against   []prediction.DragDifference // to the baseline; the first is none
}

// drags compares what a level gains in induced drag with what it costs in friction: full size, in cruise and in the best climb of
// the baseline. A condition that the folder does not tell enough for is left out, and missing says why.
func (r *comparison) drags() (out []dragOf, missing []string) {
	p, setup, base := r.study.Program, r.condition.setup, &r.levels[0]
	sections, err := prediction.SectionsOf(p)
	if err != nil {
		return nil, []string{err.Error()}
	}
	cruise, err := prediction.CruiseCondition(p, base.airframe.Reference.Area)
	conditions := []prediction.DragCondition{cruise}
	if err != nil {
		conditions, missing = nil, append(missing, err.Error())
	}
	if climb, err := prediction.ClimbCondition(p, sections, &base.Analysis, setup, 0); err == nil {
		conditions = append(conditions, climb)
	} else {
		missing = append(missing, err.Error())
	}
	for _, c := range conditions {
		d := dragOf{condition: c}
		for i := range r.levels {
			one, err := prediction.ProfileDrag(sections, &r.levels[i].Analysis, setup, c)
			if err != nil {
				missing = append(missing, err.Error())
				break
			}
			first := one
			if i > 0 {
				first = d.levels[0]
			}
			more, err := one.Minus(first)
			if err != nil {
				missing = append(missing, err.Error())
				break
			}
			d.levels, d.against = append(d.levels, one), append(d.against, more)
			for _, w := range one.Profile.Warnings {
				missing = append(missing, w.String())
			}
		}
		if len(d.levels) == len(r.levels) {
			out = append(out, d)
		}
	}
	return out, missing
}

// dragTables are the drags for the table.
func (r *comparison) dragTables(drags []dragOf) []report.DragComparison {
	var out []report.DragComparison
	for _, d := range drags {
		c := report.DragComparison{Condition: d.condition.Name, Lift: d.condition.Lift, Speed: d.condition.Speed}
		for i, l := range d.levels {
			a := d.against[i]
			c.Rows = append(c.Rows, report.DragRow{Level: r.levels[i].level, Induced: l.Induced, Profile: l.Profile.Drag, ProfileHalf: normal95 * l.Profile.Deviation, Baseline: i == 0,
				MoreInduced: a.Induced, MoreProfile: a.Profile, Net: a.Net, NetHalf: normal95 * a.Deviation, Force: a.Force})
		}
		out = append(out, c)
	}
	return out
}

// dragDocument is the drag of one level in one condition, over the dynamic pressure at full size; differences are null for the
// baseline.
type dragDocument struct {
	Condition     string   `json:"condition"`
	Lift          float64  `json:"lift_coefficient"`
	SpeedMS       float64  `json:"speed_m_s"`
	Level         string   `json:"level"`
	InducedM2     float64  `json:"induced_drag_area_m2"`
	ProfileM2     float64  `json:"profile_drag_area_m2"`
	ProfileSDM2   float64  `json:"profile_drag_area_sd_m2"`
	MoreInducedM2 *float64 `json:"induced_difference_m2"`
	MoreProfileM2 *float64 `json:"profile_difference_m2"`
	NetM2         *float64 `json:"net_difference_m2"`
	NetSDM2       *float64 `json:"net_difference_sd_m2"`
	NetN          *float64 `json:"net_difference_n"`
}

func (r *comparison) dragDocuments(drags []dragOf) []dragDocument {
	out := []dragDocument{}
	for _, d := range drags {
		for i, l := range d.levels {
			one := dragDocument{Condition: d.condition.Name, Lift: d.condition.Lift, SpeedMS: d.condition.Speed, Level: r.levels[i].level,
				InducedM2: l.Induced, ProfileM2: l.Profile.Drag, ProfileSDM2: l.Profile.Deviation}
			if a := d.against[i]; i > 0 {
				one.MoreInducedM2, one.MoreProfileM2, one.NetM2, one.NetSDM2, one.NetN = orNull(a.Induced), orNull(a.Profile), orNull(a.Net), orNull(a.Deviation), orNull(a.Force)
			}
			out = append(out, one)
		}
	}
	return out
}

// dragCells are the drags as rows of the long table: value and difference with their 95 % bounds.
func (r *comparison) dragCells(drags []dragOf) [][]string {
	var rows [][]string
	nan := math.NaN()
	for _, d := range drags {
		for i, l := range d.levels {
			a := d.against[i]
			for _, q := range []struct {
				name                        string
				value, half, more, moreHalf float64
			}{
				{prediction.InducedDragArea, l.Induced, nan, a.Induced, nan},
				{prediction.ProfileDragArea, l.Profile.Drag, normal95 * l.Profile.Deviation, a.Profile, normal95 * a.Deviation},
				{prediction.SurfaceDragArea, l.Area(), normal95 * l.Profile.Deviation, a.Net, normal95 * a.Deviation},
			} {
				row := []string{r.levels[i].level, r.levels[i].name, q.name + " in " + d.condition.Name, "m²", "predicted", d.condition.Size, cellOf(r.condition.setup.CG.X),
					cellOf(q.value), cellOf(q.value - q.half), cellOf(q.value + q.half), ""}
				if i == 0 {
					row = append(row, "", "", "", "")
				} else {
					row = append(row, cellOf(q.more), "", cellOf(q.more-q.moreHalf), cellOf(q.more+q.moreHalf))
				}
				rows = append(rows, row)
			}
		}
	}
	return rows
}
