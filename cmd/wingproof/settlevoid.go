package main

import (
	"fmt"
	"strconv"
	"strings"

	"wingproof/cmd/wingproof/internal/program"
	"wingproof/cmd/wingproof/internal/study"
)

// takeBack records a void row. It needs no judgement: the row that it takes back may be what keeps the folder from being judged.
func (o settleOptions) takeBack(s streams) error {
	if err := o.checkDate(); err != nil {
		return err
	}
	dir, err := o.folder()
	if err != nil {
		return err
	}
	p, err := program.LoadToVoid(dir, o.void)
	if err != nil {
		return err
	}
	for _, alarm := range p.Alarms {
		fmt.Fprintln(s.Err, "ALARM:", alarm)
	}
	d := program.Decision{Event: "void", Date: o.date, Choice: strconv.Itoa(o.void), Who: o.who, Why: o.why}
	if d.Date == "" {
		d.Date = study.NewestDate(p)
	}
	if d.Date == "" {
		return usagef("settle: nothing in the folder carries a date yet; add --date with the day of the decision, such as 2026-03-14")
	}
	if d, err = program.Settle(p.Dir, d); err != nil {
		return err
	}
	if o.json {
		return printJSON(s.Out, settleDocument(d))
	}
	fmt.Fprintf(s.Out, "decisions.csv, row %d: void %s, %s, %s\n", d.Number, d.Choice, d.Who, d.Date)
	fmt.Fprintln(s.Out, afterVoid(p.Decisions, d))
	return nil
}

// afterVoid says what a void row comes to.
func afterVoid(before []program.Decision, void program.Decision) string {
	record := program.Record(append(before[:len(before):len(before)], void))
	target, _ := strconv.Atoi(void.Choice)
	words := ""
	for _, e := range record {
		if e.Number != target {
			continue
		}
		switch e.Event {
		case "signoff":
			words = fmt.Sprintf("row %d no longer signs off %s: the parts that wait for it want a new sign-off", target, strings.ReplaceAll(e.Choice, "_", " "))
		case "void":
			words = fmt.Sprintf("row %s counts again", e.Choice)
		default:
			words = nowSettled(record, e.Choice)
		}
	}
	for _, e := range record {
		for _, l := range e.Lapsed {
			if l.Number == void.Number {
				words += fmt.Sprintf("; the sign-off of row %d lapses for the parts that the %s shapes", e.Number, l.Choice)
			}
		}
	}
	return words
}

// nowSettled says where a choice stands in the record.
func nowSettled(record []program.Entry, choice string) string {
	for _, e := range record {
		if e.InForce && e.Event == "settle" && sameName(e.Choice, choice) {
			return fmt.Sprintf("%s is settled at %s (row %d)", e.Choice, e.Level, e.Number)
		}
	}
	return choice + " is open"
}
