// Package manoeuvre answers: what was flown in this recording, and when? It finds level runs, climbs, glides, turns,
// wind circles, decelerations to the stall, doublets, multisteps, pull-ups and steady sideslips by themselves, in the words of a test sheet.
//
// # Axes and units
//
// Those of flightlog: SI and radians, body axes, elevator trailing edge down, aileron rolling right and rudder trailing edge
// left positive. Times are seconds of the recording.
//
// # Road
//
//  1. Motion goes onto a clock of 0.1 s, controls onto one of 0.02 s: the mean of the samples about each instant, a straight
//     line across short holes of a sensor. A control holds its last value, as a servo does, through any time without samples
//     when it is logged on change, else through a short hole only. Nothing is filled into a longer hole.
//  2. In the air is where the airspeed is above 0.55 of its median in motion, or the altitude 15 m above the start.
//  3. Each kind is looked for in what the kinds of higher rank leave.
//
// # Ranks
//
// Where two overlap the first of these wins, and splits or shortens the other: input with its free response; pull-up; deceleration;
// sideslip; turn or circle; glide; climb; level run. So a doublet inside a level run leaves two runs, if both last long enough. A circle is
// reported once, as a circle, although it is a turn too. A glide at falling speed that ends in a stall is a
// deceleration. Inputs on two controls at a time are both reported.
//
// # Rules
//
// All limits are in limits.go. They are common practice, no source, unless said otherwise; the reasons:
//
//   - Level run: power on, path within 3° of the horizon, airspeed changing by less than 3 % a second, bank below 15°, for
//     5 s or more. Wider than a test point needs: this is what a pilot calls a level run. A light gust out of the limits for 1.5 s does not end it.
//   - Climb: power on, path above 3°; glide: throttle below a twentieth, path not upwards. Both let the speed change by 5 % a
//     second, since height is traded for speed at either end. A climb may turn, up to 40° of bank; a glide may not.
//   - Turn: bank above 10° and within 6° (or a fifth, if that is more) of its median for 5 s, path within 7° of the horizon and 5° on
//     average, heading changing at two thirds or more of the rate that the bank gives in coordinated flight. A climbing turn is a climb.
//   - Circle: a turn through 360° or more, 5° of which may be missing, since no compass is better; airspeed within a tenth.
//   - Sideslip: rudder off its median in flight by 2.5° (or a tenth of its travel in the flight), held within a third,
//     bank within 6° of its median, heading changing by less than 3.5° a second on average, for 3 s.
//   - Deceleration: airspeed falling by 0.12 m/s² or more for 3 s, by 15 % in all, to within 12 % of the lowest of the flight and below 0.85
//     of the median (1.4 times the usual lift coefficient), and coming back by 8 % soon behind it, at most 6 s of mushing between.
//     Speed that stays low was only brought down for the next run. The break is the first instant at which the nose goes down, by 4°/s
//     against the rest of the deceleration, although the elevator has not been lowered. A model that mushes
//     down has none.
//   - Pull-up: the elevator nearly still for a second, then one step, over within 0.35 s, held flat for 0.6 to 3.5 s and let go as quickly; path within 5° of
//     the horizon ahead of it, throttle left alone, bank below 15°, and a load factor of 1.15 or more in the second half of the step. Which way the elevator goes does
//     not matter. In 60 rehearsed pull-ups of sloppy hands 55 were found, and one was taken for another.
//   - Input: see below.
//
// # How inputs are told from flying
//
// A hand on the stick is never quiet, so that no threshold finds an input. The pattern does: about a second nearly still; a step;
// steps to alternate sides of the value ahead, each within 0.08 and 2.5 s, of comparable size; the same value again,
// nearly still for most of a second. Two steps are a doublet, more are a multistep. In numbers, where A is the smallest step:
//
//   - A is at least 0.5°, 4 % of what the control travels in the flight, and three times its usual wander: the median over the flight of
//     its spread within 2 s. On a flight flown with lively ailerons a small aileron input is therefore not seen.
//   - The spread ahead and behind is below 0.35 A, and the value behind within 0.45 A of the value ahead.
//   - The steps differ in size by a factor of 4 at most, in length by 2.6 (doublet) or 8 (multistep): a careless hand does not do worse.
//   - Each movement is quick: 0.42 of the smaller step beside it within 0.12 s, the whole within about 0.3 s. A pilot's corrections are
//     slower. An input by a hand that takes longer than that is not seen.
//   - A step longer than 0.6 s is flat: its spread is below 0.22 of it. Corrections are round or decay.
//
// The limits lie between what 300 inputs of rehearsed sloppy pilots showed at the worst (spread ahead 0.26 A, value behind 0.28 A
// off, sizes within 2.4, quickness 0.50, spread of a long step 0.16) and what their corrections showed. The test that counts
// what is found flies other flights.
//
// The free response lasts until the control leaves the place where it was let go, by a quarter of A or three times its spread
// there; until rudder or ailerons move by half of A, behind an input on the other; until the throttle moves by 0.15, behind one
// on the elevator; until the next input on any control; at most 12 s, about once round of a model's phugoid.
//
// # Left out
//
// Inputs that are no steps: sweeps, sines, single pulses. Rolls, loops, spins, take-off and landing. Turns between
// cards are turns: nobody can see in a recording whether a turn was on the sheet. A turn and another one behind it at
// the same bank are one turn, and may add up to a circle. Inputs while an active stabiliser
// stirs the controls. Steps shorter than two samples.
package manoeuvre
