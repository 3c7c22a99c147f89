package plan

// Card is one entry of a sheet.
type Card struct {
	Number    int      `json:"number"` // on its sheet, in flying order
	Name      string   `json:"name"`
	Manoeuvre string   `json:"manoeuvre"` // as cards.csv calls it; empty when no log is asked for it
	Control   string   `json:"control"`   // of a doublet
	Speed     float64  `json:"speed_m_s"` // calibrated; of a deceleration where it begins
	Shown     float64  `json:"speed_shown_m_s"`
	Tolerance float64  `json:"speed_tolerance"` // relative
	Lift      float64  `json:"lift_coefficient"`
	Load      float64  `json:"load_factor"`
	Bank      *float64 `json:"bank_rad"` // positive right wing down; null when it does not count
	Entry     float64  `json:"entry_height_m"`
	Hold      float64  `json:"hold_s"`
	Repeats   int      `json:"repeats"`
	Do        string   `json:"do"`
	Stop      Stop     `json:"stop"`
	Reads     string   `json:"reads"`
}

// Stop is when the crew breaks a card off.
type Stop struct {
	Lowest   float64  `json:"lowest_height_m"`
	Bank     float64  `json:"most_bank_rad"`
	Slowest  *float64 `json:"slowest_m_s"` // calibrated; null for a deceleration
	Fastest  float64  `json:"never_exceed_m_s"`
	Elevator string   `json:"elevator"` // stop when it comes near its stop
}

// Sheet is one flight.
type Sheet struct {
	Number            int               `json:"number"`
	Of                int               `json:"of"`
	Flight            string            `json:"flight"`
	Configuration     string            `json:"configuration"`
	Levels            map[string]string `json:"levels"`
	CG                Place             `json:"cg"`
	Mass              float64           `json:"model_mass_kg"`
	MassSource        string            `json:"model_mass_source"`
	Ballast           string            `json:"ballast"`
	From              *Place            `json:"steps_from"` // null when no step is needed
	Steps             []Place           `json:"steps"`
	NeutralPoint      Place             `json:"neutral_point"`
	NeutralPointSD    float64           `json:"neutral_point_sd_m"`
	NeutralPointWords string            `json:"neutral_point_source"`
	AftLimit          Place             `json:"aft_limit"`
	LimitRule         string            `json:"aft_limit_rule"`
	Margin            float64           `json:"static_margin_percent"`
	LeastMargin       float64           `json:"static_margin_low_percent"` // two standard deviations less
	Stalling          float64           `json:"stalling_speed_m_s"`
	StallingSD        float64           `json:"stalling_speed_sd_m_s"`
	MaxLift           float64           `json:"max_lift_coefficient"`
	MaxLiftSD         float64           `json:"max_lift_coefficient_sd"`
	MaxLiftSource     string            `json:"max_lift_source"`
	Cards             []Card            `json:"cards"`
	Notes             []string          `json:"notes"` // what this sheet leaves out, and why
	Checks            []int             `json:"check_cards"`
}

// Place is a station at both sizes and in percent of the mean aerodynamic chord.
type Place struct {
	FullSize float64 `json:"full_size_m"` // aft of datum
	Model    float64 `json:"model_m"`     // aft of the model's datum
	Percent  float64 `json:"chord_percent"`
}

// Plan is the sheets of the next flights.
type Plan struct {
	Program     string   `json:"program"`
	Cautions    []string `json:"cautions"`
	Assumptions []string `json:"assumptions"`
	Airspeed    string   `json:"airspeed"` // what the display does, in words
	LeftOut     []string `json:"left_out"` // configurations and CGs that have no sheet, and why
	Sheets      []Sheet  `json:"sheets"`
}

func (p Problem) place(x float64) Place {
	return Place{FullSize: x, Model: x * p.LengthRatio, Percent: 100 * (x - p.ChordLeadingEdge) / p.Chord}
}
