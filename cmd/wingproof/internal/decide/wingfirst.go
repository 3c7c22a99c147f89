package decide

import (
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
)

// wingFirst finds a flight of a configuration that fails a limit on stall order: one in which the wing let go first. It is nil
// for every other limit, and where no flight showed it.
func (p Problem) wingFirst(r requirement, s space, c int) *WingFirst {
	if r.Quantity != evidence.StallOrderMargin || r.AtLeast == nil {
		return nil
	}
	for i, w := range p.WingFirst {
		if at, err := s.locate(w.Levels); err == nil && at == c {
			return &p.WingFirst[i]
		}
	}
	return nil
}

// where says what was seen.
func (w *WingFirst) where() string {
	return "the wing of the model let go first (flights " + strings.Join(w.Flights, ", ") + ")"
}
