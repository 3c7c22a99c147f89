// Package demo makes an invented program: an aircraft, a shop, a season of model flights and the truth
// behind them.
//
// The flights are simulated with the lattice's derivatives moved by model errors drawn from the stated
// distribution (one bias for the aircraft, one draw a level, one a configuration), in wind and gusts, and
// recorded by sensors with errors of their own. The truth goes to a file beside the program folder that
// nothing else reads. Equal seeds give equal folders.
package demo
