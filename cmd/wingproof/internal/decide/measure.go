package decide

import (
	"fmt"
	"slices"
	"strings"

	"wingproof/cmd/wingproof/internal/evidence"
)

// clearRequirement is the flight or the measurement that would lessen the greatest doubt about a requirement
// in one configuration.
func (o *outcome) clearRequirement(r, c int) step {
	requirement := o.judgement.requirements[r]
	s := step{
		say:  "no measurement helps: change the shape, the loading or the limit",
		full: "nothing measured would help, the figures are not in doubt: change the shape, the loading or the limit",
	}
	for _, d := range o.doubts(r, c) {
		if d.variance <= 0 {
			break
		}
		switch d.group {
		case doubtWeight:
			s = o.weigh(d.name)
		case doubtAllowable:
			s.say = "load the " + plainName(requirement.built.Part) + " for proof"
			s.full = s.say + ": most of the doubt is what it can carry"
		case doubtStep:
			s = clearStep(d.name)
		default:
			return o.clearModel(r, c, d.quantity)
		}
		break
	}
	s.rank, s.full = rankMeasure, requirement.phrase()+": "+s.full
	return s
}

// weigh asks for scales.
func (o *outcome) weigh(name string) step {
	a := o.problem.Aircraft
	s := step{say: "weigh the empty aircraft"}
	standing := ", which is only estimated"
	if a.EmptyMass.Status == "weighed" && a.EmptyX.Status == "weighed" {
		s.say, standing = "weigh the empty aircraft again, more closely", ""
	}
	s.full = s.say + ": most of the doubt is its " + name + standing + ", and no flight of the model lessens that"
	return s
}

// clearStep asks for what the model cannot show.
func clearStep(name string) step {
	what := map[string]string{
		"reynolds": "get section data at full-size speed",
		stepDoubt:  "get section data at full-size speed",
		"power":    "measure the propeller's pull on trim, idle against full power",
		"shape":    "measure the full-size parts against the drawing",
	}[name]
	if what == "" {
		what = "get a full-size measurement of " + plainName(name)
	}
	return step{say: what, full: what + ": most of the doubt is the step from model to full size, which no flight of the model lessens"}
}

// clearModel lessens the doubt about the prediction of a quantity at model scale: by a flight where the program reads the
// quantity from logs, else by what is left.
func (o *outcome) clearModel(r, c int, quantity string) step {
	requirement := o.judgement.requirements[r]
	switch {
	case requirement.built != nil:
		say := "check the bending of " + o.space.configs[c].name + " by a second road"
		return step{rankMeasure, say, requirement.phrase() + ": " + say + " (strain gauges on the model, or another computation): most of the doubt is the load that theory gives"}
	case !readFromFlights(quantity):
		return o.noFlight(r, quantity)
	default:
		return o.fly(c, r)
	}
}

// noFlight says honestly that flying does not help, and what does.
func (o *outcome) noFlight(r int, quantity string) step {
	requirement := o.judgement.requirements[r]
	say, way := "no flight clears "+requirement.phrase()+" yet: ", "firm up the prediction, or change the sizes or the limit"
	if passing := o.passingSizes(r); len(passing) > 0 {
		way = "choose a size that passes (" + list(passing, "or") + ") or firm up the prediction"
	}
	full := fmt.Sprintf("%sthe program reads no %s from logs; %s, since its stated error decides (another computation, a wind tunnel)", say, plainName(quantity), way)
	return step{rankMeasure, say + way, full}
}

// passingSizes lists the sizes still possible with which a requirement holds whatever else is chosen. It is empty
// when every one does: choosing among them clears nothing then.
func (o *outcome) passingSizes(r int) []string {
	var passing []string
	possible := 0
	for _, v := range o.choices {
		if v.State != Open {
			continue
		}
		for _, level := range v.Live {
			possible++
			holds := func(c int) bool {
				return o.space.configs[c].levels[v.Choice] != level || o.holds(r, c)
			}
			if o.everyLive(holds) {
				passing = append(passing, v.Choice+" "+level)
			}
		}
	}
	if len(passing) == possible {
		return nil
	}
	return passing
}

// holds tells whether a configuration is sure of a requirement.
func (o *outcome) holds(r, c int) bool {
	return reached(o.judgement.verdicts[c][r].Probability, o.judgement.n)
}

// everyLive tells whether every live configuration has a property.
func (o *outcome) everyLive(property func(int) bool) bool {
	for _, c := range o.liveConfigs() {
		if !property(c) {
			return false
		}
	}
	return true
}

// fly names the configuration, how often, and what to fly; what serves several requirements is flown in the same flights.
func (o *outcome) fly(c int, requirements ...int) step {
	name, times := o.space.configs[c].name, ""
	var say, full []string
	for _, r := range requirements {
		requirement := o.judgement.requirements[r]
		if o.needsFlights(r) && times != " twice" {
			times = " twice"
			if len(o.flightsBehind(requirement, c)) == 1 {
				times = " once more"
			}
		}
		card := o.card(requirement, c)
		if !slices.Contains(say, card.say) {
			say = append(say, card.say)
		}
		full = append(full, requirement.phrase()+": fly "+name+times+" "+card.full)
	}
	for _, left := range o.problem.LeftOut {
		if evidence.Name(left.Levels) == name {
			full = append(full, fmt.Sprintf("flight %s was left out: %s", left.Flight, left.Why))
		}
	}
	return step{rankMeasure, "fly " + name + times + " " + strings.Join(say, " and "), strings.Join(full, "; ")}
}

// card is the manoeuvre that informs a requirement.
func (o *outcome) card(requirement requirement, c int) step {
	switch requirement.belief() {
	case evidence.NeutralPoint, evidence.ElevatorTrimRate:
		return o.trimCard(c)
	case evidence.PitchDamping:
		return step{say: "with elevator doublets", full: "with elevator doublets and multisteps at steady power, without stabiliser"}
	case evidence.MaxLift:
		return step{say: "with decelerations to the stall", full: "with slow decelerations to the stall at a safe height, wings level, power off"}
	case evidence.DirectionalStiffness, evidence.DihedralEffect, evidence.RollDamping, evidence.YawDamping, evidence.YawDueToRoll, evidence.RollDueToYaw, evidence.SideForceSlope:
		return step{say: "with rudder doublets", full: "with doublets of rudder and ailerons, hands off for six seconds behind the rudder, and steady sideslips to both sides"}
	case evidence.ZeroLiftDrag:
		return step{say: "in power-off glides", full: "in power-off glides over the speed range"}
	default:
		return step{say: "in steady runs over the speed range", full: "in steady runs over the speed range"}
	}
}

// missing is what keeps one configuration from being good: what would lessen the greatest doubt, and the
// flights that limits ask for.
func (o *outcome) missing(c int) []step {
	var steps []step
	var flown []int // requirements that a flight informs
	if !reached(o.judgement.all[c], o.judgement.n) {
		all := make([]int, len(o.judgement.requirements))
		for r := range all {
			all[r] = r
		}
		steps = append(steps, o.clearRequirement(o.leastSure(all, c), c))
	}
	for r, requirement := range o.judgement.requirements {
		switch {
		case !o.needsFlights(r):
		case readFromFlights(requirement.belief()):
			flown = append(flown, r)
		default:
			steps = append(steps, o.mayAnalysisCarry(r))
		}
	}
	if len(flown) > 0 {
		steps = append(steps, o.fly(c, flown...))
	}
	return ordered(steps)
}

// mayAnalysisCarry asks people to decide on a limit that wants flights which no log can give yet.
func (o *outcome) mayAnalysisCarry(r int) step {
	requirement := o.judgement.requirements[r]
	return step{rankMeasure, "decide whether analysis may carry " + requirement.phrase(), fmt.Sprintf(
		"%s asks for flights, but the program reads no %s from logs: decide whether analysis may carry it, and write that under evidence with a source",
		requirement.phrase(), plainName(requirement.belief()))}
}

// nearestGood is the live configuration that is surest to pass everything.
func (o *outcome) nearestGood() int {
	live := o.liveConfigs()
	return slices.MaxFunc(live, func(a, b int) int {
		switch {
		case o.judgement.all[a] > o.judgement.all[b]:
			return 1
		case o.judgement.all[a] < o.judgement.all[b]:
			return -1
		default:
			return 0
		}
	})
}
