package report

import "wingproof/cmd/wingproof/internal/evidence"

// fitSection is a block of the table of fits: quantities that belong together.
type fitSection struct {
	heading    string
	quantities []string
	scale      string // only numbers of this size; empty for any
}

func fitSections() []fitSection {
	modes := []string{"short_period_frequency", "short_period_damping", "phugoid_frequency", "phugoid_damping", "dutch_roll_frequency", "dutch_roll_damping",
		"roll_time_constant", "spiral_root", "spiral_time_to_double"}
	return []fitSection{
		{"Balance", []string{"neutral_point", "elevator_per_lift", "manoeuvre_point", "elevator_per_g"}, ""},
		{"Lift and drag", []string{"trimmed_lift_curve_slope", "lift_curve_slope", "zero_lift_alpha", "max_lift_coefficient", "stall_alpha", "zero_lift_drag", "drag_due_to_lift", "span_efficiency"}, ""},
		{"Nose up and down", []string{"pitch_stiffness", "pitch_damping", "elevator_power", "elevator_lift", "lift_by_pitch_rate", "pitch_by_alpha_rate"}, ""},
		{"Yaw and roll", []string{"directional_stiffness", "dihedral_effect", "side_force_slope", "rudder_power", "aileron_power", "roll_damping", "yaw_damping",
			"yaw_due_to_roll", "roll_due_to_yaw", "yaw_by_aileron", "roll_by_rudder", "side_force_by_rudder", "side_force_by_aileron", "side_force_by_roll_rate", "side_force_by_yaw_rate"}, ""},
		{"Steady sideslips, per sideslip", []string{"rudder_per_sideslip", "aileron_per_sideslip", "side_force_per_sideslip", "bank_per_sideslip"}, ""},
		{"Motions of the model", modes, evidence.ModelScale},
		{"Motions at full size", modes, evidence.FullSize},
	}
}

// fitWords says a quantity as a row of the table of fits, where the heading of its section tells the rest.
func fitWords(quantity string) string {
	switch quantity {
	case "elevator_per_lift":
		return "elevator per CL in trim"
	case "max_lift_coefficient":
		return "greatest CL, trimmed"
	case "rudder_per_sideslip":
		return "rudder"
	case "aileron_per_sideslip":
		return "aileron"
	case "side_force_per_sideslip":
		return "side force, controls moving along"
	case "bank_per_sideslip":
		return "bank"
	}
	return flownWords(quantity)
}

// slim tells whether every number of a section is per radian, so that its heading says so once.
func slim(these []evidence.Estimate) bool {
	for _, e := range these {
		if e.Unit != "1/rad" {
			return false
		}
	}
	return len(these) > 0
}
