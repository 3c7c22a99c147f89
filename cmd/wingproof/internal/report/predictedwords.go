package report

// predictedWords says what the quantities are that only theory gives.
func predictedWords(quantity string) (words string, ok bool) {
	switch quantity {
	case "alpha":
		return "angle of attack of the datum axis", true
	case "trim_elevator":
		return "elevator in trim", true
	case "elevator_per_lift":
		return "elevator per lift coefficient in trim", true
	case "pitch_stiffness":
		return "pitch stiffness Cm_α", true
	case "pitch_damping":
		return "pitch damping Cm_q", true
	case "lift_by_pitch_rate":
		return "lift by pitch rate CL_q", true
	case "elevator_power":
		return "elevator power Cm_δe", true
	case "elevator_lift":
		return "lift by elevator CL_δe", true
	case "elevator_hinge_moment":
		return "elevator hinge moment C_h, ideal flow", true
	case "elevator_hinge_moment_by_alpha":
		return "its slope by angle of attack", true
	case "elevator_hinge_moment_by_deflection":
		return "its slope by elevator", true
	case "side_force_slope":
		return "side force slope CY_β", true
	case "dihedral_effect":
		return "dihedral effect Cl_β", true
	case "roll_damping":
		return "roll damping Cl_p", true
	case "yaw_damping":
		return "yaw damping Cn_r", true
	case "yaw_due_to_roll":
		return "yaw due to roll Cn_p", true
	case "roll_due_to_yaw":
		return "roll due to yaw Cl_r", true
	case "aileron_power":
		return "aileron power Cl_δa", true
	case "rudder_power":
		return "rudder power Cn_δr, one rudder", true
	case "stall_order_margin":
		return "stall order: wing after foreplane by, least case", true
	case "stall_trim_margin":
		return "elevator at its stop: left to the wing's maximum, least case", true
	case "best_span_efficiency":
		return "best span efficiency that the outline allows", true
	}
	return "", false
}
