package manoeuvre

import "math"

const degree = math.Pi / 180

// Time bases. The package comment gives the reasons of the limits below; all are common practice, no source.
const (
	slowStep          = 0.1      // s, of the clock for motion
	fastStep          = 0.02     // s, of the clock for controls: a fifth of the shortest step that an input may have
	shortestRecording = 1.0      // s
	longestRecording  = 6 * 3600 // s, longer than any model flies: beyond it the unit of time is wrong
	holeSeconds       = 1.0      // s without a sample: a hole
	holeSteps         = 5.0      // or so many times the channel's own step
	slowControl       = 0.11     // s between samples of a control beyond which short steps escape
	onChangeHoles     = 3        // so many holes in a control: it is logged on change
)

// In the air.
const (
	leastSpeed  = 5.0  // m/s, below no model of this kind flies
	flyingShare = 0.55 // of the median speed above leastSpeed; the stall of a slow flight stays above it
	clearHeight = 15.0 // m above the start: in the air whatever the airspeed tube says
	shortDip    = 4.0  // s below the flying speed, as in a stall, do not end a flight
)

// Smoothing of the motion, half widths of a moving mean that is taken twice.
const (
	smoothHalf = 0.4 // s, bank, speed, throttle
	slopeHalf  = 1.0 // s, rates of change
)

// Steady flight.
const (
	shortestSteady = 5.0         // s
	steadyBridge   = 1.5         // s out of the limits that a steady stretch may have within it: a gust
	levelPath      = 3 * degree  // path angle
	levelTrend     = 0.03        // 1/s, relative change of airspeed
	looseTrend     = 0.05        // 1/s, in climbs and glides, where the crew trades height for speed first
	wingsLevel     = 15 * degree // bank
	climbBank      = 40 * degree // climbs turn on their way
	idleThrottle   = 0.05        // of full, as in the reduction
)

// Turns.
const (
	leastBank     = 10 * degree
	bankBand      = 6 * degree // about the median bank of the turn
	bankBandShare = 0.2        // or this share of it
	shortestTurn  = 5.0        // s
	turnBridge    = 1.0        // s
	turnPath      = 7 * degree // path angle beyond which it is a climbing or diving turn, no test turn
	turnMeanPath  = 5 * degree
	turnsWell     = 0.65       // of the rate that the bank brings in coordinated flight: less is a sideslip
	circleSpeed   = 0.1        // of the mean: spread of airspeed round a circle
	circleShort   = 5 * degree // by which a circle may miss once round: a compass does no better
)

// Sideslips.
const (
	heldRudder       = 2.5 * degree
	heldShare        = 0.1        // of the rudder's travel in this flight, where that is more
	heldScatter      = 0.3        // of the rudder held: spread about it
	slipYawRate      = 5 * degree // rad/s, smoothed: beyond it the heading is not held
	slipMeanYawRate  = 3.5 * degree
	slipBankBand     = 6 * degree // about the median
	shortestSideslip = 3.0        // s
	slipBridge       = 0.7        // s
)

// Inputs.
const (
	edgeReach     = 0.12         // s within which a step is mostly done
	leastStep     = 0.5 * degree // smaller ones tell nothing about a model
	leastTravel   = 0.04         // of the control's travel in the flight
	leastWander   = 3.0          // times the control's own usual wander
	wanderSpan    = 2.0          // s
	linkedRudders = 0.8          // correlation of the two rudders
)

// The pattern of an input.
const (
	quietBefore     = 0.9  // s ahead of the first step in which the control is nearly still
	quietAfter      = 0.7  // s behind the last step likewise
	rampHalf        = 0.15 // s that half a movement of a hand may take
	firstPeak       = 0.4  // s within which the first step is reached
	zoneShare       = 0.2  // of the first step: less is the middle
	zoneScatter     = 2.0  // or so many times the spread ahead of it
	zoneStep        = 0.45 // of the smallest step, once they are known
	sameSide        = 0.1  // s in the middle, after which the same side again is no step of the input
	restTime        = 0.5  // s in the middle: the input is over
	longestStep     = 2.5  // s
	shortestStep    = 0.08 // s
	mostSteps       = 12
	straggler       = 0.45 // of the median of the steps ahead of it
	maxBefore       = 0.35 // of the smallest step: spread ahead of the input
	maxAfter        = 0.35 // likewise behind it
	maxRest         = 0.45 // likewise: trimmed value behind against ahead
	maxSizes        = 4.0  // largest over smallest step: two sloppy ones differ by 2.3
	doubletWidths   = 2.6  // longest over shortest: two sloppy ones differ by 1.9
	multistepWidths = 8.0  // 3 to 1, sloppy
	flatFrom        = 0.6  // s: shorter steps show no plateau
	maxUneven       = 0.22 // of a step: its spread in the middle
	letGoHalf       = 0.06 // s
	sharpness       = 0.42 // of a step: what a hand moves within edgeReach, and slow corrections do not
)

// The free response.
const (
	longestFree  = 12.0 // s: once round of a model's phugoid, π·√2·V/g (Lanchester) at 25 m/s
	letGoBand    = 0.25 // of the smallest step
	mateBand     = 0.5  // likewise, for the other lateral control
	letGoScatter = 3.0  // times the spread right behind the input
	throttleMove = 0.15
)

// Pull-ups.
const (
	pullRamp      = 0.35 // s that the movement takes at most: a hand that pulls is slower than one that gives an input
	pullSharpness = 0.25 // of the step: what a hand moves within edgeReach
	shortestPull  = 0.6  // s that the step is held behind the movement: more than half a short period of a model
	longestPull   = 3.5  // s: longer, and it is a loop or a new trim
	leastPull     = 1.15 // load factor: less is a gust
	pullAhead     = 1.5  // s ahead of it that are level flight
	pullPath      = 5 * degree
)

// Decelerations.
const (
	leastSlowing    = 0.12        // m/s²
	slowingBridge   = 1.2         // s
	shortestSlowing = 3.0         // s
	leastDrop       = 0.15        // of the speed
	nearUsual       = 0.85        // of the median speed: 1.4 times the usual lift coefficient or more
	nearLowest      = 1.12        // times the speed below which one hundredth of the flight lies
	longestMush     = 6.0         // s at the lowest speed
	recovery        = 4.0         // s within which the speed comes back
	leastRecovery   = 0.08        // of the lowest speed
	lowBand         = 0.02        // likewise: still at it
	slowingBank     = 20 * degree // mean
	slowingPath     = 15 * degree // mean
	breakHalf       = 0.15        // s
	breakElevator   = 1 * degree  // below its highest: it has been lowered
	breakRate       = -4 * degree // rad/s, against the median of the deceleration
	breakAhead      = 3.0         // s ahead of the lowest speed
	breakBehind     = 2.0         // s
)
