package report

import (
	"slices"
	"strings"
	"time"

	"wingproof/cmd/wingproof/internal/decide"
	"wingproof/cmd/wingproof/internal/evidence"
)

// actionWords is one of the words on the wall with what it means.
type actionWords struct{ action, means string }

// actions lists the words in the order in which the board shows them: what can do harm first.
func actions() []actionWords {
	return []actionWords{
		{decide.StopAndAsk, "work is under way on a shape that may change, or built to one that is out"},
		{decide.Start, "shape final, not begun"},
		{decide.CarryOn, "shape final, under way"},
		{decide.Wait, "shape may change, not begun"},
		{decide.Done, "shape final, fitted"},
	}
}

// rank orders board rows by action; unknown words come first, so that nobody overlooks them.
func rank(action string) int {
	for i, a := range actions() {
		if a.action == action {
			return i + 1
		}
	}
	return 0
}

// ordered returns the rows by action, otherwise in the order given.
func ordered(board []decide.Row) []decide.Row {
	rows := slices.Clone(board)
	slices.SortStableFunc(rows, func(a, b decide.Row) int { return rank(a.Action) - rank(b.Action) })
	return rows
}

// short cuts a long text after its last clause within 150 characters; cut tells whether
// something is left out.
func short(s string) (text string, cut bool) {
	const most = 150
	runes := []rune(s)
	if len(runes) <= most {
		return s, false
	}
	head := string(runes[:most])
	at := strings.LastIndex(head, "; ")
	if at < most/3 {
		at = strings.LastIndex(head, ", ")
	}
	if at < most/3 {
		at = strings.LastIndex(head, " ")
	}
	if at < most/3 {
		at = len(head)
	}
	return head[:at] + " …", true
}

// quantityWords says a quantity in plain words.
func quantityWords(quantity string) string {
	switch quantity {
	case evidence.StaticMargin:
		return "static margin"
	case evidence.DirectionalStiffness:
		return "directional stiffness Cn_β"
	case evidence.LiftCurveSlope:
		return "lift curve slope, elevator fixed"
	case evidence.TrimmedLiftSlope:
		return "lift curve slope, trimmed"
	case evidence.ZeroLiftDrag:
		return "drag coefficient at no lift"
	case evidence.NeutralPoint:
		return "neutral point"
	case evidence.ElevatorTrimRate:
		return "elevator trim rate per metre of CG travel"
	case evidence.BendingRatio:
		return "bending over allowable"
	case "drag_due_to_lift":
		return "drag due to lift, factor k"
	case "zero_lift_alpha":
		return "angle of attack at no lift"
	}
	if words, ok := predictedWords(quantity); ok {
		return words
	}
	if words, ok := measuredWords(quantity); ok {
		return words
	}
	return strings.ReplaceAll(quantity, "_", " ")
}

// DateWords writes an ISO date as "14 March 2026"; anything else stays as it is.
func DateWords(iso string) string {
	t, err := time.Parse(time.DateOnly, iso)
	if err != nil {
		return iso
	}
	return t.Format("2 January 2006")
}

// stageWords writes a stage as the shop says it.
func stageWords(stage string) string { return strings.ReplaceAll(stage, "_", " ") }

// PartWords names a part with its side, as the board and the page do.
func PartWords(r decide.Row) string { return PartName(r.Part, r.Side) }

// PartName names a part with its side, where it has one.
func PartName(part, side string) string {
	if side == "" || side == "both" || side == "none" || side == "-" {
		return part
	}
	return part + ", " + side
}

// doWords joins the word on the wall with the operation that it means.
func doWords(r decide.Row) string {
	if r.Next == "" {
		return r.Action
	}
	return r.Action + ": " + r.Next
}

// sizesWords writes sizes as the shop says them, by themselves or in a sentence: "foreplane long, winglet mid" for "foreplane=long, winglet=mid".
func sizesWords(text string) string { return strings.ReplaceAll(text, "=", " ") }

// plain replaces control characters, so that no name can steer a terminal or break a line.
func plain(s string) string {
	return strings.Join(strings.Fields(strings.Map(func(r rune) rune {
		if r < 0x20 || (r >= 0x7f && r < 0xa0) || (r >= 0x202a && r <= 0x202e) || (r >= 0x2066 && r <= 0x2069) || r == 0xfffd {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(s, " "))), " ")
}
