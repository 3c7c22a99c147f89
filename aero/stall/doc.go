// Package stall answers, for an aircraft with a foreplane: as the angle of attack rises, does the foreplane
// let go before the wing, and by how much?
//
// A foreplane that lets go first lowers the nose and keeps the wing flying. A wing that lets go first, ahead
// of or together with the foreplane, raises the nose and deepens the stall. The stall order margin is
//
//	α at which the first wing station reaches its maximum lift − α at which the foreplane's total lift stops rising
//
// and is positive when the foreplane goes first.
//
// # Method
//
// Critical sections: the section lift of every strip, from linear theory, is compared with the maximum lift
// of its aerofoil at its own Reynolds number, control deflection and surface state. That is common practice
// and the reading that textbooks give for where a wing starts to stall. Past the first critical section the
// section data enter the span loading, in the spirit of J. C. Sivells and R. H. Neely, Method for Calculating
// Wing Characteristics by Lifting-Line Theory Using Nonlinear Section Lift Data, NACA TR 865, 1947, with the
// simplest of section curves: straight up to the maximum, flat beyond (measured curves bend before it
// and fall after). A strip beyond its maximum is held there by turning its normal down by just as much as needed,
// and every other strip feels that turn,
//
//	cl = attached + R·d,   cl ≤ maximum,   d ≤ 0,   d·(maximum − cl) = 0
//
// which is a linear complementarity problem. So a foreplane that has let go sheds less downwash on the wing
// behind its span, and less upwash outboard of its tips, than the attached solution says: wing stations
// inboard get to their maximum sooner, those outboard later. And held strips leave their neighbours less
// lift, so that the foreplane stops rising sooner. Without a response matrix the method is the plain
// comparison, which misses all three.
//
// # When the foreplane's lift has stopped rising
//
// A section held at its maximum goes flat, not down, and the strips by a tip are held late and at little
// lift: the total bends over and creeps. It counts as stopped where over a window of one degree
// (Case.StopWindow) it gains less than a fifth (Case.StopShare) of what attached flow would gain.
//
// The fifth stands for the fall that is left out. Where a share s of the slope is left, and the rest of the
// strips really fell by k times their attached slope, the total would stop rising at s = k/(1 + k). A fifth
// is k = 1/4: 0.025 per degree against an attached 0.1, the gentle stall of a thick section (common practice,
// no source). Sections that fall faster stop sooner than said here, which errs on the safe side; for sections
// with a flatter top give a smaller share. The window makes the answer smooth: without it the slope falls by
// a step with every strip that lets go. It lies so that a lift which stops at once is found exactly where it
// stops.
//
// What counts as stopped matters more than the grid. On the foreplane of this package's tests, which stalls
// from the root outward, half, a fifth and a tenth give margins of 1.8°, 0.9° and −1.1°; at a fifth, 6 to 36
// strips agree within 0.1°, at a tenth they differ by a degree. Order.Stops gives the α for other shares, and
// a note says so when the sign hangs on it.
//
// The stop must last: a pause after which the lift rises again before the wing's α does not count, because
// counting it would flatter the margin.
//
// # Wing stations
//
// Every strip marked Wing counts, the narrow ones at the tip too: leaving them out can only raise the margin,
// and a tip that goes first is the danger looked for. Close to a free tip, linear theory unloads the strips
// by itself. Where a winglet keeps the tip loaded, or a vortex grazes it, the outermost strips are the least
// trustworthy; Order.WingInboard is the same α without the outer TipBand, for comparison, and a note says so
// when the first station lies there.
//
// # What to ask
//
// The hard cases are the aft CG with the elevator at its nose-up stop (foreplane trailing edge down), and the
// forward CG in trim; each at the model's and at the full-size Reynolds number, each clean and contaminated
// (rain, insects, ice). One Case is one of those: the caller's functions carry elevator, Reynolds number and
// state. The elevator of a trimmed case follows the attached aircraft and ends at its stop.
//
// A small model's foreplane lets go early, because its short chord flies at a low Reynolds number. A model
// that lowers its nose in flight therefore does not show that the full-size aircraft will: model flights may
// fail this limit and never pass it. Full-size section data, clean and contaminated, and careful flight
// testing by licensed practice decide.
//
// # Units and signs
//
// Angles are radians, lengths metres. Lift is over the dynamic pressure, m². Section lift and its maximum
// refer to one and the same chord and direction, chosen by the caller. A turn is positive with the trailing
// edge down, as camber. Strips are those of the right half (or of both halves: all areas alike).
//
// # Left out
//
// Deep stall, spins, loss of lift past the maximum, dynamic stall and hysteresis, the fall of control power,
// propeller and body, spanwise flow of the boundary layer on a swept wing, strake vortices, sections held at
// their negative maximum. A margin from here is no statement that a stall is safe.
package stall
