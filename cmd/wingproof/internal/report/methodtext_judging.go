package report

// judgingMethods lead from theory and flights to a word on the wall.
func judgingMethods() []methodSection {
	return []methodSection{
		{
			ID: "belief", Title: "Belief and anchoring",
			Lead: "Before any flight, theory is believed with stated errors. Flights of one combination also teach about the others, by the errors that they share.",
			Equations: []equation{{
				[]string{"truth = prediction + B + Σ_{choices} ε_{size} + ε_{combination}", "after = before + K·(y − h(after) − H·(before − after))    K = P·H^T·(H·P·H^T + N)^{−1}", "true trim slope = rate·(x_{CG} − x_{NP})"},
				[]symbol{{"B", "error of theory for the whole aircraft: one draw, never made smaller by its own result", "of the number"}, {"ε", "error of each size, and of each combination by itself", "of the number"}, {"y, N", "what the flights measured, and its covariance", ""}, {"h, H", "what the belief says they should measure, and its slope; repeated until it stands still", ""}, {"P", "covariance of the belief", ""}},
			}, {
				[]string{"χ² = ν^T·(H·P·H^T + N)^{−1}·ν  against the 95 % point for as many numbers as were measured"},
				[]symbol{{"ν", "what was measured less what theory expected", ""}},
			}},
			Assumed: []string{"When the test fails, all errors of theory grow by one factor until it passes, and the board says that flights disagree with theory.", "When it passes, the errors between sizes are rescaled by what flights show, with a weight of five degrees of freedom for the stated ones and never below half."},
			Sources: "The update is the textbook Kalman measurement update. Stated errors: common practice, no source, unless the program states one; they are listed below.",
		},
		{
			ID: "fullsize", Title: "To full size",
			Lead: "What the model flies is not yet the aircraft. The steps in between have errors that no flight of the model makes smaller.",
			Equations: []equation{{
				[]string{"truth_{full} = truth_{model} + step + Δ_{Re} + Δ_{power} + Δ_{shape}"},
				[]symbol{{"step", "computed change with Reynolds number", "of the number"}, {"Δ", "errors of Reynolds number, power and built shape: the same for all sizes", "of the number"}},
			}},
			Assumed: []string{"Weights, CG and inertia come with their own standard deviations; where one of them decides, the board asks for scales and not for a flight."},
			Sources: "Common practice, no source.",
		},
		{
			ID: "draws", Title: "Judging by draws",
			Lead: "Twenty thousand aircraft are drawn that all could be the true one. A limit holds with 95 % when it holds in so many of them; all limits are tried on the same ones.",
			Equations: []equation{{
				[]string{"reached:  P ≥ 0.95 + 3·√(0.95·0.05/n)", "bending over allowable = max over the stations |M(y)| / M_{allowable}(y)"},
				[]symbol{{"P", "share of the draws in which it holds", "1"}, {"n", "number of draws, 20,000", "1"}, {"M", "bending moment at a station y, at the worst flight that counts", "N·m"}},
			}},
			Assumed: []string{"Good: all limits hold together. Out: one limit fails with 95 %. Else unproven. A size is out when every combination with it is out.", "A part comes free when no open choice shapes it and all its limits hold together in every combination still possible. A choice is settled by a person with a name and a reason only."},
			Sources: "Common practice, no source. Loads: the pattern of 14 CFR 23.333 to 23.455 as they stood before 2017 (from memory); the local authority names the rule that binds.",
		},
		{
			ID: "falsefreeze", Title: "How often a free part turned out wrong",
			Lead:    "Programs with a known truth were simulated and judged after every flight. A false freeze is a part that a board called final although a limit failed in truth.",
			Assumed: []string{"Errors as assumed here: 18 of 3,497 parts, 0.5 % (at most 0.8 %, 95 % bound); 78 % of the hours of a judge who knows the truth were cleared.", "Errors of theory 1.5 times as large as assumed: 107 of 2,960 parts, 3.6 % (at most 4.2 %).", "Every limit close to its edge: 11 of 715 parts (at most 2.5 %), and 11 % of the hours.", "These are simulations of an invented aircraft. They say how the judging works when the stated errors are right, not that they are right for yours."},
			Sources: "Simulated with this program: 510 programs an arm, 12 flights each; table in the program's test data.",
		},
	}
}
