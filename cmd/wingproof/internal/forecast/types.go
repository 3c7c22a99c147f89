package forecast

import (
	"wingproof/flightlog/rehearse"
)

// Mark stands in every document beside numbers that were not measured.
const Mark = "forecast"

// Planned is one flight to be rehearsed.
type Planned struct {
	Levels map[string]string // one level of every choice
	CG     float64           // full-size m aft of datum
	Cards  []Card            // in the order in which they are flown; climbs come between by themselves
	Logger string            // of the program; empty: the first, or a usual recorder where there is none
}

// Card is a manoeuvre that a flight is to hold.
type Card struct {
	Kind    rehearse.Kind
	Control string  // of a doublet or a multistep: elevator, aileron, rudder
	Speed   float64 // calibrated, m/s; 0 takes the usual speeds of the kind in turn
	Bank    float64 // rad; 0 is the usual one
}

// Options of a forecast.
type Options struct {
	Seed     uint64
	Times    int                                // rehearsals; 0 is one
	Progress func(done, total int, what string) // may be nil; done never falls
}

// Result is what is to be expected.
type Result struct {
	Mark      string        `json:"mark"`
	Times     int           `json:"rehearsals"`
	Flights   []Flight      `json:"flights"`
	Intervals []Interval    `json:"intervals"`
	Missing   []Missing     `json:"not_determined"`
	Limits    []LimitChance `json:"limits"`
	Assumed   []string      `json:"assumed"`                 // what the folder does not state and the simulation had to take
	CGHalf    float64       `json:"cg_weighed_half_width_m"` // 95 %, full-size m: how well the CG is weighed
}

// Flight is a rehearsed flight.
type Flight struct {
	Name          string            `json:"flight"`
	Configuration string            `json:"configuration"`
	Levels        map[string]string `json:"levels"`
	CG            float64           `json:"cg_m"`
	Logger        string            `json:"logger"`
	Cards         int               `json:"cards"`
	Seconds       float64           `json:"recording_s"` // of the first rehearsal
	Used          int               `json:"used"`        // rehearsals in which the flight counted
	Why           string            `json:"why_not"`     // of the first in which it did not
}

// Interval is one number of one configuration: how wide its 95 % interval is now and will be. Halves are half-widths in Unit; nil is not
// determined, or unbounded.
type Interval struct {
	Mark          string            `json:"mark"`
	Configuration string            `json:"configuration"`
	Levels        map[string]string `json:"levels"`
	Quantity      string            `json:"quantity"`
	Unit          string            `json:"unit"`
	Origin        string            `json:"origin"` // measured: by flights alone; anchored: by theory and flights together
	Scale         string            `json:"scale"`
	Now           *float64          `json:"half_width_now"`
	After         *float64          `json:"half_width_after"` // median over the rehearsals
	Least         *float64          `json:"half_width_after_least"`
	Greatest      *float64          `json:"half_width_after_greatest"`
	Factor        *float64          `json:"now_over_after"`
	Known         int               `json:"determined_in"` // rehearsals that determined it
	Weak          int               `json:"weak_in"`       // rehearsals after which it may not be judged by
	Shared        *float64          `json:"half_width_shared"`
	SharedBy      []Shared          `json:"shared_by"` // the greatest first
}

// Missing is a number that the board rests on and that the flights of a configuration will not determine.
type Missing struct {
	Mark          string `json:"mark"`
	Configuration string `json:"configuration"`
	Quantity      string `json:"quantity"`
	Why           string `json:"why"` // of the first rehearsal
}

// Shared is what one error that all flights share does to a 95 % interval.
type Shared struct {
	Source string  `json:"source"`
	Half   float64 `json:"half_width"`
}

// LimitChance is how sure a limit of the board is to hold, now and afterwards, if the truth is where it is believed.
type LimitChance struct {
	Mark          string            `json:"mark"`
	Limit         string            `json:"limit"`
	Quantity      string            `json:"quantity"`
	Unit          string            `json:"unit"`
	Configuration string            `json:"configuration"`
	Levels        map[string]string `json:"levels"`
	Live          bool              `json:"live"`
	Rehearsed     bool              `json:"rehearsed"` // a rehearsed flight has these levels
	Now           float64           `json:"probability_now"`
	After         float64           `json:"probability_after"` // median
	Least         float64           `json:"probability_after_least"`
	Greatest      float64           `json:"probability_after_greatest"`
	NowHalf       *float64          `json:"half_width_now"` // of the judged number's 95 % interval; null where it has no end
	AfterHalf     *float64          `json:"half_width_after"`
}
