package identify

import "math"

// finestStep is about the step on which a logged command is drawn out before the servo follows it, s: a fraction of any servo's lag.
// Common practice, no source.
const finestStep = 0.005

// drawing is a logged command between its samples. A pilot's step lies somewhere between the last sample before and the first after
// it: the command is drawn as a straight line, which has its mean where a step that may be anywhere has its expectation. Held commands
// would come half a sample late.
type drawing struct {
	values []float64 // means from each place of the fine grid to the next
	parts  int       // places a sample
	step   float64   // between places, s
}

// drawn draws a command out.
func drawn(command []float64, step float64) drawing {
	parts := max(1, int(math.Ceil(step/finestStep)))
	d := drawing{values: make([]float64, (len(command)-1)*parts+1), parts: parts, step: step / float64(parts)}
	for k := range d.values {
		at, part := k/parts, (float64(k%parts)+0.5)/float64(parts)
		next := min(at+1, len(command)-1)
		d.values[k] = command[at] + float64((command[next]-command[at])*part)
	}
	return d
}

// behind is where the surface is at each sample of the log.
func (d drawing) behind(s Servo) []float64 {
	fine := s.Surface(d.values, d.step, nil)
	out := make([]float64, (len(fine)-1)/d.parts+1)
	for k := range out {
		out[k] = fine[k*d.parts]
	}
	return out
}

// behindLogged is where the surface is at each sample of a logged command.
func (s Servo) behindLogged(command []float64, step float64) []float64 {
	if !(s.Delay > 0) && s.instant() {
		return s.Surface(command, step, nil)
	}
	return drawn(command, step).behind(s)
}
