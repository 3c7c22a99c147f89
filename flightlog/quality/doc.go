// Package quality looks for what is wrong with a recording before anybody trusts it. Each finding has a time range, a channel,
// a severity (note, loss, refusal) and a consequence that names the results which cannot be had, and when. The rest of
// the recording is good and goes on.
//
// Inspect needs the recording alone. InAircraft is told of what aircraft it is said to be, and InspectIn gives both at
// the cost of one. SI, radians, axes and signs are those of package flightlog.
//
// # What is found for a while
//
//   - gaps: five usual steps and a quarter of a second without a sample (loss). A channel that is logged only when it changes has none.
//   - frozen: one number repeated for a second (two for satellites in flight) and for longer than the channel's own coarseness explains
//     (loss). Controls, throttle and temperature may rest and are never called frozen.
//   - dropouts: numbers that cannot be, such as a pressure of zero or an altitude of tens of kilometres, three samples or more (loss).
//   - heading jumps: by 30° and more between two samples, and it stays there (loss of the heading behind).
//   - spikes: single samples beyond what a model does between samples (note), more than a hundredth of a channel (loss). Spikes of
//     three samples on end or more pass.
//   - saturation: peaks clipped at one number, the extreme of the flight, twice or for 0.3 s (loss). One short clipped peak passes.
//   - end stops: a control that rests at its furthest angle for a second in flight (note: steady flight there counts), where it is never as still
//     elsewhere in the air, or motion ends at that very angle twice (once, from 15° on) with no other rest for three seconds around. What a
//     steady hand holds between rests is no end stop. With the aircraft's travel stated, its ends count and nothing else.
//   - blocked tube: airspeed against the wind triangle, |v_ground − wind|, with one wind and one scale a flight, in level (2.2 m/s and 11 %) and
//     in changes: it stands still, or impact plus static pressure does, while the triangle moves by 0.6 m/s within 15 s (loss). Without
//     satellites: against the lift carried at the attitude flown (4 m/s and 20 %), and against the forward acceleration. A tube that blocks
//     while nothing changes shows only when something does. Start and end are good to a few seconds.
//
// # What is found for a whole channel
//
//   - the clock: days, or steps of microseconds.
//   - sizes: gravity on the down axis and, at rest, on the three axes together (5 %); static pressure, air temperature, throttle; angles beyond
//     what they can reach; headings that close their circle at 360 or at 6.28·π/180; elevator and aileron that hardly move.
//   - signs of roll, pitch and yaw rate, roll and pitch angle, heading, track, forward acceleration, altitude, climb rate: every pair that
//     physics ties together votes, and the channel is named that explains all contradictions. Where only two channels speak of one
//     another, the finding says that it may be the other.
//   - units of the same channels: a factor of 3 between angles and rates, 1.5 between heights.
//   - airspeed: a scale that is more than 9 % off by the wind triangle over all headings; ground speed by the turns flown (1.6 times).
//   - right acceleration, vanes: against sideslip and lift. Aileron and rudder: against the rates that follow them, for the sideslip flown; the
//     rudder beside the aileron, since sideslips and turns cross the two.
//   - exchanged columns: forward and right acceleration, rates, airspeed and ground speed.
//   - throttle upside down, by the energy that is gained.
//   - air temperature 5.5 % off by climb rate and static pressure, as °C read as °F is.
//   - in an aircraft: the elevator's sign; the slope of n·m·g/(q·S) against angle of attack, from glides and level flight at
//     different speeds; lift coefficients that no wing carries; controls at the ends of their stated travel.
//
// # What cannot be told
//
//   - airspeed and ground speed exchanged in less than 0.8 m/s of wind: they are then the same, and nothing is lost.
//   - airspeed and ground speed both wrong by one factor of less than 1.6, as both read in mph for kt.
//   - a static pressure that is wrong by a factor that leaves it between 300 and 1100 hPa, as mmHg read as hPa: heights by it stay right.
//   - the air temperature where the climb rate comes from the barometer (then a note that says so), or within 15 K.
//   - a rudder's sign where no rudder is flown or a mixer moves it as one with the aileron, and its unit where it is read too small.
//   - an end stop below 15° that is met once by a hand that is still at other times, or held between rests; the aircraft's travel tells.
//   - the aircraft: mass, wing area and airspeed enter alike; from the aspect ratio alone a lift slope 22 % too small or 36 % too large
//     passes, with theory's slope 16 % and 20 %. A flight at one speed says nothing (a note says that). Thrust is taken for lift's
//     neighbour: on climbs at full power α carries it along.
//   - latency of sensors. Up to 0.2 s between satellite and the rest is allowed for.
//
// Findings of the reader (rows left out, time that repeats or runs backward) are in the recording and are not repeated.
//
// # Numbers
//
// Every threshold stands beside its reason. Those derived from rehearsed flights were set on other flights than the ones
// on which the tests count what is found.
package quality
