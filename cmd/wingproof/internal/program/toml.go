package program

import (
	"bytes"
	"errors"
	"sort"
	"strconv"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"
)

// form is what kind of value a key of program.toml holds.
type form int

const (
	textForm form = iota
	numberForm
	truthForm
	dateForm
	listForm
	groupForm
)

func (f form) String() string {
	return [...]string{"text", "a number", "true or false", "a date", "a list", "a table of keys"}[f]
}

// value is one value of program.toml with its place.
type value struct {
	form    form
	at      spot
	text    string // text, or the number as written
	number  float64
	whole   bool // the number is written as an integer
	truth   bool
	list    []*value
	keys    []key
	defined bool // by a header of its own, or inline: may not be defined again
	inline  bool
	headed  bool // list made by [[name]] headers
}

// key is one key of a group, in the order of the file.
type key struct {
	name  string
	at    spot
	value *value
}

func (v *value) get(name string) *key {
	for i := range v.keys {
		if v.keys[i].name == name {
			return &v.keys[i]
		}
	}
	return nil
}

// tomlReader turns the expressions of a TOML document into values with places.
//
// It keeps the order of the keys, and it goes on after a mistake at the next line that begins like a
// header or a key, so that several slips are told at once.
type tomlReader struct {
	data   []byte
	starts []int // offsets of the lines
	root   *value
	here   *value
	wrong  func(at spot, what, right string)
	broken bool
}

// parseTOML reads a document. ok is false when its syntax is broken: then keys may be absent that the
// writer did write.
func parseTOML(data []byte, wrong func(at spot, what, right string)) (root *value, ok bool) {
	r := &tomlReader{data: data[:len(data):len(data)], wrong: wrong}
	r.root = &value{form: groupForm, at: spot{1, 1}}
	r.here = r.root
	r.starts = append(r.starts, 0)
	for i, b := range data {
		if b == '\n' {
			r.starts = append(r.starts, i+1)
		}
	}
	const patience = 20
	for offset, slips := 0, 0; slips < patience; slips++ {
		stop, failed := r.run(offset)
		if !failed {
			break
		}
		r.broken = true
		next := r.restart(stop)
		if next < 0 {
			break
		}
		offset = next
	}
	return r.root, !r.broken
}

// run parses from an offset to the end or to the first slip, whose offset it returns.
func (r *tomlReader) run(offset int) (stop int, failed bool) {
	part := r.data[offset:]
	var p unstable.Parser
	p.Reset(part)
	for p.NextExpression() {
		r.expression(p.Expression(), offset)
	}
	err := p.Error()
	if err == nil {
		return 0, false
	}
	stop = len(r.data)
	var perr *unstable.ParserError
	if errors.As(err, &perr) && perr.Highlight != nil {
		stop = offset + int(p.Range(perr.Highlight).Offset)
	}
	if bytes.HasPrefix(r.data[min(stop, len(r.data)):], []byte("...")) {
		r.wrong(r.spot(stop), "nobody has filled in what the three dots stand for",
			"write what was measured, such as calibration = [[1000, -20], [1500, 0], [2000, 20]], or begin the line with #")
		return stop, true
	}
	r.wrong(r.spot(stop), "this is not TOML: "+err.Error(), `write key = value, with text between quotation marks and a decimal point`)
	return stop, true
}

// restart finds the next line after offset that begins like a header or a key; −1 when there is none.
func (r *tomlReader) restart(offset int) int {
	line := sort.SearchInts(r.starts, offset+1)
	for ; line < len(r.starts); line++ {
		text := r.data[r.starts[line]:]
		if end := bytes.IndexByte(text, '\n'); end >= 0 {
			text = text[:end]
		}
		if len(text) > 0 && (text[0] == '[' || isKeyLetter(text[0]) && bytes.IndexByte(text, '=') > 0) {
			return r.starts[line]
		}
	}
	return -1
}

func isKeyLetter(b byte) bool {
	return b == '_' || b == '"' || b == '\'' || b >= 'a' && b <= 'z' || b >= 'A' && b <= 'Z'
}

// spot turns an offset into line and column.
func (r *tomlReader) spot(offset int) spot {
	line := sort.SearchInts(r.starts, offset+1)
	return spot{line, offset - r.starts[line-1] + 1}
}

func (r *tomlReader) expression(n *unstable.Node, base int) {
	switch n.Kind {
	case unstable.Table:
		r.here = r.header(n, base, false)
	case unstable.ArrayTable:
		r.here = r.header(n, base, true)
	case unstable.KeyValue:
		r.assign(r.here, n, base)
	}
}

// name is one part of a dotted key.
type name struct {
	text string
	at   spot
	end  int
}

func (r *tomlReader) path(n *unstable.Node, base int) []name {
	var path []name
	for it := n.Key(); it.Next(); {
		part := it.Node()
		start := base + int(part.Raw.Offset)
		path = append(path, name{string(part.Data), r.spot(start), start + int(part.Raw.Length)})
	}
	return path
}

// header opens the group that [a.b] or [[a.b]] names. After a mistake it opens a group that leads nowhere.
func (r *tomlReader) header(n *unstable.Node, base int, repeated bool) *value {
	path := r.path(n, base)
	last := path[len(path)-1]
	into := r.walk(r.root, path[:len(path)-1])
	if into == nil {
		return &value{form: groupForm}
	}
	fresh := &value{form: groupForm, at: path[0].at, defined: true}
	old := into.get(last.text)
	switch {
	case old == nil && repeated:
		list := &value{form: listForm, at: path[0].at, headed: true, list: []*value{fresh}}
		into.keys = append(into.keys, key{last.text, last.at, list})
	case old == nil:
		into.keys = append(into.keys, key{last.text, last.at, fresh})
	case repeated && old.value.headed:
		old.value.list = append(old.value.list, fresh)
	case !repeated && old.value.form == groupForm && !old.value.defined:
		old.value.defined, old.value.at = true, path[0].at
		return old.value
	default:
		r.again(last, old.at)
	}
	return fresh
}

// walk follows the parts of a dotted key, making groups where there are none; nil after a mistake.
func (r *tomlReader) walk(from *value, path []name) *value {
	for _, part := range path {
		old := from.get(part.text)
		switch {
		case old == nil:
			group := &value{form: groupForm, at: part.at}
			from.keys = append(from.keys, key{part.text, part.at, group})
			from = group
		case old.value.form == groupForm && !old.value.inline:
			from = old.value
		case old.value.headed:
			from = old.value.list[len(old.value.list)-1]
		default:
			r.again(part, old.at)
			return nil
		}
	}
	return from
}

func (r *tomlReader) again(n name, first spot) {
	r.wrong(n.at, quoted(n.text)+" is written twice; it already stands in line "+strconv.Itoa(first.line), "keep one of the two")
}

// assign puts the value of key = value into a group.
func (r *tomlReader) assign(into *value, n *unstable.Node, base int) {
	path := r.path(n, base)
	last := path[len(path)-1]
	into = r.walk(into, path[:len(path)-1])
	if into == nil {
		return
	}
	if old := into.get(last.text); old != nil {
		r.again(last, old.at)
		return
	}
	v := r.value(n.Value(), base, r.spot(r.afterEquals(last.end)))
	into.keys = append(into.keys, key{last.text, last.at, v})
}

// afterEquals is where the value of a key begins whose last part ends at offset.
func (r *tomlReader) afterEquals(offset int) int {
	for offset < len(r.data) && strings.IndexByte(" \t=", r.data[offset]) >= 0 {
		offset++
	}
	return offset
}

func (r *tomlReader) value(n *unstable.Node, base int, at spot) *value {
	if n.Raw.Length > 0 {
		at = r.spot(base + int(n.Raw.Offset))
	}
	v := &value{at: at, text: string(n.Data)}
	switch n.Kind {
	case unstable.String:
		v.form = textForm
	case unstable.Bool:
		v.form, v.truth = truthForm, v.text == "true"
	case unstable.Integer, unstable.Float:
		v.form, v.whole = numberForm, n.Kind == unstable.Integer
		r.number(v)
	case unstable.Array:
		v.form = listForm
		for it := n.Children(); it.Next(); {
			v.list = append(v.list, r.value(it.Node(), base, at))
		}
	case unstable.InlineTable:
		v.form, v.defined = groupForm, true
		for it := n.Children(); it.Next(); {
			r.assign(v, it.Node(), base)
		}
		v.inline = true
	default:
		v.form = dateForm
	}
	return v
}

func (r *tomlReader) number(v *value) {
	digits := strings.ReplaceAll(v.text, "_", "")
	var err error
	if v.whole {
		var whole int64
		whole, err = strconv.ParseInt(digits, 0, 64)
		v.number = float64(whole)
	} else {
		v.number, err = strconv.ParseFloat(digits, 64)
	}
	if err != nil {
		r.wrong(v.at, quoted(v.text)+" is not a number that can be stored", "write an ordinary number such as 0.25")
	}
}
