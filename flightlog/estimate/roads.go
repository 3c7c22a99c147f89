package estimate

import (
	"cmp"
	"math"
	"slices"
)

// Road is one way to a number that there are several ways to.
//
// Result stands by itself: its SDOwn holds the whole random part, what was borrowed included. Borrowed says which errors of
// others are in it: for the name of a quantity that the loan of Roads holds, the change of the value with that quantity's random error
// (1 for the quantity itself, where the road is the loan's own number); for any other name, the signed change with one
// standard deviation of an error of that name, which roads that carry the same name share.
type Road struct {
	Name     string
	Result   Result
	Borrowed map[string]float64
}

// Agreement is what several roads to one number say together.
type Agreement struct {
	Pooled    Result
	Roads     []Result  // each road by itself, in the order given, its name in Method
	Weights   []float64 // of each road in Pooled; 0 where it has no number
	ChiSquare float64   // of the roads about their best mean, with joint covariance
	Freedom   int       // roads − 1
	Limit     float64   // that ChiSquare does not pass in 95 of 100 cases when the roads agree, few degrees of freedom allowed for
	Agree     bool
	Words     string // when they do not: each road apart
}

// Roads pools several roads to one quantity by generalised least squares with their joint covariance: what each has of its own, errors
// that they share by source (Result.Common), and what they borrowed of loan, whose covariance may tie borrowed quantities together.
//
// Weights are bound to [0, 1]. With a strong shared error the best weights in theory fall outside: the pooled value then lies
// beyond every road, on the strength of shared errors being known to the last digit, which they are not. For the same reason errors
// that grow with the value are weighed as if all roads gave the same number; with each road's own number, the road that gives less would look
// the more precise and draw the mean down (R. W. Peelle's puzzle, Oak Ridge 1987, from memory). Standard deviations of the pooled
// value are nevertheless those of the joint covariance as stated.
//
// Degrees of freedom are Satterthwaite's. Whether the roads agree is tested at 95 % with χ² = rᵀV⁻¹r, judged as B. L. Welch judges
// means whose variances stand on few degrees of freedom (Biometrika 38, 1951; here with shared parts, see spread). When they disagree, the
// pooled standard deviation is multiplied by √(χ²/degrees) (R. T. Birge, Phys. Rev. 40, 1932), the state is weak, and Words prints
// each road apart. Roads at different power are not pooled. Weak roads of one flight stay weak together: what that day was off by, all share.
//
// All three from memory. The order of the roads does not matter but for rounding.
func Roads(quantity string, roads []Road, loan Loan) Agreement {
	out := Agreement{Agree: true, Weights: make([]float64, len(roads))}
	var usable []int
	for i, road := range roads {
		r := road.Result
		out.Roads = append(out.Roads, namedRoad(road))
		if r.Value != nil && r.SDOwn != nil && allFinite(*r.Value, *r.SDOwn) && r.State != NotDetermined {
			usable = append(usable, i)
		}
	}
	out.Pooled = roadsLabel(quantity, roads, usable)
	if words := otherPower(roads, usable); words != "" {
		out.Pooled = undetermined(out.Pooled, words)
		return out
	}
	switch len(usable) {
	case 0:
		out.Pooled = undetermined(out.Pooled, noRoadWords(quantity, roads))
	case 1:
		warnings := out.Pooled.Warnings
		out.Pooled = out.Roads[usable[0]]
		out.Pooled.Quantity, out.Pooled.Warnings = quantity, append(slices.Clone(warnings), out.Pooled.Warnings...)
		out.Weights[usable[0]] = 1
	default:
		out.pool(roads, usable, loan)
	}
	return out
}

// pool fills the pooled result from two roads or more.
func (a *Agreement) pool(roads []Road, usable []int, loan Loan) {
	var these []Road
	for _, i := range usable {
		these = append(these, roads[i])
	}
	j := jointErrors(these, loan)
	w := boundWeights(j.forWeights())
	r := a.Pooled
	value, lift, common := 0.0, 0.0, map[string]float64{}
	for k, road := range these {
		a.Weights[usable[k]] = w[k]
		value += w[k] * *road.Result.Value
		lift += w[k] * road.Result.Lift
		for _, name := range sourceNames(road.Result.Common) {
			common[name] += w[k] * road.Result.Common[name]
		}
	}
	r.Lift = lift
	variance, degrees := j.alongWeights(w)
	r.Degrees = degrees
	test := spread(j.values, ones(len(these)), j.parts)
	a.ChiSquare, a.Freedom, a.Limit, a.Agree = test.chiSquare, test.freedom, test.limit, test.chiSquare <= test.limit
	own := variance
	if !a.Agree {
		shared := square(commonSD(withoutZeros(common)))
		own = math.Max(variance, (variance+shared)*test.chiSquare/float64(test.freedom)-shared)
	}
	r = thin(fillCombined(r, value, math.Sqrt(own), common))
	if len(r.Flights) == 1 && !slices.ContainsFunc(these, func(road Road) bool { return road.Result.State == Determined }) {
		r = weaken(r, oneFlightRoadsWords(r.Quantity))
	}
	if !a.Agree {
		a.Words = disagreeWords(a.Pooled.Quantity, these, math.Sqrt(test.chiSquare/float64(test.freedom)))
		r = weaken(r, a.Words)
	}
	heaviest := slices.Index(w, slices.Max(w))
	r.CG, r.HasCG = these[heaviest].Result.CG, these[heaviest].Result.HasCG
	a.Pooled = r
}

// roadsLabel starts the pooled result.
func roadsLabel(quantity string, roads []Road, usable []int) Result {
	r := Result{Quantity: quantity, Method: roadsMethod(roads, usable), Common: map[string]float64{}}
	for _, i := range usable {
		one := roads[i].Result
		r.Unit, r.Points = cmp.Or(r.Unit, one.Unit), r.Points+one.Points
		r.Power = cmp.Or(r.Power, one.Power)
		r.Flights = append(r.Flights, one.Flights...)
		r.Reynolds = cmp.Or(r.Reynolds, one.Reynolds)
	}
	slices.Sort(r.Flights)
	r.Flights = slices.Compact(r.Flights)
	return r
}

func namedRoad(road Road) Result {
	r := road.Result
	r.Method = road.Name + ": " + r.Method
	return r
}

func ones(n int) [][]float64 {
	out := make([][]float64, n)
	for i := range out {
		out[i] = []float64{1}
	}
	return out
}
