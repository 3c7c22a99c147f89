package quality

import (
	"cmp"
	"slices"

	"wingproof/flightlog"
)

// Inspect looks for what is wrong with the samples of a recording. The package comment lists every finding with its limits.
// Findings come sorted by start, then by channel. It does not repeat rec.Findings and changes nothing.
//
// A flightlog.Refusal means that test points from the recording would be wrong throughout. A Loss takes its channel out over
// its time range, and the rest is good. A Note takes nothing away.
func Inspect(rec *flightlog.Recording) []flightlog.Finding {
	e, findings := inspect(rec)
	if e != nil {
		findings = append(append(findings, e.found...), e.stops...)
	}
	return sorted(findings)
}

// InspectIn gives what Inspect and InAircraft find together, at the cost of Inspect alone. What is about the aircraft comes last.
// Of a control whose travel the aircraft states, only the ends of that travel count as end stops.
func InspectIn(rec *flightlog.Recording, a Aircraft) []flightlog.Finding {
	e, findings := inspect(rec)
	if e == nil {
		return sorted(findings)
	}
	e.stops = slices.DeleteFunc(e.stops, func(f flightlog.Finding) bool { return a.Travel[f.Channel].stated() })
	own := append(slices.Clone(e.found), e.stops...)
	return append(sorted(own), sorted(e.inAircraft(a))...)
}

// inspect gives the evidence after every check that needs no aircraft; nil when nothing that goes with time can be looked at.
func inspect(rec *flightlog.Recording) (*evidence, []flightlog.Finding) {
	scans, spikes := scansOf(rec), map[flightlog.Quantity][]int{}
	if out := clockSize(rec, scans); out != nil {
		return nil, out
	}
	found := gaps(rec, scans) // before dropouts leave gaps of their own
	whole := rec
	rec, drops := withoutDropouts(rec)
	rec, jumps := withoutJumps(rec)
	if rec != whole {
		scans = scansOf(rec)
	}
	e := &evidence{rec: rec, scans: scans, spikes: spikes, condemned: map[flightlog.Quantity]bool{}, blocks: map[blockKey][]float64{}}
	e.found = append(found, drops...)
	all := map[flightlog.Quantity][]int{}
	for _, q := range flightlog.Quantities() {
		if c, ok := rec.Channels[q]; ok {
			spikes[q] = Spikes(q, c)
			all[q] = spikes[q]
			if float64(len(spikes[q])) > noSpikes*float64(len(c.Value)) {
				spikes[q] = nil
			}
		}
	}
	e.s = newSeries(rec, scans, spikes)
	e.s.markFlying()
	e.stretches()
	e.sizes()
	e.jumpFindings(jumps)
	e.compare()
	for _, q := range flightlog.Quantities() {
		if !e.condemned[q] { // a wrong unit makes jumps of any motion
			e.found = append(e.found, spikeFinding(q, rec.Channels[q], all[q])...)
		}
	}
	return e, nil
}

func scansOf(rec *flightlog.Recording) map[flightlog.Quantity]scan {
	out := map[flightlog.Quantity]scan{}
	for _, q := range flightlog.Quantities() {
		if c, ok := rec.Channels[q]; ok {
			out[q] = newScan(c)
		}
	}
	return out
}

// stretches finds what is wrong with a channel for a while, and takes it out.
func (e *evidence) stretches() {
	for _, q := range flightlog.Quantities() {
		c, ok := e.rec.Channels[q]
		if !ok || len(c.Value) < shortestRun {
			continue
		}
		clipped, clips := saturation(q, c, e.scans[q], e.s)
		hung := frozen(q, c, e.scans[q], e.s, clips)
		for _, f := range append(clipped, hung...) {
			e.s.blank(q, f.Start, f.End)
			e.found = append(e.found, f)
		}
		e.stops = append(e.stops, stops(q, c, e.scans[q], e.s)...)
	}
}

// sizes finds numbers that no flight holds.
func (e *evidence) sizes() {
	e.angleSizes()
	e.airSizes()
	e.throttleSize()
	e.gravity()
}

// compare holds channels that physics ties together against one another. The order matters: each step leans on channels that
// the steps before have found good, or put right.
func (e *evidence) compare() {
	e.blame(e.heightRelations())
	e.warmth() // density enters the airspeed
	e.speeds()
	e.blame(e.acrossRelations())
	e.blame(e.alongRelations())
	e.exchangedSpeeds()
	e.sideways()
	e.controlSigns()
	e.quietControls()
	e.climbByThrottle()
}

// sorted orders findings by start, then by channel.
func sorted(findings []flightlog.Finding) []flightlog.Finding {
	slices.SortStableFunc(findings, func(a, b flightlog.Finding) int {
		return cmp.Or(cmp.Compare(a.Start, b.Start), cmp.Compare(a.Channel, b.Channel))
	})
	return findings
}
