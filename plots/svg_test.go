package plots_test

import (
	"bytes"
	"encoding/xml"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/font/liberation"
)

// word is one piece of text with its box in the coordinates of the drawing.
type word struct {
	text                     string
	left, right, top, bottom float64
}

// drawing is what the tests read back from an SVG.
type drawing struct {
	width, height float64
	title, label  string
	words         []word
	shapes        int
}

// matrix is a b c d e f as in SVG.
type matrix [6]float64

func (m matrix) times(n matrix) matrix {
	return matrix{m[0]*n[0] + m[2]*n[1], m[1]*n[0] + m[3]*n[1], m[0]*n[2] + m[2]*n[3], m[1]*n[2] + m[3]*n[3],
		m[0]*n[4] + m[2]*n[5] + m[4], m[1]*n[4] + m[3]*n[5] + m[5]}
}

func (m matrix) at(x, y float64) (float64, float64) {
	return m[0]*x + m[2]*y + m[4], m[1]*x + m[3]*y + m[5]
}

// transform reads lists of scale, translate and rotate; other operations fail the test.
func transform(t *testing.T, s string) matrix {
	out := matrix{1, 0, 0, 1, 0, 0}
	for part := range strings.SplitSeq(s, ")") {
		name, list, found := strings.Cut(strings.TrimSpace(part), "(")
		if !found {
			continue
		}
		var v []float64
		for field := range strings.FieldsFuncSeq(list, func(r rune) bool { return r == ',' || r == ' ' }) {
			v = append(v, parse(t, field))
		}
		switch name {
		case "scale":
			out = out.times(matrix{v[0], 0, 0, v[1], 0, 0})
		case "translate":
			out = out.times(matrix{1, 0, 0, 1, v[0], v[1]})
		case "rotate":
			sin, cos := math.Sincos(v[0] * math.Pi / 180)
			out = out.times(matrix{cos, sin, -sin, cos, 0, 0})
		default:
			t.Fatalf("transform %q is not read by this test", name)
		}
	}
	return out
}

func parse(t *testing.T, s string) float64 {
	v, err := strconv.ParseFloat(strings.TrimSuffix(strings.TrimSuffix(s, "px"), "pt"), 64)
	require.NoError(t, err)
	return v
}

func attributes(e xml.StartElement) map[string]string {
	out := map[string]string{}
	for _, a := range e.Attr {
		out[a.Name.Local] = a.Value
	}
	return out
}

// read parses a figure; it fails on anything that is not one well-formed svg element.
func read(t *testing.T, svg []byte) drawing {
	require.True(t, bytes.HasPrefix(svg, []byte("<svg ")), "no prolog, no comment before the element")
	cache := font.NewCache(liberation.Collection())
	var d drawing
	stack := []matrix{{1, 0, 0, 1, 0, 0}}
	var inherited map[string]string // of the group that a text stands in; groups hold no groups
	decoder := xml.NewDecoder(bytes.NewReader(svg))
	for {
		token, err := decoder.Token()
		if token == nil {
			require.Equal(t, "EOF", err.Error())
			return d
		}
		switch e := token.(type) {
		case xml.StartElement:
			a := attributes(e)
			require.Empty(t, a["id"], "ids would clash in a page")
			m := stack[len(stack)-1]
			if a["transform"] != "" {
				m = m.times(transform(t, a["transform"]))
			}
			stack = append(stack, m)
			switch e.Name.Local {
			case "svg":
				d.width, d.height, d.label = parse(t, a["width"]), parse(t, a["height"]), a["aria-label"]
				require.Equal(t, "img", a["role"])
			case "g":
				inherited = a
			case "title", "text":
				var content string
				require.NoError(t, decoder.DecodeElement(&content, &e))
				stack = stack[:len(stack)-1]
				for name, value := range inherited {
					if a[name] == "" {
						a[name] = value
					}
				}
				d.take(t, cache, e.Name.Local, content, a, m)
			case "path":
				d.shapes += strings.Count(strings.ToUpper(a["d"]), "M") // several of one look share an element
			}
		case xml.EndElement:
			stack = stack[:len(stack)-1]
			if e.Name.Local == "g" {
				inherited = nil
			}
		}
	}
}

func (d *drawing) take(t *testing.T, cache *font.Cache, element, content string, a map[string]string, m matrix) {
	if element == "title" {
		d.title = content
		return
	}
	f := font.Font{Typeface: "Liberation", Variant: "Sans", Size: font.Length(parse(t, a["font-size"]))}
	if weight := a["font-weight"]; weight != "" {
		require.Equal(t, "bold", weight)
		f.Weight = 3
	}
	face := cache.Lookup(f, f.Size)
	x, y := m.at(parse(t, a["x"]), parse(t, a["y"]))
	d.words = append(d.words, word{text: content, left: x, right: x + float64(face.Width(content)), top: y - 0.75*float64(f.Size), bottom: y + 0.2*float64(f.Size)})
}

func (d drawing) text() string {
	var all []string
	for _, w := range d.words {
		all = append(all, w.text)
	}
	return strings.Join(all, " ")
}

// requireTidy checks that every word stands inside the frame and on no other word.
func requireTidy(t *testing.T, d drawing) {
	for i, w := range d.words {
		require.GreaterOrEqual(t, w.left, -0.05, w.text) // places are rounded to a tenth
		require.LessOrEqual(t, w.right, d.width+0.05, w.text)
		require.GreaterOrEqual(t, w.top, 0.0, w.text)
		require.LessOrEqual(t, w.bottom, d.height, w.text)
		for _, other := range d.words[:i] {
			across := math.Min(w.right, other.right) - math.Max(w.left, other.left)
			down := math.Min(w.bottom, other.bottom) - math.Max(w.top, other.top)
			require.False(t, across > 1 && down > 1, "%q stands on %q", w.text, other.text)
		}
	}
}
