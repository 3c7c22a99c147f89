// Package program reads, checks, creates and safely changes a program folder: program.toml, the tables
// beside it and the geometry that they point to. It answers: is everything readable, what is missing, and
// what exactly was meant?
//
// # Units and axes
//
// Everything leaves the package in SI and radians. Keys and heads carry their unit (cg_mm, speed_kt); any
// unit of the same kind may stand there. Geometry and CGs are full-size metres in datum axes: x aft, y right,
// z up. CGs that the tables state at the model are divided by length_ratio on the way in; masses and
// moments of inertia of the model stay those of the model. Percent becomes a fraction, but for limits on percent
// quantities, which stay in percent. A logger's offset is in the unit of its channel.
//
// # Logger maps
//
// [logger.NAME] says what each column of a kind of log holds: channels = [{ column, is, unit }], each with sign (-1 turns
// it), scale, offset, calibration (cell, value: servo pulses become surface angles, as in [[1000, -20], [1500, 0], [2000, 20]],
// and unit is then that of the angle) and delay_s (how much later than its instant a sample is written, up to 10 s; it is
// taken off the channel's time). sensors = { inertial, tube, vanes, antenna } says where the sensors sit, each
// { x_mm, y_mm, z_mm } at model size from the model's datum: x aft, y right, z up. What is not stated is not guessed. Any
// unit of length or time may stand behind these keys.
//
// # Mistakes
//
// Load reports every mistake of every file at once, as Mistakes, each with file, line, column and what would
// be right. Doubts that stop nothing are Warnings; a table or a log that is not there is no mistake; a
// broken chain of decisions is an alarm. A newer format is refused in words.
//
// # Tables
//
// Tables are read as spreadsheets save them: comma, semicolon or tab; decimal comma where the separator is
// not a comma; UTF-8 with or without byte-order mark, UTF-16, Windows-1252; any line end; lines that begin with
// # above the heads; a first line sep=;; empty rows and columns behind the table; heads in any order, letter
// case and with spaces for underscores; dates as 2026-03-14, 14.3.2026, or 3/4/2026 where date_order says which
// is the day; backslashes in paths. A number that may be read in two ways is refused.
//
// cards.csv, which need not be there, holds what is planned to be flown, a manoeuvre a row: card, flight (empty: any),
// manoeuvre, control (of a doublet or multistep), speed_kt (calibrated), speed_tolerance_percent (10), bank_deg, repeats (1),
// notes, and one column a choice with the level. What is empty may be anything.
//
// # Writing
//
// Only New writes program.toml, and only into an empty folder. SettleOn writes decisions.csv and Issue writes sheets.csv: each adds one
// row behind the others, in the dialect of the file, under a lock, atomically, and only while the folder is the one that was judged.
// Each row holds the digest of the row before it (Decision.Canonical, Sheet.SHA256), over meanings and not over bytes, so that
// later changes show and saving the table again from a spreadsheet does not. The chain of decisions cannot see that its last rows were cut
// off or changed; sheets issued since can, for they hold the digest of the newest decision. It is no signature: who can write
// the files can write new chains.
//
// inputs_sha256 is the digest of a list of every file that the row rests on (Inputs); the list is kept as
// evidence/DIGEST.txt, so that Inputs.Since can tell what came in, changed or went. Record says what became of every decision.
//
// # Geometry
//
// Sizes that levels change, and that commands sweep (EditOf, Edit.Apply), share one table: name, unit, range and what
// it does. While a folder is read, every combination of levels is built; what no computation can use is a
// mistake at the level's place, and surfaces that pass through one another, or a foreplane in the wing's plane, are
// warnings. Speeds of the load envelope are equivalent airspeeds; the cruise is a true airspeed.
//
// # Left out
//
// Propulsion tables are not read. Polars and fuselage stations are handed on as they stand,
// without interpolation. One table a file; no formulas.
package program
