package report

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wingproof/aero/similitude"
	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
	"wingproof/flightlog"
	"wingproof/plots"
)

// sample is an invented program with every section filled.
func sample(t *testing.T) Content {
	return Content{
		Program: "Sandreed two-seater (invented)", Date: "2026-04-03", Sheet: sampleIssue(),
		Verdict: sampleVerdict(),
		Margins: sampleMargins(), Estimates: sampleEstimates(), Figures: sampleFigures(t), Scaling: sampleSheet(t), LengthRatio: 0.25,
		Flights: []FlightRow{
			{Flight: "13", Date: "2026-03-28", Configuration: "foreplane small, winglet mid", CG: 3.62, Used: true, Points: 11},
			{Flight: "14", Date: "2026-04-02", Configuration: "foreplane large, winglet mid", CG: 3.55, Why: "airspeed froze at 212 s",
				Findings: []flightlog.Finding{{Severity: flightlog.Refusal, What: "airspeed constant for 90 s", Consequence: "the flight is left out"}}},
		},
		Decisions: sampleDecided(),
		Warnings:  []string{"winglet.csv: station 2 lies 3 mm off the wing tip"},
		Methods:   []Method{{"Limit aft margin", "static margin at least 5 % at the aft loading", "common practice, no source"}},
	}
}

// sampleIssue is sheet 7 with what changed since sheet 6.
func sampleIssue() Sheet {
	return Sheet{Number: 7, Date: "2026-04-03", IssuedBy: "R. Holm", NewestFlight: "flight 14 of 2 April 2026", Last: &Issued{Number: 6, Date: "2026-03-27", IssuedBy: "A. Berg"},
		Changed: []Change{
			{Part: "strake tank skin, right", Was: "wait", Is: "start", StageWas: "drawn", StageIs: "drawn"},
			{Part: "main spar, left", Was: "carry on", Is: "stop and ask", StageWas: "mould", StageIs: "laid_up", Withdrawn: true},
			{Part: "canopy frame", Was: "done", Is: "done", StageWas: "laid_up", StageIs: "fitted"},
			{Part: "rudder", Is: "wait", StageIs: "drawn"},
			{Part: "hatch", Was: "start", StageWas: "drawn"},
		}}
}

// sampleDecided is a record with a row of every fate.
func sampleDecided() []Decided {
	return []Decided{
		{Number: 1, Event: "settle", Date: "2026-03-20", Choice: "foreplane", Level: "large", Who: "A. Berg", Why: "slip", Standing: Void, By: 2, Evidence: NoEvidence},
		{Number: 2, Event: "void", Date: "2026-03-20", Choice: "1", Who: "A. Berg", Why: "meant small", Standing: Stands, Evidence: LostEvidence, Inputs: "0123456789", FlightsSince: []string{"13", "14"}},
		{Number: 3, Event: "settle", Date: "2026-03-30", Choice: "foreplane", Level: "small", Who: "A. Berg", Why: "large one fails the aft margin", Standing: Stands, Evidence: ChangedEvidence,
			FlightsThen: []string{"9", "11"}, LeftOut: []string{"10"}, FlightsSince: []string{"13", "14"}, FilesChanged: []string{"program.toml", "shape/winglet.csv"},
			State: decide.Good, StateWhy: "passes every limit in every combination still possible"},
		{Number: 4, Event: "signoff", Date: "2026-03-31", Choice: "flutter_and_mass_balance", Who: "K. Lind", Why: "report 12", Standing: Partial, Lapsed: []string{"winglet (row 5)"}, Evidence: SameEvidence},
		{Number: 5, Event: "reopen", Date: "2026-04-01", Choice: "winglet", Who: "K. Lind", Why: "new gust case", Standing: Stands, Evidence: SameEvidence, FlightsThen: []string{"9"}},
	}
}

func sampleVerdict() decide.Verdict {
	five := 5.0
	return decide.Verdict{
		Date:   "2026-04-03",
		Alarms: []string{"main spar, left: laid up for winglet tall, which the spar's own bending limit rules out"},
		Choices: []decide.ChoiceVerdict{
			{Choice: "foreplane", State: decide.Settled, Level: "small", Live: []string{"small"}, Why: "row 1 of decisions.csv, A. Berg"},
			{Choice: "winglet", State: decide.Open, Live: []string{"small", "mid"}, Why: "two levels are still possible"},
		},
		Levels: []decide.LevelVerdict{
			{Choice: "winglet", Level: "small", State: decide.Unproven, Why: "directional stiffness holds with 61 %"},
			{Choice: "winglet", Level: "mid", State: decide.Good, Why: "every limit holds together with 97.3 %"},
			{Choice: "winglet", Level: "tall", State: decide.Out, Why: "overloads the laid-up spar with 98.9 %"},
		},
		Configurations: []decide.ConfigurationVerdict{
			{Configuration: "foreplane=small, winglet=mid", State: decide.Good, Live: true, AllHold: 0.973, Limits: []decide.LimitVerdict{
				{Limit: "aft margin", Quantity: evidence.StaticMargin, Unit: "%", AtLeast: &five, Probability: 0.981, Median: 8.7, Low: 6.1, High: 11.3, Where: "two aboard, fuel low", FlightsNeed: true}}},
			{Configuration: "foreplane=small, winglet=tall", State: decide.Out, AllHold: 0.0002},
		},
		Agreement: decide.Agreement{ChiSquare: 5.2, Degrees: 6, Bound: 12.6, Inflation: 1, Text: "Flights agree with theory within its stated errors (χ² 5.2 on 6 degrees of freedom, bound 12.6)."},
		NotJudged: []string{"flutter and mass balance", "aeroelastic twist", "deep stall and spin", "contaminated surfaces in flight", "systems"},
		Board: []decide.Row{
			{Part: "canopy frame", Side: "both", Stage: "fitted", Status: decide.Frozen, Action: decide.Done, Reasons: []string{"fitted; nothing open shapes it"}, HoursSpent: 60},
			{Part: "winglet mould", Side: "left", Stage: "plug", Status: decide.Pending, Action: decide.StopAndAsk, Next: "do not cut", BuiltTo: map[string]string{"winglet": "mid"},
				Reasons: []string{"the winglet choice is open: small and mid are both possible", "the plug is built to mid, so settling mid would lose nothing"}, Chain: []string{"Cn_β 0.047 (0.038 to 0.056) per rad at mid", "limit at least 0.030"},
				Clears: "settle the winglet, or two flights of the small winglet with steady sideslips", HoursSpent: 22, HoursLeft: 64, Responsible: "K. Lind", NeededBy: "2026-04-20"},
			{Part: "main spar", Side: "left", Stage: "laid_up", Status: decide.Pending, Action: decide.StopAndAsk, Reasons: []string{"built to winglet tall, which is out"}, Clears: "ask the designer", HoursSpent: 80, HoursLeft: 12},
			{Part: "strake tank skin", Side: "right", Stage: "drawn", Status: decide.Frozen, Action: decide.Start, Next: "mill the plug", Reasons: []string{"no open choice shapes it; aft margin and fuel travel hold together with 97 % in everything still possible"}, Chain: []string{"aft margin 98.1 %", "fuel travel 99.2 %"}, HoursLeft: 90, NeededBy: "2026-04-10"},
			{Part: "foreplane plug", Stage: "plug", Status: decide.Frozen, Action: decide.CarryOn, Next: "take the mould", Reasons: []string{"foreplane settled on small (A. Berg, 30 March)"}, HoursSpent: 14, HoursLeft: 30},
			{Part: "rudder", Side: "both", Stage: "drawn", Status: decide.Pending, Action: decide.Wait, Reasons: []string{"the winglet choice is open"}, Clears: "settle the winglet", HoursLeft: 40},
		},
	}
}

func estimateOf(configuration, quantity, unit, scale, origin string, value, low, high float64) evidence.Estimate {
	return evidence.Estimate{Configuration: configuration, Quantity: quantity, Unit: unit, Scale: scale, Origin: origin, State: evidence.Determined,
		Value: &value, Low: &low, High: &high, Flights: []string{}, Warnings: []string{}}
}

func sampleMargins() []evidence.Estimate {
	c, cg, percent := "foreplane=small, winglet=mid", 3.62, 24.1
	m := estimateOf(c, evidence.StaticMargin, "%", evidence.ModelScale, evidence.Measured, 9.1, 7.8, 10.6)
	m.Flights = []string{"9", "11", "13"}
	p := estimateOf(c, evidence.StaticMargin, "%", evidence.ModelScale, evidence.Predicted, 7.4, 3.2, 11.6)
	a := estimateOf(c, evidence.StaticMargin, "%", evidence.FullSize, evidence.Anchored, 8.7, 6.1, 11.3)
	for _, e := range []*evidence.Estimate{&m, &p, &a} {
		e.At = evidence.At{CG: &cg, CGPercent: &percent}
	}
	a.Method = evidence.Pointer(`loading "two aboard, fuel low"; vortex lattice anchored by the flights`)
	return []evidence.Estimate{m, p, a}
}

func sampleEstimates() []evidence.Estimate {
	c := "foreplane=small, winglet=mid"
	none := evidence.Estimate{Configuration: "foreplane=large, winglet=mid", Quantity: evidence.NeutralPoint, Unit: "m", Scale: evidence.ModelScale, Origin: evidence.Measured,
		State: evidence.NotDetermined, Flights: []string{"14"}, Warnings: []string{"one CG only; two more, 60 mm apart, would do"}}
	return []evidence.Estimate{
		estimateOf(c, evidence.TrimmedLiftSlope, "1/rad", evidence.ModelScale, evidence.Measured, 4.61, 4.4, 4.82),
		estimateOf(c, evidence.TrimmedLiftSlope, "1/rad", evidence.ModelScale, evidence.Predicted, 4.72, 4.3, 5.1),
		estimateOf(c, "zero_lift_alpha", "rad", evidence.ModelScale, evidence.Measured, -0.0262, -0.031, -0.021), none,
	}
}

func sampleFigures(t *testing.T) Figures {
	interval := func(v, w float64) *plots.Interval { return &plots.Interval{Value: v, Low: v - w, High: v + w} }
	margin, err := plots.Margin(plots.MarginData{Limits: []plots.Limit{{Name: "aft margin", Value: 5, AtLeast: true}}, Rows: []plots.Row{
		{Group: "foreplane small, winglet mid", Label: "two aboard, fuel low", Measured: interval(9.1, 1.4), Predicted: interval(7.4, 4.2), Anchored: interval(8.7, 2.6)},
		{Group: "foreplane large, winglet mid", Label: "two aboard, fuel low", Predicted: interval(1.1, 4.2), Anchored: interval(2.6, 2.8)}}})
	require.NoError(t, err)
	levels, err := plots.LevelComparison(plots.LevelComparisonData{Choice: "winglet", Panels: []plots.QuantityPanel{
		{Name: "directional stiffness", Unit: "per radian", Limits: []plots.Limit{{Name: "yaw", Value: 0.03, AtLeast: true}}, Rows: []plots.Row{{Label: "small", Anchored: interval(0.028, 0.009)}, {Label: "mid", Anchored: interval(0.047, 0.009)}}}}})
	require.NoError(t, err)
	lift, err := plots.LiftCurves(plots.LiftCurvesData{Panels: []plots.LiftPanel{{Configuration: "foreplane small, winglet mid"}}})
	require.NoError(t, err)
	return Figures{Margin: []plots.Figure{margin}, Levels: []plots.Figure{levels}, Lift: []plots.Figure{lift}}
}

func sampleSheet(t *testing.T) *similitude.Sheet {
	s, err := similitude.NewSheet(0.25, similitude.FullSize{Mass: 960, Ix: 1800, Iy: 1500, WingArea: 11, MeanChord: 1.05, Speeds: []similitude.Speed{{Name: "cruise", True: 61.7}}}, 100, 1500, &similitude.Weighed{Mass: 18.1})
	require.NoError(t, err)
	return &s
}
