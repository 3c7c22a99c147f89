package decide

// plan is what people have to settle or measure so that a part's choices are closed and its limits hold:
// decisions where the evidence is in, else the measurement that is missing. Empty when neither is needed.
func (o *outcome) plan(d demands) []step {
	if o.liveCount() == 0 {
		return nil
	}
	var steps []step
	var open []string
	for _, choice := range d.shapedBy {
		switch v := o.choiceState(choice); v.State {
		case Open:
			open = append(open, choice)
		case Elimination:
			steps = append(steps, o.confirm(v))
		}
	}
	if len(open) == 0 && o.limitsHold(d) {
		return steps
	}
	if s, ok := o.settleStep(open); ok {
		return append(append(steps, s), o.otherWays(d)...)
	}
	if len(open) > 0 {
		steps = append(steps, o.missing(o.nearestGood())...)
		return append(steps, step{rank: rankThen, say: "settle the " + list(open, "and")})
	}
	return append(steps, o.measureLimits(d)...)
}

// confirm asks for the decision on the only level left.
func (o *outcome) confirm(v ChoiceVerdict) step {
	s := step{rank: rankSettle, say: "confirm the " + v.Choice + " at " + v.Level}
	s.full = s.say + ", the only size left" + command(v.Choice, v.Level, "")
	if level := o.verdictOn(v.Choice, v.Level); level.State != Good {
		s.full = s.say + ", the only size left" + command(v.Choice, v.Level, againstFlag) + ", since it is not proven yet: " + level.Why
	}
	return s
}

// limitsHold tells whether all limits of a part hold together in every live configuration.
func (o *outcome) limitsHold(d demands) bool {
	_, least := o.worstTogether(d)
	return reached(least, o.judgement.n)
}

// worstTogether is the live configuration that is least sure to hold all limits of a part.
func (o *outcome) worstTogether(d demands) (worst int, least float64) {
	worst, least = -1, 2.0
	for _, c := range o.liveConfigs() {
		if p := o.judgement.together(c, d.limits, false); p < least {
			worst, least = c, p
		}
	}
	return worst, least
}

// measureLimits names what would clear the open limits of a part, the least sure first: at most two on the
// wall, the rest in the chain.
func (o *outcome) measureLimits(d demands) []step {
	steps := o.limitSteps(d)
	for i := range steps {
		if i >= 2 {
			steps[i].say, steps[i].full = "", "to clear: "+steps[i].full
		}
	}
	return steps
}

// limitSteps names what would clear each open limit of a part, the least sure first. Where each limit holds
// by itself and only all of them together do not, the least sure stands for them.
func (o *outcome) limitSteps(d demands) []step {
	open := o.openLimits(d)
	if len(open) == 0 {
		worst, _ := o.worstTogether(d)
		return []step{o.clearRequirement(o.leastSure(d.limits, worst), worst)}
	}
	var steps []step
	for _, r := range open {
		steps = append(steps, o.clearRequirement(r, o.weakest(r, o.liveConfigs())))
	}
	return ordered(steps)
}

// otherWays keeps for the chain what would clear the open limits of a part without a decision.
func (o *outcome) otherWays(d demands) []step {
	if o.limitsHold(d) {
		return nil
	}
	steps := o.limitSteps(d)
	for i := range steps {
		steps[i].say, steps[i].full = "", "otherwise: "+steps[i].full
	}
	return steps
}
