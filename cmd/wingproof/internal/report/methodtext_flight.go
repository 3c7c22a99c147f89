package report

// flightMethods are the numbers that test points tell.
func flightMethods() []methodSection {
	return []methodSection{
		{
			ID: "neutral", Title: "Trim and neutral point",
			Lead: "The further aft the aircraft balances, the less elevator a change of speed takes. Where it would take none is the neutral point.",
			Equations: []equation{{
				[]string{"δ_e = a_0 + a_1·x + (b_0 + b_1·x)·C_L    x_{NP} = −b_0 / b_1", "(b_0 + b_1·x)² ≤ t²·(v_{00} + 2x·v_{01} + x²·v_{11})", "static margin = 100·(x_{NP} − x_{CG}) / c̄"},
				[]symbol{{"δ_e", "elevator, trailing edge down positive: raises the nose on a foreplane", "rad"}, {"C_L", "lift coefficient", "1"}, {"x", "centre of gravity (CG) aft of datum, at full size", "m"}, {"x_{NP}", "neutral point aft of datum; the second line is the set of all x that the data allow", "m"}, {"v", "variances and covariance of b_0 and b_1", "rad²"}, {"t", "Student's t at 95 %, flights less parameters", "1"}, {"c̄", "mean aerodynamic chord", "m"}, {"static margin", "positive is stable", "%"}},
			}},
			Assumed: []string{"In linear theory trim is exactly of this form. The set may have no end: then the number is not determined, and the page says which CG would do.", "Points at different power are not pooled."},
			Sources: "Linear trim: Perkins and Hage, Airplane Performance, Stability and Control, 1949 (from memory). The set: E. C. Fieller, Journal of the Royal Statistical Society B 16, 1954; Graybill and Iyer, Regression Analysis, chapter 6.",
		},
		{
			ID: "lift", Title: "Lift slope, trimmed and with the elevator held",
			Lead: "In steady flight the elevator moves with angle of attack, so that the trimmed slope is not the slope of the wing and foreplane alone. Flights at two CGs or more part the two.",
			Equations: []equation{{
				[]string{"C_L = C_{L0} + C_{Lα}·α + C_{Lδ}·δ_e", "dα/dC_L = 1/C_{Lα} − (C_{Lδ}/C_{Lα})·dδ_e/dC_L"},
				[]symbol{{"C_{Lα}", "lift slope, elevator held", "1/rad"}, {"C_{Lδ}", "lift by the elevator", "1/rad"}, {"dα/dC_L, dδ_e/dC_L", "slopes of one flight in trim, corrected for the error of C_L", "rad"}},
			}},
			Assumed: []string{"The greatest lift and the angle of the stall come from decelerations, with what noise adds to a peak taken off. A stall in which the wing let go first is printed as a danger."},
			Sources: "Slopes with an error in both: W. A. Fuller, Measurement Error Models, 1987, section 1.2 (from memory). The interval: T. W. Anderson and H. Rubin, Annals of Mathematical Statistics 20, 1949; Guggenberger, Kleibergen, Mavroeidis and Chen, Econometrica 80, 2012 (both from memory).",
		},
		{
			ID: "drag", Title: "Drag of glides",
			Lead: "A parabola through the glides, with one draw of vertical air for each flight.",
			Equations: []equation{{
				[]string{"C_D = C_{D,min} + k·(C_L − C_{L,m})² + (w/V)·C_L", "e = 1 / (π·A·k)"},
				[]symbol{{"k", "factor of drag due to lift", "1"}, {"C_{L,m}", "lift at the least drag; 0 unless the data support another", "1"}, {"w", "steady vertical air of one flight", "m/s"}, {"A", "aspect ratio b²/S of the main wing", "1"}, {"e", "span efficiency", "1"}},
			}},
			Assumed: []string{"The drag of a stopped or windmilling propeller is in it, and the page says so."},
			Sources: "Degrees of freedom: F. E. Satterthwaite, Biometrics Bulletin 2, 1946 (from memory). The form is that of any textbook.",
		},
		{
			ID: "slips", Title: "Directional stiffness from steady sideslips",
			Lead: "In a steady sideslip the rudder holds what the sideslip turns. With the rudder's power known from a doublet, the slope tells the stiffness.",
			Equations: []equation{{
				[]string{"C_{nβ} = −d/dβ (C_{nδr}·δ_r + C_{nδa}·δ_a + C_{np}·p̂ + C_{nr}·r̂)", "C_{lβ} = −d/dβ (C_{lδr}·δ_r + C_{lδa}·δ_a + C_{lp}·p̂ + C_{lr}·r̂)"},
				[]symbol{{"C_{nβ}, C_{lβ}", "directional stiffness, dihedral effect", "1/rad"}, {"δ_r, δ_a", "rudder (trailing edge left positive), aileron", "rad"}, {"p̂, r̂", "rates of roll and yaw times b/2V", "rad"}, {"C_{nδr}, C_{lδa} …", "powers and dampings, borrowed from doublets", "1/rad"}},
			}},
			Assumed: []string{"Several roads to one number (sideslips, doublets, free Dutch roll) are tested against each other and pooled with what they share; where they disagree the interval grows by √(χ²/degrees) and each is printed."},
			Sources: "B. Etkin, Dynamics of Flight, steady sideslips (from memory). Pooling: B. L. Welch, Biometrika 38, 1951; R. T. Birge, Physical Review 40, 1932 (both from memory).",
		},
	}
}
