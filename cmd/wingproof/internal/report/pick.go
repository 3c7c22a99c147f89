package report

import (
	"slices"

	"wingproof/cmd/wingproof/internal/decide"
)

// pickable is one entry of a list by which rows of the board are picked.
type pickable struct {
	Value, Words string
	Rows         int
}

// pickLists are the words and the stages that the board shows, in the order of the wall and of the work, with the rows of each.
func pickLists(board []decide.Row) (words, stages []pickable) {
	for _, r := range ordered(board) {
		words = countRow(words, r.Action, r.Action)
		stages = countRow(stages, r.Stage, stageWords(r.Stage))
	}
	slices.SortStableFunc(stages, func(a, b pickable) int { return stageRank(a.Value) - stageRank(b.Value) })
	return words, stages
}

func countRow(list []pickable, value, words string) []pickable {
	i := slices.IndexFunc(list, func(p pickable) bool { return p.Value == value })
	if i < 0 {
		return append(list, pickable{value, words, 1})
	}
	list[i].Rows++
	return list
}

// stageRank orders the stages of a part; unknown ones come last.
func stageRank(stage string) int {
	all := []string{"drawn", "plug", "mould", "laid_up", "ready", "fitted"}
	if i := slices.Index(all, stage); i >= 0 {
		return i
	}
	return len(all)
}
