package atmosphere

// The constants of the standard atmosphere. They define it and carry no uncertainty.
// Source: ISO 2533, clause 2 and table 1.
const (
	SeaLevelPressure    = 101325.0                                               // Pa
	SeaLevelTemperature = 288.15                                                 // K
	Gravity             = 9.80665                                                // m/s²
	GasConstant         = 287.05287                                              // J/(kg·K), dry air; the 1976 US atmosphere has 287.05307
	HeatRatio           = 1.4                                                    // ratio of specific heats
	SeaLevelDensity     = SeaLevelPressure / (GasConstant * SeaLevelTemperature) // kg/m³, 1.225
	EarthRadius         = 6356766.0                                              // m, nominal radius for geopotential heights
	lapse               = 0.0065                                                 // K/m, troposphere
	tropopause          = 11000.0                                                // m
	stratosphereTemp    = SeaLevelTemperature - lapse*tropopause                 // K, 216.65 from 11 to 20 km
	lowest              = -2000.0                                                // m
	highest             = 20000.0                                                // m
	pressureExponent    = Gravity / (GasConstant * lapse)                        // 5.25588
	sutherlandBeta      = 1.458e-6                                               // kg/(s·m·√K), Sutherland's equation
	sutherlandTemp      = 110.4                                                  // K, Sutherland's equation
)
