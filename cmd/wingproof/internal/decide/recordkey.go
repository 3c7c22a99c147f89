package decide

import (
	"cmp"
	"fmt"
	"slices"
	"sort"
	"strings"
)

// recordKey names a record by what was measured of what on which flights. Its noise is seeded by that name alone: a value that differs in its
// last bit, as on another kind of processor, must not draw anew.
func recordKey(config, kind string, flights []string) string {
	sorted := append([]string(nil), flights...)
	sort.Strings(sorted)
	return strings.Join([]string{config, kind, strings.Join(sorted, " ")}, "\x00")
}

// arrange orders the records by name, so that no sum depends on the order of rows, and numbers those of one name by their values.
func (o *observations) arrange() {
	slices.SortStableFunc(o.records, func(a, b record) int {
		return cmp.Or(strings.Compare(a.key, b.key), strings.Compare(a.rank, b.rank))
	})
	name, count := "", 0
	for i := range o.records {
		r := &o.records[i]
		if r.key != name {
			name, count = r.key, 0
		}
		count++
		r.key = fmt.Sprint(name, "\x00", count)
	}
}
