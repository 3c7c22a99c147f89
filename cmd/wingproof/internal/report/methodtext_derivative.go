package report

// derivativeMethods are derivatives and motions from doublets and multisteps, and how intervals are made.
func derivativeMethods() []methodSection {
	return []methodSection{
		{
			ID: "identification", Title: "Derivatives from doublets and multisteps",
			Lead: "The equations of motion are flown again on paper with the controls that were logged. The derivatives are those with which rates, forces, attitude and airspeed come out as they were measured.",
			Equations: []equation{{
				[]string{"U̇ = cos α·(X − b + r·v − g·sin θ) + sin α·(Z + g·cos θ·cos φ − p·v)", "α̇ = q + [cos α·(Z + g·cos θ·cos φ − p·v) − sin α·(X − b + r·v − g·sin θ)] / U", "q̇ = [M + (I_z − I_x)·p·r − I_{xz}·(p² − r²)] / I_y    θ̇ = q·cos φ − r·sin φ",
					"C_L = C_{L0} + C_{Lα}·α + C_{Lq}·qc̄/2V + C_{Lδ}·δ_e", "C_m = C_{m0} + C_{mα}·α + C_{mq}·qc̄/2V + C_{mδ}·δ_e"},
				[]symbol{{"U", "speed in the plane of symmetry", "m/s"}, {"p, q, r", "rates of roll, pitch and yaw", "rad/s"}, {"θ, φ", "pitch and roll angle", "rad"}, {"b", "bias of the forward accelerometer", "m/s²"}, {"M, C_m", "pitching moment and its coefficient", "N·m, 1"}, {"I", "moments and product of inertia of that day", "kg·m²"}},
			}, {
				[]string{"v̇ = Y + p·w − r·u + g·cos θ·sin φ    φ̇ = p + tan θ·(q·sin φ + r·cos φ)", "ṗ = (I_z·L′ + I_{xz}·N′) / (I_x·I_z − I_{xz}²)    ṙ = (I_{xz}·L′ + I_x·N′) / (I_x·I_z − I_{xz}²)", "C_n = C_{n0} + C_{nβ}·β + C_{np}·pb/2V + C_{nr}·rb/2V + C_{nδa}·δ_a + C_{nδr}·δ_r"},
				[]symbol{{"u, v, w", "velocity along the body axes", "m/s"}, {"Y", "specific side force", "m/s²"}, {"L′, N′", "rolling and yawing moment with the couplings of the rates", "N·m"}, {"C_n", "yawing moment coefficient; side force C_Y and roll C_l have the same form", "1"}, {"b", "span", "m"}},
			}, {
				[]string{"maximise  −½·Σ_i (ν_i^T·B_i^{−1}·ν_i + ln det B_i)"},
				[]symbol{{"ν_i", "what a Kalman filter of motion and gusts had not foreseen at sample i", "as measured"}, {"B_i", "its covariance", "as measured, squared"}},
			}},
			Assumed: []string{"Gusts are a first-order process 30 m long (common practice, no source); as they go to zero, this becomes output error.", "What the inputs did not excite is not quoted. A stabiliser that moved the surfaces is warned of.",
				"Left out: stall, lag of downwash, slipstream, elastic deflection, gust gradients."},
			Sources: "Maine and Iliff, NASA RP-1168, 1986; Klein and Morelli, Aircraft System Identification, 2006, chapters 5 to 7; Morelli and Klein, Journal of Guidance 20, 1997; Gupta and Mehra, IEEE Transactions on Automatic Control 19, 1974; Etkin, Dynamics of Atmospheric Flight (all from memory).",
		},
		{
			ID: "motions", Title: "Natural motions",
			Lead: "Short period, phugoid, Dutch roll, roll and spiral are the roots of the linear equations of motion, with full-size mass and inertia. Beside that, what swings after the controls come to rest is read off the recording.",
			Equations: []equation{{
				[]string{"y(t) = e^{−σt}·(A·cos √D t + B·sin √D t / √D) + c + d·t", "ω² = σ² + D    ζ = σ/ω"},
				[]symbol{{"y", "rate of turn", "rad/s"}, {"σ", "decay rate", "1/s"}, {"D", "square of the damped frequency", "rad²/s²"}, {"ω", "frequency", "rad/s"}, {"ζ", "damping ratio", "1"}},
			}},
			Assumed: []string{"Measured pitch damping is C_{mq} + C_{mα̇}, yaw damping C_{nr} − C_{nβ̇}·cos α: theory is compared with the same sums.", "Levels of flying qualities: MIL-F-8785C, Class I."},
			Sources: "Etkin, Dynamics of Atmospheric Flight. Poles to begin with: Hua and Sarkar, IEEE Transactions ASSP 38, 1990; amplitudes: Golub and Pereyra, SIAM Journal on Numerical Analysis 10, 1973 (both from memory).",
		},
		{
			ID: "intervals", Title: "Intervals: flights are the units",
			Lead: "Fifty samples of one flight share its errors and count as one. What all flights share is kept apart by name, and more flying does not shrink it.",
			Equations: []equation{{
				[]string{"v = σ²·k + τ²    Σ r²/v = degrees", "sd² = sd_{own}² + Σ_s common_s²", "covariance of two numbers = Σ_s common_s·common′_s"},
				[]symbol{{"v", "variance of what one flight says", "of the number, squared"}, {"σ², k", "scatter inside flights, and what a flight's own points make of it", ""}, {"τ²", "variance between flights, pooled over the program", ""}, {"r", "what a flight leaves over from the line of all", ""},
					{"sd_{own}", "the number's own standard deviation", ""}, {"common_s", "signed effect of one standard deviation of a shared error s: airspeed scale, CG, mass, density, mounting", ""}},
			}},
			Assumed: []string{"An interval is meant to hold the truth in 19 of 20 cases. Whether it does was tried on thousands of simulated programs (README, How far to trust it).", "A wild flight counts less and is named; nothing is dropped silently."},
			Sources: "R. C. Paule and J. Mandel, Journal of Research of the NBS 87, 1982; G. Knapp and J. Hartung, Statistics in Medicine 22, 2003 (both from memory).",
		},
	}
}
