package report

// theoryMethods are what is computed without any flight.
func theoryMethods() []methodSection {
	return []methodSection{
		{
			ID: "lattice", Title: "The vortex lattice",
			Lead: "Every lifting surface is cut into panels, each with a horseshoe vortex. Their strengths are such that no air goes through any panel.",
			Equations: []equation{{
				[]string{"Σ_j Γ_j·(v_{ij} · n_i) = −(V_∞ − ω × r_i) · n_i", "F = ρ·Σ_j Γ_j·(V_j × l_j)    D_i = −½ρ·∫ Γ·v_n ds", "x/c = (1 − cos θ)/2", "x_{NP} = x − c̄·C_{mα}/C_{Lα}"},
				[]symbol{{"Γ_j", "strength of the vortex of panel j", "m²/s"}, {"v_{ij}", "velocity that a unit vortex j makes at control point i", "1/m"}, {"n_i", "normal of panel i, turned by twist, camber and controls", "1"}, {"ω × r_i", "velocity of the point by rotation", "m/s"}, {"V_j, l_j", "velocity at the vortex, and the vortex as a vector", "m/s, m"}, {"D_i", "induced drag, from the trace of the wake far behind", "N"},
					{"θ", "equal steps of it place vortices at their middles and control points at their ends, over a chord c", "rad"}, {"x", "the point that C_{mα} is about", "m"}},
			}},
			Assumed: []string{"Attached flow, thin surfaces, small angles. Left out: thickness, bodies, propeller, viscosity, free wakes.", "The wake goes straight back. Which way costs 2 to 3 % of induced drag and 0.8 % of the chord in the neutral point, and stands in the stated errors.", "Coarser grids are solved beside, and what they differ by is the ± of each number.", "A body's pitching and yawing moments come from slender-body theory where the folder describes one."},
			Sources: "Katz and Plotkin, Low-Speed Aerodynamics, section 2.12; C. E. Lan, Journal of Aircraft 11, 1974; M. M. Munk, NACA Report 121, 1923; H. Glauert, The Elements of Aerofoil and Airscrew Theory; H. Multhopp, NACA TM 1036, 1942 (from memory).",
		},
		{
			ID: "stallorder", Title: "Which surface lets go first",
			Lead: "The lift of every strip is held against the greatest lift of its section at its own Reynolds number and elevator angle. A strip at its greatest lift stays there, and its neighbours feel it.",
			Equations: []equation{{
				[]string{"c_l = attached + R·d    c_l ≤ c_{l,max}    d ≤ 0    d·(c_{l,max} − c_l) = 0", "margin = α(first wing strip at its greatest lift) − α(the foreplane's total lift stops rising)"},
				[]symbol{{"c_l", "lift of a strip", "1"}, {"R", "what a turn of one strip does to the lift of all", "1/rad"}, {"d", "turn that holds a strip at its greatest lift", "rad"}, {"margin", "positive: the foreplane lets go first", "rad"}},
			}},
			Assumed: []string{"The foreplane's lift has stopped where over 1° it gains less than a fifth of attached flow (common practice, no source).", "A model's foreplane lets go early, because its chord is short. So a model may fail this limit and never pass it.", "Left out: deep stall, spins, what happens past the greatest lift, dirt other than in the section data."},
			Sources: "Critical sections: common practice. Sivells and Neely, NACA TR 865, 1947.",
		},
		{
			ID: "similarity", Title: "To model size and back",
			Lead: "The model moves like the full-size aircraft, only in its own time, when it has the right weight and inertia for its size.",
			Equations: []equation{{
				[]string{"speed √λ    time √λ    mass λ³σ    inertia λ⁵σ    calibrated airspeed √(λσ)", "Reynolds number λ^{1.5}·σ / (μ_{model}/μ_{full})"},
				[]symbol{{"λ", "length of the model over full size", "1"}, {"σ", "density of the air at the model over that at full size", "1"}, {"μ", "viscosity of the air", "Pa·s"}},
			}},
			Assumed: []string{"Reynolds number does not carry over. Profile drag and greatest lift are corrected for it, each with an error of its own."},
			Sources: "Wolowicz, Bowman and Gilbert, NASA TP-1435, 1979.",
		},
	}
}
