// Package atmosphere answers: what is the air like at a height, and how does an airspeed indicator
// read there?
//
// It holds the standard atmosphere from 2 km below to 20 km above sea level, the perfect gas law,
// Sutherland's viscosity, and the compressible relations between calibrated and true airspeed.
//
// # Units and heights
//
// SI throughout: m, K, Pa, kg/m³, m/s, Pa·s. A height is geopotential unless a name says geometric;
// the two differ by 0.16 m at 1000 m, which tables printed by geometric height show.
//
// # Sources
//
// ISO 2533, Standard Atmosphere (identical below 20 km to the US Standard Atmosphere, 1976, except
// for the seventh digit of the gas constant); Sutherland's constants as in both. Airspeed: the subsonic
// pitot relation for γ = 1.4, by which airspeed indicators are calibrated at sea level.
//
// # Left out
//
// Humidity (damp air at 30 °C is about 1 % lighter than dry air), weather other than by pressure and
// temperature, layers above 20 km, shock waves ahead of the tube (Mach numbers of 1 and above).
package atmosphere
