package prediction

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// miss notes once what could not be taken into account.
func (f *loadFlier) miss(what string) {
	if !slices.Contains(f.missing, what) {
		f.missing = append(f.missing, what)
	}
}

// unstated says what the program leaves out of the list, and what would add it.
func (f *loadFlier) unstated() []string {
	full := f.program.FullSize
	var out []string
	say := func(missing bool, words string) {
		if missing {
			out = append(out, words)
		}
	}
	say(full.ManoeuvreSpeed == 0, fmt.Sprintf("full aileron, rudder and sideslip are left out and the limit load is flown at the lift coefficient %.1f alone, because no manoeuvre speed is stated; add manoeuvre_speed_kt to [full_size]", Lift))
	say(full.ManoeuvreSpeed > 0 && len(f.ailerons) == 0, "full aileron is left out, because no hinge has control = \"aileron\"")
	say(full.ManoeuvreSpeed > 0 && len(f.rudders) == 0, "full rudder is left out, because no hinge on a winglet or fin has a control")
	say(!f.elevator, "nothing is trimmed, because no hinge has control = \"elevator\"")
	say(full.DiveSpeed == 0, "loads at the dive speed are left out, because none is stated; add dive_speed_kt to [full_size]")
	say(full.NegativeLimitLoadFactor == 0, "loads downwards are left out, because no negative limit is stated; add negative_limit_load_factor to [full_size]")
	say(full.GustCruise == 0 || full.CruiseSpeed == 0, "gusts at the cruising speed are left out, because none is stated; add gust_cruise_m_s to [full_size]")
	say(full.GustDive == 0 || full.DiveSpeed == 0, "gusts at the dive speed are left out, because none is stated; add gust_dive_m_s and dive_speed_kt to [full_size]")
	light := f.massless()
	say(len(light) > 0, "the structure of "+strings.Join(light, ", ")+" relieves nothing, on the heavy side, because its mass is not stated; add mass_kg to its [[lifting_surface]]")
	_, _, ok := LoadedRange(f.program)
	say(!ok, "the gross mass is flown at one CG alone, because no loading flies or the empty weight is not stated; add a [[loading]], empty_mass_kg, empty_cg_x_m and empty_cg_z_m")
	say(ok && !f.tanked, "fuel along the surfaces relieves nothing, on the heavy side, because no loading says where it lies; add span_from_m and span_to_m to its item")
	say(ok && f.tanked && !f.made, "the gross mass is flown without fuel along the surfaces, on the heavy side, because no loading with such fuel weighs as much; add the [[loading]] that makes up the gross mass")
	return out
}

// massless names the surfaces without a stated mass.
func (f *loadFlier) massless() []string {
	var out []string
	for _, s := range f.airframe.Surfaces {
		stated := false
		for _, m := range f.program.Masses {
			stated = stated || m.Surface == s.Name
		}
		if !stated {
			out = append(out, s.Name)
		}
	}
	return out
}

// beyondStops says how many flights ask more of the elevator than it has.
func beyondStops(list []LoadCondition) []string {
	count, worst := 0, LoadCondition{}
	for _, c := range list {
		if c.ElevatorBeyond > 1e-9 {
			count++
		}
		if c.ElevatorBeyond > worst.ElevatorBeyond {
			worst = c
		}
	}
	if count == 0 {
		return nil
	}
	return []string{fmt.Sprintf("in %d of %d load conditions the elevator would have to go past its stop, by up to %.1f° (%s): steady flight does not get there, and the loads stand on the heavy side",
		count, len(list), worst.ElevatorBeyond*180/math.Pi, worst.Name)}
}
