// Package loads answers: what does a spar have to carry at each station, in which flight, and how much of what it
// was built for is that? It turns the air load on strips into shear, bending and torsion along a wing, a foreplane or
// a winglet, takes off the inertia of what is built in there, and draws the envelope over the flights that count.
//
// # Axes and signs
//
// Stations are y, metres from the plane of symmetry, on the right half; on a surface that stands up, metres along it
// from its inboard end. Loads are those of everything outboard of a station, a winglet at the tip included. Axes
// are datum axes (x aft, y right, z up): shear up positive, bending about the x axis through the station with the tip up
// positive, torsion about the y axis through a given x with the leading edge up positive. On a winglet "up" reads
// "inboard" and the torsion axis stands up with it. A left half is drawn as if mirrored to the right.
//
// Bending and torsion are not turned into the line of a swept spar; they are what the cut parallel to the
// plane of symmetry passes on. Torsion depends on its axis: a section says in Point where that runs.
//
// # Newtons
//
// Without a scale, results are over the dynamic pressure (m², m³), as aero.StripLoad gives them. A condition has a
// speed and with it a dynamic pressure; Scale instead gives the one at which a load shape of one lift coefficient is
// as heavy as the aircraft at a load factor. Inertia is −m·f, where f is the specific force at each mass: the load
// factor, the side load factor, and what rolling, pitching and yawing add away from the CG.
//
// # From limits to an envelope
//
// Conditions makes the list of flights from plain limits. The caller, who owns the lattice, loops over it: trims at
// the condition's lift coefficient and CG, sets aileron, rudder and sideslip, takes the strips of that state and,
// where the condition is asymmetric, those of the mirrored state (sideslip, roll and yaw rate, aileron and rudder
// reversed). Beam.Lines turns them into lines, Envelope takes the extremes at each station with the condition that
// gives each, and Ratios sets them against a part's table.
//
// In the rolling conditions the roll is steady: the strips hold the air load of the ailerons and that of a roll rate
// whose damping takes up their moment (SteadyRollRate). The moment before, ailerons out and no roll yet, is heavier
// at the root and is listed where it is asked for; the roll acceleration then belongs in Flown.RateChanges, and
// zero there, no relief, errs on the heavy side on the half that goes up.
//
// # Sources
//
// Cuts of a beam and inertia forces: any text on statics and rigid bodies; the formulas stand at the code. Gusts,
// manoeuvre speed and the list of conditions: the pattern of 14 CFR part 23 and CS-23 as they stood before 2017,
// from memory; the rule that binds is the one that the local authority names.
//
// # Left out
//
// Air loads on bodies, side gusts, unchecked and checked pitching manoeuvres, rudder thrown against a sideslip,
// aileron at speeds above the manoeuvre speed, elastic twist, gust dynamics (foreplane and wing meet a gust one after
// the other; gusts are flown in trim at their load factor), the tilt between lift and the datum z axis in the inertia
// (1 % of it near the stall), thrust and drag along the datum x axis on masses, landing and ground loads, flutter.
//
// The figures size nothing by themselves: proof tests, local codes and licensed practice do, and none of this says
// that an aircraft is safe to fly.
package loads
