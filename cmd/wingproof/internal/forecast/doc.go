// Package forecast flies planned cards in simulation and says how wide the intervals will be behind them: "six more flights of tall and long
// at two CGs: neutral point ± 14 mm to ± 6 mm".
//
// # What is flown
//
// The aircraft as it is believed: neutral point, lift slope, trim rate and directional stiffness of the study's anchored beliefs; the
// derivatives that flights determined; drag and greatest lift as measured; the trim of angle of attack and elevator that the test points
// show; the rest from the lattice. Its weather is that of flights already flown, its recorder has the channels, places and rates of a
// logger of the program. Where flights already count, new ones are flown with the instruments that those show: the same tube, the same
// calibration. Where none does, one set of shared errors is drawn for each rehearsal from the stated standard deviations.
//
// # What is done with it
//
// Each log is written, read through a logger map and reduced as a real one, in memory. The study is carried on with all flights together
// (study.With): fits, beliefs and judging are the program's own, and rest on the rehearsed flights as they would on real ones.
//
// # What is said
//
// Half-widths of 95 % intervals now and afterwards, and the probability of each limit. One rehearsal is one draw, so that the centre of an
// interval afterwards means nothing and is not given; with several, the median width and the spread. A probability afterwards holds if the
// truth is where it is believed. What part of an interval comes from errors that all flights share is told apart: more flights do not
// shrink it.
//
// Every random stream is seeded by the seed, the number of the rehearsal and the name of the flight, so that the result does not hang on
// how many processors there are. Stations are full-size metres aft of datum, everything else SI and radians.
package forecast
