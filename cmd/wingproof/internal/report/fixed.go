package report

// caution is a danger and what is usual about it.
type caution struct{ Head, Text string }

// cautions are the same on every page; they defer to local codes and to licensed practice.
func cautions() []caution {
	return []caution{
		{"What this page is not", "It never says that an aircraft, model or full size, is safe to fly. It sorts evidence about shape. Local codes, the authority in charge and licensed people decide about building, inspecting and flying."},
		{"Flying the model", "A model of this size can kill. Keep people out of its path and out of the propeller's plane, keep a clear area that suits its mass and speed, follow the airspace and model-flying rules of the place, check radio range and fail-safe before each flight, and let the pilot call a stop at any time."},
		{"Moving the centre of gravity", "Begin forward, go aft in small steps, and stop where the measured margin or the feel of the model gets worse than planned. Secure ballast so that it cannot shift. A centre of gravity behind the neutral point can make a model impossible to hold within seconds."},
		{"Stalls", "Fly them high, with room to lose the model. On a foreplane aircraft the foreplane must let go first; when the wing lets go first the nose may rise and the stall may not end. A small model's foreplane stalls early, so a good stall on the model proves nothing for full size."},
		{"Loading tests", "A loaded spar stores energy. Stand clear, never under it, load in steps, listen and look for creaks and creep, unload in order, and have a licensed person set the loads and read the result."},
		{"Flutter", "Nothing here looks at flutter, mass balance, free play or stiffness of controls. A bigger winglet, foreplane or rudder changes all of them. They need their own tests and a sign-off before flight."},
	}
}

// notJudged is said when the verdict brings no list of its own.
func notJudged() []string {
	return []string{"flutter and mass balance", "aeroelastic twist", "deep stall and spin", "contaminated surfaces in flight", "systems"}
}

func methods() []Method {
	return []Method{
		{"Carrying to model size and back", "The model flies at equal lift coefficient and equal ratio of weight to inertia forces (Froude similarity); viscosity does not scale and gets an error of its own.", "Wolowicz, Bowman and Gilbert, NASA TP-1435, 1979"},
		{"Air", "Pressure, temperature and density by the standard atmosphere, corrected to the day where the crew wrote it down.", "U.S. Standard Atmosphere, 1976"},
		{"Prediction", "A vortex lattice over all lifting surfaces, trimmed with the elevator as in flight; its errors are stated beforehand for each quantity.", "errors: common practice, no source, unless the program states one"},
		{"Neutral point from flight", "The trim slope of elevator over lift at several CGs, carried to where it is zero; the interval is Fieller's and may have no end.", "E. C. Fieller, Some problems in interval estimation, J. Roy. Stat. Soc. B 16, 1954"},
		{"Anchoring", "Predictions and flights are joined by their stated errors; errors from the small size are never shrunk by flying the small size.", "common practice, no source"},
		{"Judging", "Each limit is tried on many joint draws of what may be true; 95 % is asked for, and a result too close to 95 % counts as not reached.", "common practice, no source"},
	}
}
