package report

// term is a word of aerodynamics or of the board, in the shop's words.
type term struct{ Word, Means string }

// termGroup is words that are looked up together.
type termGroup struct {
	Head  string
	Terms []term
}

// glossary explains every word of the trade that board, choice pages and flight pages show.
func glossary() []termGroup {
	return []termGroup{
		{"The board", boardTerms()},
		{"How sure a number is", evidenceTerms()},
		{"Balance and steering", balanceTerms()},
		{"Lift, drag and the stall", liftTerms()},
		{"Natural motions", motionTerms()},
		{"Weights, wheels and loads", loadTerms()},
		{"Flights of the model", flightTerms()},
	}
}

func boardTerms() []term {
	return []term{
		{"Start, carry on, done", "Start: the shape is final and the work has not begun. Carry on: final, and under way. Done: final, and fitted."},
		{"Wait, stop and ask", "Wait: the shape may still change and nothing is begun. Stop and ask: work is under way on a shape that may change, or the part is built to a size that is out."},
		{"Shape final, shape may change", "Final: no open question touches this part's shape and its limits hold with 95 % or better in everything still possible. May change: at least one of these is missing."},
		{"Choice, size (or level), configuration", "A choice is an open question (which winglet). A size, or level, is one answer (the tall one). A configuration, or combination, is one answer to every question."},
		{"Limit", "Something that must hold, such as a least static margin. The shop sets limits in program.toml, each with its source."},
		{"Out, good, unproven", "Out: fails a limit with 95 % or better. Good: all limits hold together with 95 % or better, flown where flights are asked for. Unproven: neither can be said yet."},
		{"Decided (settled), reopened, taken back", "A choice is decided by a person with a name and a reason, never by the program. It can be opened again, and a wrong row taken back; nothing is erased."},
		{"Sign-off", "A dated word by a competent person on something that this program cannot judge, such as flutter."},
		{"Draft, sheet, void", "A draft is not issued: do not work from it. A sheet has a number and a name; it is void as soon as one with a higher number hangs."},
		{"Plug, mould, laid up, ready, fitted", "The stages of a part: the milled positive, the negative taken from it, fibres and resin cured in it, and the part on the aircraft. Drawn: on paper only. Ready: made on the bench or bought, without a mould, and not yet on the aircraft."},
		{"Built to", "The size that a part was begun for. If another size is chosen, that work is lost."},
		{"What would clear it", "The decision, flight, measurement or sign-off after which the part need not wait any more."},
		{"Hours waiting", "Shop hours that are still to be put into parts that wait for the same thing."},
	}
}

func evidenceTerms() []term {
	return []term{
		{"Measured, predicted, anchored", "Measured: from the model's flights. Predicted: from computation alone. Anchored: the computation corrected by the flights and carried to full size."},
		{"95 % interval", "The range that should hold the true value in 19 of 20 such cases. Wide means: we know little."},
		{"Not determined, weak", "Not determined: the flights cannot tell, and the page says what would. Weak: they tell something, by a road that is not quite sound."},
		{"Holds with 97 %, 97 % sure", "In 97 of 100 aircraft that fit all we know, the limit holds. 95 is asked for; a result too close to 95 counts as not reached."},
		{"Flights agree with theory", "Measured and predicted numbers lie as close together as their stated errors allow. If not, all errors are taken wider and fewer parts come free."},
		{"Difference of two sizes", "What one size has over another. It is known better than either number alone, since errors that both share drop out."},
		{"Forecast", "What flights that are not flown yet would likely tell. It is never evidence."},
		{"Model error", "How wrong theory may be, stated beforehand for each number."},
		{"Scale effect (Reynolds number)", "Air is stickier for a small model. The Reynolds number tells by how much; drag and greatest lift change with it."},
	}
}

func balanceTerms() []term {
	return []term{
		{"Datum", "The fixed point that all lengths along the aircraft are measured from."},
		{"Centre of gravity (CG)", "The point where the aircraft balances; given in metres behind the datum and in percent of the mean chord."},
		{"Mean aerodynamic chord", "The length of an average slice of the wing, front to back; the yardstick for balance."},
		{"Neutral point", "The balance point at which the aircraft no longer rights itself in pitch. The CG must stay ahead of it."},
		{"Static margin, aft margin, nose-up room", "How far the CG lies ahead of the neutral point, in percent of the mean chord. Too little: twitchy or unflyable. Too much: hard to raise the nose."},
		{"Trimmed, trim", "With the elevator set so that the aircraft holds its speed by itself."},
		{"Elevator per lift, elevator trim rate", "How much the elevator must move to fly slower or faster. It goes to nothing at the neutral point."},
		{"Elevator per g, manoeuvre point", "How much elevator a tight turn or a pull-up takes; the CG at which it would take none."},
		{"Trim room at approach, rotation", "Elevator travel that is left when flying slowly to land; the speed at which the nose comes up on take-off."},
		{"Sideslip", "The angle by which the aircraft flies somewhat sideways."},
		{"Directional stiffness", "How strongly the aircraft swings its nose back into the wind; winglets make most of it here."},
		{"Dihedral effect", "How strongly a sideslip rolls the aircraft away from it."},
		{"Stiffness, damping, power (derivatives)", "Derivatives say how strongly the air answers. Stiffness: pushes back. Damping: slows a swing. Power: what one degree of elevator, rudder or aileron does."},
	}
}

func liftTerms() []term {
	return []term{
		{"Angle of attack", "The angle at which the air meets the wing from below."},
		{"Lift coefficient, lift curve, lift slope", "Lift made comparable between sizes and speeds; the curve tells how it grows as the nose rises, the slope how steeply."},
		{"Span load", "How the lift is shared along the span."},
		{"Drag polar, drag at no lift, drag due to lift", "Drag against lift. One part is there without lift; the other, induced drag, is the price of lift."},
		{"Span efficiency", "How little drag the lift costs compared with an ideal wing of the same span; 1 is ideal."},
		{"Stall, letting go", "Beyond a certain angle the air no longer follows the surface and its lift stops growing."},
		{"Stall order", "Which surface lets go first. The foreplane must: then the nose drops by itself. Positive means foreplane first."},
		{"Greatest lift, stalling speed", "The most lift there is before the stall, and the slowest speed at which it carries the weight."},
		{"Contaminated", "With rain, insects or ice on the surface: it lets go earlier."},
	}
}

func motionTerms() []term {
	return []term{
		{"Short period", "The quick nodding after a bump. It should die away at once."},
		{"Phugoid", "The slow rise and fall of speed and height, over many seconds."},
		{"Dutch roll", "Wagging of the nose and rolling together."},
		{"Roll time constant", "How soon a roll rate settles after the ailerons are moved."},
		{"Spiral, time to double", "The slow fall into a turn with hands off; how long until the bank has doubled."},
		{"Frequency, damping ratio", "How quickly it swings, and how soon it comes to rest: 0 swings for ever, 1 does not swing at all."},
		{"Level 1, 2, 3", "Grades of a standard for flying qualities (MIL-F-8785C): 1 is clearly adequate, 3 is only just controllable. They say nothing about safety of flight."},
	}
}

func loadTerms() []term {
	return []term{
		{"Loading", "Who and what is aboard: pilots, fuel, baggage. It sets weight and CG."},
		{"Bending over allowable", "The load in a spar over what it was built to carry. Above 1, or 100 %, it is too much."},
		{"Allowable, proof load, limit load", "Allowable: what the part may carry. Limit load: the most that flying should ever ask. A proof load test shows whether it is carried."},
		{"Tip-back, nose wheel share, overturn", "Whether the aircraft sits back on its tail, how much weight the nose wheel carries, and whether it falls over sideways on its wheels."},
		{"Weight and balance", "Weight against CG, with every loading in it and the limits that hold the CG in."},
		{"Fuel travel", "How far the CG moves as the tanks empty."},
		{"Inertia", "How hard the aircraft is to set turning; found by swinging it."},
		{"Flutter, mass balance", "Shaking of a surface that feeds itself and can break it within seconds; weights in a control surface that prevent it. Not judged here."},
	}
}

func flightTerms() []term {
	return []term{
		{"Log, logger", "The recording of one flight, and the box that made it."},
		{"Finding", "Something wrong or missing in a log, with its time and what is lost by it. A refusal leaves the flight out."},
		{"Test point", "A stretch of a few seconds in which the model flew steadily."},
		{"Glide, turn, circle", "Propeller at idle; steady turns; a full circle, which tells the wind."},
		{"Doublet, multistep", "Stick one way and back, once or several times, to see how the model answers."},
		{"Steady sideslip", "Rudder one way, ailerons the other, flying straight."},
		{"Deceleration", "Slowing down with wings level until a surface lets go. Flown high."},
		{"Airspeed scale", "By how much the airspeed sensor reads too high or too low."},
		{"Path reconstruction", "Working out angle of attack and sideslip from how the model moved and turned, without vanes."},
		{"Power: idle, level, full", "What the propeller did. Numbers at different power are kept apart."},
		{"Ballast, scaling", "Weights in the model that make it move like the full-size aircraft, only in its own time."},
		{"Load factor", "How many times its weight the wings carry: 1 in level flight, more in a turn or a pull-up."},
	}
}
