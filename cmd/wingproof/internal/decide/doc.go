// Package decide turns predictions with stated errors and flight evidence into anchored beliefs, judges
// every configuration against the limits and against the parts that are already built, and says for each
// part whether its shape is final.
//
// # Question
//
// May this part be started, or can the shape still change under it? The answer must not be wrong in the
// costly direction: a part called frozen whose shape changes later is scrap.
//
// # Way
//
//  1. Belief. truth = prediction + bias + level errors + interaction, jointly Gaussian over quantities and
//     configurations (theory.go). Flights of one configuration teach about the others through the terms
//     that they share.
//  2. Anchoring. Trim slopes and direct measurements update that belief in closed form (observe.go,
//     anchor.go). True trim slopes are rate·(CG − neutral point), a product of two beliefs, so the update is
//     linearised about its own result until that stands still. Nothing ever rests on a ratio "x ± sd".
//  3. Agreement. All innovations together are held against χ² at 95 % (agreement.go). Where flights and
//     theory disagree the model errors grow until they agree, and the verdict says so.
//  4. Full size. Known steps and errors of the step, common to all configurations, that no model flight
//     shrinks (draws.go).
//  5. Judging. Joint draws with common random numbers for all configurations and limits (judge.go). A
//     probability within three Monte-Carlo standard errors of 95 % counts as not reached.
//     What the draws say is one piece of plain data (assessment.go), which parts and decisions do not enter;
//     contrasts and stations of limits come out of the same draws (judging.go).
//  6. Board. Choices, levels and parts by the rules of levels.go and board.go, with reasons in the shop's
//     language (which says size where the tables say level) and the chain of numbers behind them.
//  7. What would clear a pending part (plan.go): the fewest decisions that the evidence already allows, else
//     the measurement that lessens the greatest doubt, then sign-offs. The board asks for a flight only where
//     this program reads the quantity from logs (informs.go), and says so where it does not.
//
// # Units and axes
//
// SI and radians, full-size metres in datum axes (x aft, z up), except static margin, nose-gear share and
// fuel CG travel, which are percent. Lengths at model scale are written as full-size metres too.
//
// # Same input, same verdict
//
// Pure: no files, no clock, no printing. Every random stream is seeded by a hash of the program's seed and
// of the names of what is drawn, so that neither the order of rows nor the number of processors matters,
// and a new level leaves the draws of the others alone.
//
// # Left out
//
// Flutter, aeroelastic twist, deep stall and spin, contaminated surfaces in flight, systems. The full-size
// errors of different quantities are drawn independently. Beliefs are Gaussian: a limit far in the tail of
// one quantity rests on that.
//
// # Sources
//
// The update is the textbook Gaussian (Kalman) measurement update with iterated linearisation; draws from
// the updated belief are made by conditioning prior draws on perturbed measurements. Default model errors
// are common practice, no source; each can be replaced in the program folder.
package decide
