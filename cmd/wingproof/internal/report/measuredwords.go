package report

// measuredWords says what the quantities are that only flights give.
func measuredWords(quantity string) (words string, ok bool) {
	words, ok = map[string]string{
		"max_lift_coefficient":    "greatest lift coefficient, trimmed",
		"stall_alpha":             "angle of attack there",
		"manoeuvre_point":         "manoeuvre point",
		"elevator_per_g":          "elevator per g",
		"rudder_per_sideslip":     "rudder per sideslip, steady heading",
		"aileron_per_sideslip":    "aileron per sideslip, steady heading",
		"side_force_per_sideslip": "side force per sideslip, controls moving along",
		"bank_per_sideslip":       "bank per sideslip, steady heading",
		"pitch_by_alpha_rate":     "pitch by rate of angle of attack Cm_α̇",
		"side_force_by_roll_rate": "side force by roll rate CY_p",
		"side_force_by_yaw_rate":  "side force by yaw rate CY_r",
		"side_force_by_aileron":   "side force by aileron CY_δa",
		"side_force_by_rudder":    "side force by rudder CY_δr, one rudder",
		"roll_by_rudder":          "roll by rudder Cl_δr, one rudder",
		"yaw_by_aileron":          "yaw by aileron Cn_δa",
		"short_period_frequency":  "short period, frequency",
		"short_period_damping":    "short period, damping ratio",
		"phugoid_frequency":       "phugoid, frequency",
		"phugoid_damping":         "phugoid, damping ratio",
		"dutch_roll_frequency":    "Dutch roll, frequency",
		"dutch_roll_damping":      "Dutch roll, damping ratio",
		"roll_time_constant":      "roll, time constant",
		"spiral_root":             "spiral, root (positive grows)",
		"spiral_time_to_double":   "spiral, time to double",
	}[quantity]
	return words, ok
}

// flownWords is quantityWords for a number out of flights: what turns the nose and what lets the flow lag behind it cannot be told apart there.
func flownWords(quantity string) string {
	switch quantity {
	case "pitch_damping":
		return "pitch damping Cm_q + Cm_α̇"
	case "yaw_damping":
		return "yaw damping Cn_r − Cn_β̇"
	}
	return quantityWords(quantity)
}
