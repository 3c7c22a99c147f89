package estimate

// leastReliability is the share of a flight's spread of CL that must be real (not error of CL) for its slope to count.
const leastReliability = 0.5

// line is one flight boiled down to y = mean + slope·(CL − meanLift).
type line struct {
	flight   string
	cg       float64
	points   int
	weight   float64 // Σw
	meanLift float64
	mean     float64
	sxx, sxy float64 // Σw(CL − meanLift)², Σw(CL − meanLift)(y − mean)
	real     float64 // sxx less what the error of CL adds
	slope    float64 // sxy/real
	spans    bool    // the flight has a slope of its own
	residual float64 // Σw·r² about the line
	degrees  int     // points − 2, or points − 1 without a slope
}

// flightLine fits one flight. The error of CL flattens a least-squares slope by (spread − error)/spread;
// subtracting the error's share of the spread undoes that, without bias to second order.
func flightLine(f flight, r relation) line {
	l := line{flight: f.name, cg: f.cg, points: len(f.points)}
	for j, p := range f.points {
		w := f.weight[j]
		l.weight += w
		l.meanLift += w * p.Lift
		l.mean += w * r.response(p)
	}
	l.meanLift /= l.weight
	l.mean /= l.weight
	attenuation := 0.0
	for j, p := range f.points {
		w, dx := f.weight[j], p.Lift-l.meanLift
		l.sxx += w * dx * dx
		l.sxy += w * dx * (r.response(p) - l.mean)
		attenuation += w * (1 - w/l.weight) * square(positive(p.LiftSD))
	}
	l.real = l.sxx - attenuation*smallSample(l.points)
	l.degrees = l.points - 1
	if l.points >= 2 && l.sxx > 1e-18*square(l.meanLift)*l.weight && l.real >= leastReliability*l.sxx {
		l.spans, l.slope = true, l.sxy/l.real
		l.degrees = l.points - 2
	}
	for j, p := range f.points {
		l.residual += f.weight[j] * square(r.response(p)-l.mean-l.slope*(p.Lift-l.meanLift))
	}
	return l
}

// smallSample is the share of the error's expected spread that is taken off, 1 − 2/(n − 1): with few points the plain slope is
// flattened less than in the limit. Source: W. A. Fuller, Measurement Error Models, section 2.5 (from memory).
func smallSample(points int) float64 {
	return max(0, 1-2/float64(max(1, points-1)))
}

// number is what one flight says about the thing asked, with the part k of its variance σ²·k that its own points cause.
type number struct {
	flight string
	cg     float64
	value  float64
	k      float64
	apart  bool // lies on a line of the same steepness in CG but of another level

	distance float64 // standard deviations from the other flights, where it is played down; 0 where it is not
}

// weight is the share by which a flight counts: 1, or less where it lies far from the others.
func (n number) weight() float64 { return outlierWeight(n.distance) }

// target asks one number of a flight's line.
type target func(line) (value, k float64)

// slopeTarget asks for dy/dCL.
func slopeTarget(l line) (float64, float64) { return l.slope, l.sxx / (l.real * l.real) }

// valueTarget asks for y at a lift coefficient.
func valueTarget(lift float64) target {
	return func(l line) (float64, float64) {
		d := lift - l.meanLift
		return l.mean + l.slope*d, 1/l.weight + d*d*l.sxx/(l.real*l.real)
	}
}

// numbers asks every flight that spans lift.
func numbers(lines []line, t target) []number {
	var out []number
	for _, l := range lines {
		if !l.spans {
			continue
		}
		v, k := t(l)
		out = append(out, number{flight: l.flight, cg: l.cg, value: v, k: k})
	}
	return out
}

// within is σ² from the residuals inside flights, and its degrees of freedom.
func within(configurations [][]line) (variance float64, degrees int) {
	sum := 0.0
	for _, lines := range configurations {
		for _, l := range lines {
			if l.spans {
				sum += l.residual
				degrees += l.degrees
			}
		}
	}
	if degrees == 0 {
		return 0, 0
	}
	return sum / float64(degrees), degrees
}
