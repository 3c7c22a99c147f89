package flightlog

import "time"

const day = 24 * int64(time.Hour) // ns

// parseInstant reads an ISO 8601 instant as nanoseconds since 1970 in UTC: a date and a time of day in the
// extended or basic form, split by T or a blank, with a fraction of a second behind point or comma, and
// with Z, an offset or neither. A time of day alone counts from midnight; a date alone is no instant.
//
// Source: ISO 8601-1:2019, clauses 5.2 to 5.4.
func parseInstant(cell []byte) (nanoseconds int64, ok bool) {
	s := string(cell)
	if len(s) < 6 || len(s) > 40 || s[0]-'0' > 9 {
		return 0, false
	}
	var date int64
	if rest, d, ok := isoDate(s); ok {
		s, date = rest, d
	} else if s[2] != ':' {
		return 0, false
	}
	s, clock, ok := isoClock(s)
	if !ok {
		return 0, false
	}
	offset, ok := isoOffset(s)
	return date + clock - offset, ok
}

// isoDate cuts a date and the mark behind it off s.
func isoDate(s string) (rest string, nanoseconds int64, ok bool) {
	var year, month, dayOf int
	switch {
	case len(s) > 11 && s[4] == '-' && s[7] == '-':
		year, month, dayOf = digits(s[0:4]), digits(s[5:7]), digits(s[8:10])
		s = s[10:]
	case len(s) > 9 && s[8] == 'T':
		year, month, dayOf = digits(s[0:4]), digits(s[4:6]), digits(s[6:8])
		s = s[8:]
	default:
		return s, 0, false
	}
	if year < 1970 || year > 2200 || month < 1 || month > 12 || dayOf < 1 || dayOf > 31 || (s[0] != 'T' && s[0] != 't' && s[0] != ' ') {
		return s, 0, false
	}
	return s[1:], time.Date(year, time.Month(month), dayOf, 0, 0, 0, 0, time.UTC).UnixNano(), true
}

// isoClock cuts a time of day off s.
func isoClock(s string) (rest string, nanoseconds int64, ok bool) {
	var h, m, sec int
	switch {
	case len(s) >= 8 && s[2] == ':' && s[5] == ':':
		h, m, sec = digits(s[0:2]), digits(s[3:5]), digits(s[6:8])
		s = s[8:]
	case len(s) >= 6 && s[2] != ':':
		h, m, sec = digits(s[0:2]), digits(s[2:4]), digits(s[4:6])
		s = s[6:]
	default:
		return s, 0, false
	}
	if h < 0 || h > 24 || m < 0 || m > 59 || sec < 0 || sec > 60 {
		return s, 0, false
	}
	nanoseconds = (int64(h)*3600 + int64(m)*60 + int64(sec)) * int64(time.Second)
	if len(s) < 2 || (s[0] != '.' && s[0] != ',') {
		return s, nanoseconds, true
	}
	i, scale := 1, int64(time.Second)
	for ; i < len(s) && s[i]-'0' <= 9; i++ {
		scale /= 10
		nanoseconds += scale * int64(s[i]-'0')
	}
	return s[i:], nanoseconds, i > 1
}

// isoOffset reads what follows the time of day: nothing, Z, ±hh, ±hhmm or ±hh:mm.
func isoOffset(s string) (nanoseconds int64, ok bool) {
	if s == "" || s == "Z" || s == "z" {
		return 0, true
	}
	sign := int64(1)
	switch s[0] {
	case '-':
		sign = -1
	case '+':
	default:
		return 0, false
	}
	h, m := -1, 0
	switch {
	case len(s) == 3:
		h = digits(s[1:3])
	case len(s) == 5:
		h, m = digits(s[1:3]), digits(s[3:5])
	case len(s) == 6 && s[3] == ':':
		h, m = digits(s[1:3]), digits(s[4:6])
	}
	if h < 0 || h > 15 || m < 0 || m > 59 {
		return 0, false
	}
	return sign * (int64(h)*3600 + int64(m)*60) * int64(time.Second), true
}

// digits reads an unsigned number, −1 when a byte is no digit.
func digits(s string) int {
	n := 0
	for i := range len(s) {
		if s[i]-'0' > 9 {
			return -1
		}
		n = n*10 + int(s[i]-'0')
	}
	return n
}
