package similitude

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// advise says what the ballast does not reach, by how much, and what would help; mass and CG first.
func (b Ballasting) advise(p Proposal, ideal Body) []string {
	var out []string
	step := p.Step
	switch {
	case p.Met:
	case p.WantedMass < -step:
		out = append(out, b.tooHeavy())
	case math.Abs(p.WantedMass) <= step:
		out = append(out, b.moveWhatIsThere())
	default:
		out = append(out, b.shortOf(p), b.whatWouldDo(p, ideal))
	}
	for _, r := range p.Rows[2:] {
		if words := b.leftOver(r); words != "" {
			out = append(out, words)
		}
	}
	return out
}

// tooHeavy: nothing can be added that makes a model lighter.
func (b Ballasting) tooHeavy() string {
	over := b.Now.Mass - b.Target.Mass
	words := fmt.Sprintf("the model is %s too heavy as weighed: only taking weight out helps", kilograms(over))
	if x := (b.Now.Mass*b.Now.CG.X - b.Target.Mass*b.Target.CG.X) / over; b.within(x) {
		words += fmt.Sprintf("; %s taken out at x = %s would bring mass and CG onto their targets", kilograms(over), millimetres(x))
	} else {
		words += ", and then " + move(b.Target.Mass*(b.Target.CG.X-b.Now.CG.X))
	}
	return words
}

// within tells whether a station may well lie inside the model: no further from its CG than three radii of gyration, or, where
// Iy is not known, than a metre. Common practice, no source.
func (b Ballasting) within(x float64) bool {
	reach := 1.0
	if b.Now.Iy > 0 {
		reach = 3 * math.Sqrt(b.Now.Iy/b.Now.Mass)
	}
	return math.Abs(x-b.Now.CG.X) <= reach
}

// move words a moment [kg·m, aft positive] that weight inside the model has to make up.
func move(moment float64) string {
	return fmt.Sprintf("move weight that is in the model, such as 0.5 kg by %s %s", millimetres(math.Abs(moment)/0.5), foreAft(moment))
}

// moveWhatIsThere: the mass is right and the CG is not.
func (b Ballasting) moveWhatIsThere() string {
	moment := b.Now.Mass * (b.Target.CG.X - b.Now.CG.X)
	return fmt.Sprintf("the mass as weighed is right and the CG lies %s too far %s: take no ballast, %s",
		millimetres(math.Abs(b.Now.CG.X-b.Target.CG.X)), foreAft(-moment), move(moment))
}

// shortOf says by how much mass and CG x miss.
func (b Ballasting) shortOf(p Proposal) string {
	var parts []string
	if lack := b.Target.Mass - p.Body.Mass; math.Abs(lack) > 1.5*p.Step {
		parts = append(parts, fmt.Sprintf("the mass stays %s too %s", kilograms(math.Abs(lack)), map[bool]string{true: "small", false: "large"}[lack > 0]))
	}
	if off := p.Body.CG.X - b.Target.CG.X; math.Abs(off) > 5e-5 {
		parts = append(parts, fmt.Sprintf("the CG stays %s too far %s", millimetres(math.Abs(off)), foreAft(off)))
	}
	if len(p.Full) > 0 {
		parts = append(parts, "full: "+strings.Join(p.Full, ", "))
	}
	if len(parts) == 0 {
		return "mass and CG miss by less than the scale shows"
	}
	return strings.Join(parts, "; ")
}

// whatWouldDo looks for the smallest change of the bays that helps: a place beyond them, more room in all, or more in one.
func (b Ballasting) whatWouldDo(p Proposal, ideal Body) string {
	if len(b.Bays) == 0 {
		return "no bay is stated"
	}
	front, back, room := b.reachOfBays()
	x, end := *p.WantedX, 0.0
	wanted := fmt.Sprintf("%s of ballast would have to have its own centre at x = %s", kilograms(p.WantedMass), millimetres(x))
	switch {
	case x > back+1e-6:
		wanted, end = fmt.Sprintf("%s, and the bays end at %s", wanted, millimetres(back)), back
	case x < front-1e-6:
		wanted, end = fmt.Sprintf("%s, and the bays begin at %s", wanted, millimetres(front)), front
	}
	if x > back+1e-6 || x < front-1e-6 {
		inside := move(ideal.Mass * (b.Target.CG.X - ideal.CG.X))
		if !b.within(x) {
			return wanted + ": besides, " + inside
		}
		return fmt.Sprintf("%s: an empty bay %s further %s or beyond would help; or, besides this ballast, %s", wanted, millimetres(math.Abs(x-end)), foreAft(x-end), inside)
	}
	if bay, most := b.enoughIn(); bay != "" {
		return fmt.Sprintf("%s: with room for %s in bay %s it comes out", wanted, kilograms(most), bay)
	}
	if room < p.WantedMass {
		return fmt.Sprintf("%s, and the bays hold %s in all: room for %s more would help, about x = %s", wanted, kilograms(room), kilograms(p.WantedMass-room), b.lackingAt(ideal))
	}
	return wanted + ": more room in the bays that are full would help"
}

// lackingAt is where what is still missing would have to sit.
func (b Ballasting) lackingAt(ideal Body) string {
	lack := b.Target.Mass - ideal.Mass
	return millimetres((b.Target.Mass*b.Target.CG.X - ideal.Mass*ideal.CG.X) / lack)
}

func (b Ballasting) reachOfBays() (front, back, room float64) {
	front, back = math.Inf(1), math.Inf(-1)
	for _, bay := range b.Bays {
		front, back, room = math.Min(front, bay.From), math.Max(back, bay.To), room+bay.Most
	}
	return front, back, room
}

// enoughIn is the first full bay that, with room enough, brings mass and CG x onto their targets, and how much it then holds.
func (b Ballasting) enoughIn() (bay string, most float64) {
	at := spots(b.Bays)
	for i := range b.Bays {
		try := b
		try.Bays = append([]Bay(nil), b.Bays...)
		try.Bays[i].Most = 10 * b.Target.Mass
		masses, err := try.solve(at)
		if err != nil || !try.met(b.Now.with(at, masses)) {
			continue
		}
		for k, s := range at {
			if s.bay == i {
				most += masses[k]
			}
		}
		return b.Bays[i].Name, most
	}
	return "", 0
}

// leftOver words a CG height or an inertia that stays off its target by more than what matters.
func (b Ballasting) leftOver(r BallastRow) string {
	if r.Quantity == "cg_z" {
		if math.Abs(r.Left) < 0.002 {
			return ""
		}
		return fmt.Sprintf("the CG stays %s too %s: bays %s would help", millimetres(math.Abs(r.Left)), map[bool]string{true: "high", false: "low"}[r.Left > 0],
			map[bool]string{true: "lower down", false: "higher up"}[r.Left > 0])
	}
	if r.Percent == nil || math.Abs(*r.Percent) < negligible || r.Quantity == "Ixz" {
		return ""
	}
	already := 100 * (r.Now/r.Target - 1)
	switch {
	case r.Left < 0:
		where := map[string]string{"Ix": "out in the wing", "Iy": "forward and aft", "Iz": "forward, aft or out in the wing"}[r.Quantity]
		return fmt.Sprintf("%s stays %.1f %% too small: bays further %s would raise it", r.Quantity, -*r.Percent, where)
	case already > 0.5**r.Percent:
		where := map[string]string{"Ix": "the outer wing", "Iy": "nose and tail", "Iz": "nose, tail and outer wing"}[r.Quantity]
		return fmt.Sprintf("%s stays %.1f %% too large, of that %.1f %% as weighed, and ballast only adds: take weight out of %s, or move it towards the CG", r.Quantity, *r.Percent, already, where)
	}
	return fmt.Sprintf("%s stays %.1f %% too large: bays nearer to the CG would help", r.Quantity, *r.Percent)
}

// kilograms shows grams below ten kilograms.
func kilograms(m float64) string {
	decimals := 3
	if m >= 10 {
		decimals = 2
	}
	text := strconv.FormatFloat(m, 'f', decimals, 64)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".") + " kg"
}

func millimetres(x float64) string {
	decimals := 0
	if math.Abs(x) < 0.02 {
		decimals = 1
	}
	return strings.Replace(strconv.FormatFloat(1000*x, 'f', decimals, 64), "-", "−", 1) + " mm"
}

// foreAft: x counts aft.
func foreAft(x float64) string {
	if x > 0 {
		return "aft"
	}
	return "forward"
}
