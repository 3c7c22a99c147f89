package lattice

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"wingproof/aero"
)

// family is the airframes that are solved together.
type family struct {
	members []*model
	pool    pool
	holders map[string]map[int]bool // by block: the members that hold it
}

// model is one airframe on its way to a Solution.
type model struct {
	family   *family
	airframe aero.Airframe
	warnings []aero.Warning
	controls *controlList
	grid     *grid
	blocks   []block
	own      pool // what no other member asks for
}

// uses tells whether more than one member holds all these blocks.
func (f *family) uses(keys ...string) bool {
	if len(f.members) == 1 {
		return false
	}
	count := 0
	for member := range f.holders[keys[0]] {
		all := true
		for _, k := range keys[1:] {
			all = all && f.holders[k][member]
		}
		if all {
			count++
		}
	}
	return count > 1
}

// newModels checks and panels airframes that are solved together.
//
// Where wakes pass close over a surface it gets panels for the tips that they come from, of all airframes together, so that it
// keeps its panels whichever of them flies ahead; with Options.OwnPanels, for its own tips alone.
func newModels(airframes []aero.Airframe, o Options) ([]*model, []error) {
	models, failed := make([]*model, len(airframes)), make([]error, len(airframes))
	at := make([][]places, len(airframes))
	tips := make([]map[string][]passing, len(airframes))
	forRows(len(airframes), func(i int) {
		m := &model{}
		models[i] = m
		if m.airframe, at[i], m.warnings, failed[i] = prepare(airframes[i]); failed[i] != nil {
			return
		}
		if failed[i] = m.examine(at[i], o); failed[i] != nil {
			return
		}
		m.controls = newControlList(m.airframe.Surfaces, o.Incidences)
		tips[i], failed[i] = passings(m.airframe.Surfaces, at[i], o)
	})
	union := make(map[string][]passing)
	for _, own := range tips {
		for name, list := range own {
			union[name] = append(union[name], list...)
		}
	}
	forRows(len(airframes), func(i int) {
		m, passing := models[i], union
		if o.OwnPanels {
			passing = tips[i]
		}
		if failed[i] == nil {
			m.grid, failed[i] = newGrid(m.airframe.Surfaces, at[i], m.controls, o, passing)
		}
		if failed[i] == nil {
			failed[i] = m.grid.checkPanels(m.airframe)
		}
		if failed[i] != nil {
			failed[i] = fmt.Errorf("solving the vortex lattice: %w", failed[i])
			return
		}
		m.warnings = append(m.warnings, m.grid.warn(m.airframe)...)
	})
	return models, failed
}

// newFamily cuts the panels of all members into blocks: parts that the same members hold go together, and those that most
// members hold come first, so that their elimination is shared.
func newFamily(members []*model) *family {
	f := &family{members: members, holders: make(map[string]map[int]bool)}
	holders := make(map[key][]int)
	for i, m := range members {
		m.family = f
		for _, p := range m.grid.parts {
			holders[p.key] = append(holders[p.key], i)
		}
	}
	for i, m := range members {
		m.blocks = m.grid.blocks(holders)
		for _, b := range m.blocks {
			if f.holders[b.key] == nil {
				f.holders[b.key] = make(map[int]bool)
			}
			f.holders[b.key][i] = true
		}
	}
	return f
}

// blocks joins the parts that the same members hold.
func (g *grid) blocks(holders map[key][]int) []block {
	var out []block
	var by [][]int
	for _, p := range g.parts {
		at := slices.IndexFunc(by, func(h []int) bool { return slices.Equal(h, holders[p.key]) })
		if at < 0 {
			at = len(out)
			out, by = append(out, block{}), append(by, holders[p.key])
		}
		b := &out[at]
		b.starts = append(b.starts, b.panels)
		b.parts = append(b.parts, p)
		b.panels += g.panelCount(p)
	}
	order := make([]int, len(out))
	for i := range out {
		order[i] = i
		var name strings.Builder
		for _, p := range out[i].parts {
			name.Write(p.key[:])
		}
		out[i].key = name.String()
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(len(by[b]), len(by[a])), cmp.Compare(out[b].panels, out[a].panels))
	})
	sorted := make([]block, len(out))
	for i, k := range order {
		sorted[i] = out[k]
	}
	return sorted
}

// influence of block c on block r, both symmetries: one filling serves both systems.
func (m *model) influence(r, c int) *influence {
	even := system{m, 0}
	return even.pool(r, c, 0).influences.get(even.name(r, c, 0), func() *influence {
		return m.grid.influenceOf(&m.blocks[r], &m.blocks[c])
	})
}
