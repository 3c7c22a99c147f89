package estimate

import (
	"wingproof/aero/stability"
	"wingproof/flightlog/statistic"
)

// draw adds random errors of the derivatives and of every shared source at once. Random errors are stretched
// by Student's t over its normal value where few flights stand behind them.
func (s *modeSpread) draw(quantities []modeQuantity, find func(modeState) (stability.Modes, error), draws int) {
	in := s.in
	factor := rootOf(in.covariance())
	stretch := in.quantile() / statistic.Normal975
	s.drawn += draws
	normals := make([]float64, len(in.Derivatives))
	var touches []sourceTouch
	for _, name := range in.sources() {
		touches = append(touches, in.touchOf(name))
	}
	for range draws {
		state := in.reported()
		for j := range normals {
			normals[j] = s.random.NormFloat64()
		}
		for i, row := range factor {
			for j, v := range row[:i+1] {
				state.values[i] += float64(stretch * v * normals[j])
			}
		}
		for i := range touches {
			touches[i].move(&state, s.random.NormFloat64())
		}
		modes, err := find(state)
		if err != nil {
			continue
		}
		for i, q := range quantities {
			if v, ok := q.read(&modes); ok {
				s.draws[i] = append(s.draws[i], v)
			}
		}
	}
}
