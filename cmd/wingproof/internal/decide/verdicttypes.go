package decide

import "wingproof/cmd/wingproof/internal/evidence"

// Verdict is what the evidence allows to be said.
type Verdict struct {
	Date           string                 `json:"date"`
	Choices        []ChoiceVerdict        `json:"choices"`
	Levels         []LevelVerdict         `json:"levels"`
	Configurations []ConfigurationVerdict `json:"configurations"`
	Agreement      Agreement              `json:"agreement"`
	Anchored       []evidence.Estimate    `json:"anchored"`
	Board          []Row                  `json:"board"`
	Alarms         []string               `json:"alarms"`
	LeftOut        []LeftOut              `json:"left_out"`
	NotJudged      []string               `json:"not_judged_here"`
}

// ChoiceVerdict is where one choice stands.
type ChoiceVerdict struct {
	Choice string   `json:"choice"`
	State  string   `json:"state"`
	Level  string   `json:"level,omitempty"`
	Live   []string `json:"live_levels"`
	Why    string   `json:"why"`
}

// LevelVerdict is where one level of a choice stands.
type LevelVerdict struct {
	Choice string `json:"choice"`
	Level  string `json:"level"`
	State  string `json:"state"`
	Why    string `json:"why"`
}

// ConfigurationVerdict is how one combination of levels does against every limit.
type ConfigurationVerdict struct {
	Configuration string            `json:"configuration"`
	Levels        map[string]string `json:"levels"`
	State         string            `json:"state"`
	Live          bool              `json:"live"`
	AllHold       float64           `json:"probability_all_hold"`
	Limits        []LimitVerdict    `json:"limits"`
	Flights       []string          `json:"flights"`
	FlyBetween    *[2]float64       `json:"fly_between_m"` // CGs to fly the model at, full-size m, foremost first; null when not known
	AftLimit      *float64          `json:"aft_limit_m"`   // CG that nobody flies the model aft of, full-size m; null when not known
}

// LimitVerdict is how one configuration does against one limit. Median and bounds are as those of a Range: +Inf, null as JSON, for a time
// without end and for a speed that is never reached.
type LimitVerdict struct {
	Limit       string   `json:"limit"`
	Quantity    string   `json:"quantity"`
	Unit        string   `json:"unit"`
	AtLeast     *float64 `json:"at_least"`
	AtMost      *float64 `json:"at_most"`
	Binding     string   `json:"binding"` // the bound that decides, BindsAtLeast or BindsAtMost; median and range are those of its side
	Probability float64  `json:"probability_holds"`
	Median      float64  `json:"median"`
	Low         float64  `json:"low"`
	High        float64  `json:"high"`
	Where       string   `json:"where"`                 // worst loading, or station along a built part
	FlightsNeed bool     `json:"needs_flight_evidence"` // asks for flight evidence and fewer than two flights stand behind it yet
}

// Agreement is the joint test of the flown configurations against theory.
type Agreement struct {
	ChiSquare float64 `json:"chi_square"`
	Degrees   int     `json:"degrees"`
	Bound     float64 `json:"bound_95"`
	Inflation float64 `json:"inflation"` // 1 when flights agree with theory within its stated errors
	Text      string  `json:"text"`
}

// Row is one part on the board.
type Row struct {
	Part        string            `json:"part"`
	Side        string            `json:"side"`
	Stage       string            `json:"stage"`
	Status      string            `json:"status"`
	Action      string            `json:"action"`
	Next        string            `json:"next"`    // the operation that the action means: "mill the plug"
	Reasons     []string          `json:"reasons"` // in the shop's language, the weightiest first; the first one answers why by itself
	Chain       []string          `json:"chain"`   // the numbers that lead there, for --why
	Clears      string            `json:"clears"`  // what would clear a pending part, in a few words; in full at the end of Chain; empty when frozen
	BuiltTo     map[string]string `json:"built_to"`
	HoursSpent  float64           `json:"hours_spent"`
	HoursLeft   float64           `json:"hours_left"`
	Responsible string            `json:"responsible"`
	NeededBy    string            `json:"needed_by"`

	OnPaper bool `json:"-"` // it waits for an entry in the list of parts or for a rebuild, which no flight and no measurement spares
}
