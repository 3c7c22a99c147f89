// Package flightlog holds a recording of a model flight: named channels in SI units, each on its own
// time base. It reads them from the CSV file of any logger through a map that the user's file holds,
// drafts such a map for an unknown file, and looks for what is wrong with a recording.
//
// # Axes and units
//
// Body axes (X forward, Y right, Z down) at the sensor; SI units and radians. Units live at one edge:
// a Map names the unit of each column, and numbers leave Read in SI.
//
// # Time bases
//
// A blank cell means "no new sample". Every channel therefore has a time base of its own, nothing is
// filled forward, and channels differ in length. Time counts from the first row that can be read.
//
// # What Read takes
//
// Comma, semicolon or tab; a decimal comma where the separator is not a comma; UTF-8 with or without
// a byte-order mark, UTF-16, Windows-1252; line ends LF, CRLF or CR; comment lines (#, % or //) and
// free text ahead of the heads; quoted cells; a row of units below the heads; heads that come again.
// A quoted cell ends with its line.
//
// A file that is not a table, or lacks a column that the map names, is an error made of Mistakes, each
// with file, line and column. A table with bad rows is a Recording with Findings: bad rows and cells are
// left out and counted, never repaired.
//
// # How it reads
//
// The text is cut at line ends into chunks of 256 KiB, which as many workers as there are processors, up to four, turn
// into blocks: samples with the row in which they stand. Whoever finds the next block of the file ready appends it to
// the channels, so that the order of the file is kept and the result depends neither on the number of workers nor on where
// the chunks end. A line without quotes takes the fast road: the ends of its cells are found eight bytes at a
// time, and only cells of mapped columns are converted, to the same bits as strconv gives. Any other line takes the slow
// road, cell by cell. Beside the channels themselves, whose size is guessed from places spread over the file, little is held
// in memory; a stream without a known size grows them in steps of an eighth.
//
// # What is left out
//
// Binary logs; files of several tables; time split over two columns; lines over one MiB. A delay is taken off as the map
// states it and not estimated here.
package flightlog
