package study

import (
	"wingproof/cmd/wingproof/internal/evidence"
)

// LevelDifference is a quantity at one level of a choice minus that at another, everything else alike.
type LevelDifference struct {
	Choice   string            `json:"choice"`
	One      string            `json:"one"`
	Other    string            `json:"other"`
	Estimate evidence.Estimate `json:"difference"`
}

// LevelDifferences lists the differences between levels of every choice that the flights tell. Errors that both levels share are
// out of them.
func (s *Study) LevelDifferences() []LevelDifference {
	out := []LevelDifference{}
	for _, b := range s.Between {
		for _, d := range b.Overview.Differences {
			e := s.measured(Fit{}, d.Result)
			e.Configuration, e.Levels = "", map[string]string{}
			out = append(out, LevelDifference{d.Choice, d.One, d.Other, e})
		}
	}
	return out
}
