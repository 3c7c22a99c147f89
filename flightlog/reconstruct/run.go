package reconstruct

import (
	"math"

	"wingproof/flightlog"
	"wingproof/flightlog/statistic"
)

// Run reconstructs the path of one flight. The path is never nil; when Enough is false it is empty and a finding says why.
//
// Findings are notes and losses in plain words: what had to be assumed, what was left out and when, what departs from
// expectation. Nothing of the recording is changed.
func Run(rec *flightlog.Recording, s Setup) (*Path, []flightlog.Finding) {
	in, findings := gather(rec, s)
	if in == nil {
		return &Path{}, findings
	}
	horizontal, vertical, more := in.shiftSatellite(s)
	findings = append(findings, more...)
	flight := airborneSpan(in.measured[airspeed])
	if !(flight.End > flight.Start) {
		return &Path{}, append(findings, flightlog.Finding{Severity: flightlog.Note, Channel: flightlog.Airspeed, Start: in.start, End: in.end,
			What: "the airspeed never stays above 6 m/s", Consequence: "the recording holds no flight whose path could be reconstructed"})
	}
	f, triangle, g := newForward(in, s, flight)
	f.finish()
	if f.lost {
		return &Path{}, append(findings, f.giveUp())
	}
	path := newPath(f.tl)
	path.SatelliteLag, path.ClimbLag, path.Triangle = horizontal, vertical, triangle
	path.GustLevel, path.GustLength, path.Enough = g.level, g.length, true
	w := writer{path: path, boresight: s.boresight()}
	back := smoother{f: f}
	back.run(w.put)
	path.putForces(in)
	path.ScaleTemperatureSD = in.air.scaleDeviation()
	path.ScaleSD = math.Hypot(path.ScaleOwnSD, path.ScaleTemperatureSD)
	path.putAirborne(flyingSpeed(in.measured[airspeed]))
	if !path.sound() {
		return &Path{}, append(findings, f.noNumber())
	}
	return path, append(findings, f.report(path)...)
}

// newForward makes the filter ready to run: triangle, gusts, noise, timeline, tuning.
func newForward(in *input, s Setup, flight Stretch) (*forward, Triangle, gusts) {
	triangle := windTriangle(in)
	g := estimateGusts(&triangle, heightAbove(in))
	in.thin()
	n := newNoise(in, s, g, flight.Start, flight.End)
	tl := newTimeline(in, s)
	f := &forward{tl: tl, noise: &n, arms: &in.arms, prior: in.prior(tl, &triangle, &n)}
	f.tune(flight.Start)
	return f, triangle, g
}

// thin averages what comes faster than mostRate.
func (in *input) thin() {
	for k := range kinds {
		if len(in.measured[k].Time) > 1 {
			in.measured[k] = thinned(in.measured[k], mostRate)
		}
	}
}

// shiftSatellite estimates the lag of the satellite channels and takes it off their times.
func (in *input) shiftSatellite(s Setup) (horizontal, vertical Lag, findings []flightlog.Finding) {
	across, along := in.lagProblems()
	horizontal = across.solve()
	if !horizontal.Known {
		if s.SatelliteDelayDeclared {
			horizontal.Value, horizontal.SD, horizontal.Assumed = 0, usualLagSD/4, true
		} else {
			horizontal.Value, horizontal.SD, horizontal.Assumed = usualLag, usualLagSD, true
			findings = append(findings, flightlog.Finding{Severity: flightlog.Note, Channel: flightlog.GroundSpeed, Start: in.start, End: in.end,
				What:        "the flight shakes too little to tell how late the satellite speeds are",
				Consequence: "0.15 s is assumed; a declared delay in the logger map, or one firm turn in flight, is better"})
		}
	}
	vertical = horizontal
	if len(in.measured[climbRate].Time) > 1 {
		own := along.solve()
		apart, sd := math.Abs(own.Value-horizontal.Value), math.Hypot(own.SD, horizontal.SD)
		switch {
		case own.Known && horizontal.Known && apart <= 2*sd: // one receiver: the weighted mean
			horizontal = pooled(horizontal, own)
			vertical = horizontal
		case own.Known && apart > math.Max(0.05, 3*sd): // climb rate may be barometric, with a lag of its own
			vertical = own
		}
	}
	// an estimated lag is good to a hundredth of a second, which is lost in the noise of the speeds; an assumed one is not
	if horizontal.Assumed {
		in.lagSD[northSpeed], in.lagSD[eastSpeed] = horizontal.SD, horizontal.SD
	}
	if vertical.Assumed {
		in.lagSD[climbRate] = vertical.SD
	}
	if !s.SatelliteDelayDeclared {
		in.measured[northSpeed] = later(in.measured[northSpeed], -horizontal.Value)
		in.measured[eastSpeed] = later(in.measured[eastSpeed], -horizontal.Value)
		in.measured[climbRate] = later(in.measured[climbRate], -vertical.Value)
	}
	return horizontal, vertical, findings
}

// pooled is the mean of two lags weighted by their variances.
func pooled(a, b Lag) Lag {
	wa, wb := 1/(a.SD*a.SD), 1/(b.SD*b.SD)
	return Lag{Value: (wa*a.Value + wb*b.Value) / (wa + wb), SD: math.Sqrt(1 / (wa + wb)), Steps: a.Steps + b.Steps, Known: true}
}

// flyingSpeed is the airspeed above which the model is taken to fly: six tenths of the usual one.
func flyingSpeed(airspeed flightlog.Channel) float64 {
	const share = 0.6 // stalling is near it at usual speeds; common practice, no source
	var fast []float64
	for _, v := range airspeed.Value {
		if v > slowestTube {
			fast = append(fast, v)
		}
	}
	if len(fast) == 0 {
		return math.Inf(1)
	}
	return math.Max(slowestTube, share*statistic.Median(fast))
}

// airborneSpan is from the first to the last time at flying speed.
func airborneSpan(airspeed flightlog.Channel) Stretch {
	fast := flyingSpeed(airspeed)
	s := Stretch{Start: math.Inf(1), End: math.Inf(-1)}
	for i, v := range airspeed.Value {
		if v >= fast {
			s.Start, s.End = math.Min(s.Start, airspeed.Time[i]), math.Max(s.End, airspeed.Time[i])
		}
	}
	return s
}

// heightAbove is the usual height of the flight over its start, m.
func heightAbove(in *input) float64 {
	const usual = 80.0 // m, where the height is not logged; common practice, no source
	if len(in.measured[height].Value) == 0 {
		return usual
	}
	return statistic.Median(in.measured[height].Value)
}

// prior gives the belief before the measurements of an event: attitude and velocity as logged about then, wind and scale of
// the triangle as starting point only, since its data come again; standard deviations as wide as if nothing were known.
func (in *input) prior(tl *timeline, t *Triangle, n *noise) func(int, [3]float64) belief {
	var angle [3]*line
	for k := range 3 {
		angle[k] = newLine(in.measured[rollAngle+kind(k)])
	}
	north, east, climb := newLine(in.measured[northSpeed]), newLine(in.measured[eastSpeed]), in.verticalSpeed()
	up := newLine(in.measured[height])
	return func(i int, bias [3]float64) belief {
		now := tl.events[i].time
		b := belief{estimate: estimate{n: plainStates, attitude: rotationOf(angle[0].at(now)-bias[0], angle[1].at(now)-bias[1], angle[2].at(now)-bias[2])}}
		copy(b.x[atAttitudeBias:], bias[:])
		if in.vanes {
			b.n = most
		}
		b.x[atVelocity], b.x[atVelocity+1], b.x[atVelocity+2] = north.at(now), east.at(now), -climb.at(now)
		if len(up.Time) > 0 {
			b.x[atHeight] = up.at(now)
		}
		if t.Enough {
			b.x[atWind], b.x[atWind+1], b.x[atScale] = t.WindNorth, t.WindEast, t.Scale
		}
		b.spreadOut(n)
		return b
	}
}

// spreadOut sets the covariance before anything is measured.
func (b *belief) spreadOut(n *noise) {
	set := func(at, count int, sd float64) {
		for k := at; k < at+count; k++ {
			*b.p.at(k, k) = sd * sd
		}
	}
	set(atTilt, 2, priorTilt)
	set(atTilt+2, 1, priorHeading)
	set(atVelocity, 3, priorVelocity)
	set(atHeight, 1, priorHeight)
	set(atWind, 2, priorWind)
	set(atVertical, 1, n.verticalAir)
	set(atGust, 2, n.gustLevel)
	set(atGust+2, 1, n.gustVertical)
	set(atForceBias, 3, priorForceBias)
	set(atRateBias, 3, priorRateBias)
	set(atScale, 1, priorScale)
	set(atAttitudeBias, 2, priorAttitudeBias)
	set(atAttitudeBias+2, 1, priorHeadingBias)
	set(atHeightBias, 1, priorHeightBias)
	if b.n == most {
		set(atVaneBias, 2, priorVaneBias)
		set(atUpwash, 2, priorUpwash)
	}
}
