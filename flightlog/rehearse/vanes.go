package rehearse

import (
	"fmt"
	"math"
	"math/rand/v2"

	"wingproof/flightlog"
)

// Vanes measure the direction of the flow at their place, at the rate of the air data: angle of attack about body Y,
// atan(w/u), and sideslip about body Z, atan(v/u). Their columns stand at the end of a Log that has them.
//
// The bias values are shared by every flight of a programme, like the first block of Instruments. Their noise has a
// stream of its own, so that the other columns are the same with vanes and without.
type Vanes struct {
	Fitted       bool
	Upwash       float64 // reading per angle of attack of the free stream; 0 means 1
	Sidewash     float64 // reading per sideslip; 0 means 1
	AttackBias   float64 // rad
	SideslipBias float64 // rad
	BiasSD       float64 // rad, of each vane, a flight
	Noise        float64 // rad, a sample
}

// DefaultVanes are a pair on a short boom: 8 % of upwash, 4 % of sidewash, 0.3° a flight, 0.2° a sample. Invented.
func DefaultVanes() Vanes {
	return Vanes{Fitted: true, Upwash: 1.08, Sidewash: 1.04, BiasSD: 0.3 * degree, Noise: 0.2 * degree}
}

func (v Vanes) check() error {
	if !(v.Upwash >= 0 && v.Sidewash >= 0 && v.BiasSD >= 0 && v.Noise >= 0) {
		return fmt.Errorf("rehearse: vanes with upwash %g, sidewash %g, bias %g rad and noise %g rad must not be negative", v.Upwash, v.Sidewash, v.BiasSD, v.Noise)
	}
	return nil
}

// vaneQuantities are the columns that vanes add, in order.
func vaneQuantities() []flightlog.Quantity {
	return []flightlog.Quantity{flightlog.AngleOfAttack, flightlog.Sideslip}
}

// vanePair is a pair of vanes in one flight.
type vanePair struct {
	Vanes
	bias [2]float64
	rng  *rand.Rand
}

func newVanePair(v Vanes, seed uint64) vanePair {
	if v.Upwash == 0 {
		v.Upwash = 1
	}
	if v.Sidewash == 0 {
		v.Sidewash = 1
	}
	p := vanePair{Vanes: v, rng: rand.New(rand.NewPCG(seed, 0x7661_6e65))}
	p.bias = [2]float64{v.AttackBias + v.BiasSD*p.rng.NormFloat64(), v.SideslipBias + v.BiasSD*p.rng.NormFloat64()}
	return p
}

// read gives both readings in a flow, blank where the air stands still.
func (p *vanePair) read(flow vector) [2]float64 {
	noise := [2]float64{p.Noise * p.rng.NormFloat64(), p.Noise * p.rng.NormFloat64()}
	if math.Hypot(math.Hypot(flow[0], flow[1]), flow[2]) < slowestFlow {
		return [2]float64{math.NaN(), math.NaN()}
	}
	attack, sideslip := math.Atan2(flow[2], flow[0]), math.Atan2(flow[1], flow[0])
	return [2]float64{p.Upwash*attack + p.bias[0] + noise[0], p.Sidewash*sideslip + p.bias[1] + noise[1]}
}
