package browser_test

import (
	"context"
	"net/url"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// patience bounds every wait for the browser or the program, so that a test that waits in vain ends; nothing is timed by it.
const patience = 2 * time.Minute

// tab is one page in the browser, with all that it complained of.
type tab struct {
	t   *testing.T
	ctx context.Context

	mu       sync.Mutex
	faults   []string // errors and warnings of the console, refusals of the content policy, requests that failed
	requests []string // every address asked for
}

// tall is the height of every window, and wide, middling and small are its widths in CSS pixels.
const (
	wide     = 1440
	middling = 768
	small    = 390
	tall     = 900
)

// newTab opens an empty tab of the given width, which closes behind the test.
func newTab(t *testing.T, width int64) *tab {
	t.Helper()
	ctx, cancel := chromedp.NewContext(theBrowser(t))
	t.Cleanup(cancel)
	b := &tab{t: t, ctx: ctx}
	require.NoError(t, chromedp.Listen(b.ctx, b.hear))
	b.resize(width)
	return b
}

// kept are the tabs of pages that are only looked at; they stay open from one test to the next.
var kept = map[string]*tab{}

// look is a tab with a page of the demo's report, on a wide light screen. A test may look at it at any width and in any light,
// but must not touch it: it is kept for the next.
func look(t *testing.T, page string) *tab {
	t.Helper()
	b, has := kept[page]
	if !has {
		ctx, cancel := chromedp.NewContext(theBrowser(t))
		t.Cleanup(func() {
			if t.Failed() { // the next test begins afresh
				delete(kept, page)
				cancel()
			}
		})
		b = &tab{t: t, ctx: ctx}
		require.NoError(t, chromedp.Listen(ctx, b.hear))
		b.resize(wide)
		b.openFile(filepath.Join(reportFolder(t), page))
		kept[page] = b
	}
	b.t = t
	b.resize(wide)
	b.show(media{})
	return b
}

// do runs steps that must not fail.
func (b *tab) do(steps ...chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	defer cancel()
	require.NoError(b.t, chromedp.Do(ctx, steps...))
}

// resize makes the window so many CSS pixels wide.
func (b *tab) resize(width int64) {
	b.t.Helper()
	b.do(chromedp.EmulateViewport(width, tall))
}

// open loads an address and waits until it is there.
func (b *tab) open(address string) {
	b.t.Helper()
	b.do(chromedp.Navigate(address))
}

// openFile loads a file.
func (b *tab) openFile(path string) {
	b.t.Helper()
	b.open(fileAddress(path))
}

func fileAddress(path string) string {
	return (&url.URL{Scheme: "file", Path: filepath.ToSlash(path)}).String()
}

// ask evaluates an expression in the page.
func ask[T any](b *tab, expression string) T {
	b.t.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	defer cancel()
	value, err := chromedp.Run(ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	require.NoError(b.t, err, expression)
	return value
}

// await waits until an expression holds in the page, which may be another page by then; what names it in the failure.
func (b *tab) await(what, expression string) {
	b.t.Helper()
	for begin := time.Now(); ; time.Sleep(10 * time.Millisecond) {
		holds, err := chromedp.Run(b.ctx, chromedp.Evaluate[bool]("!!("+expression+")"))
		if err == nil && holds {
			return
		}
		if time.Since(begin) > patience {
			b.t.Fatalf("waited in vain: %s (%s): %v", what, expression, err)
		}
	}
}

// media is what a page may know of its reader.
type media struct {
	kind   string // "print" or "", the screen
	dark   bool
	steady bool // asks for reduced motion
}

// show sets the media.
func (b *tab) show(m media) {
	b.t.Helper()
	scheme, motion := "light", "no-preference"
	if m.dark {
		scheme = "dark"
	}
	if m.steady {
		motion = "reduce"
	}
	_, err := chromedp.Call(b.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Media: m.kind,
		Features: []*emulation.MediaFeature{
			{Name: "prefers-color-scheme", Value: scheme},
			{Name: "prefers-reduced-motion", Value: motion},
		},
	})
	require.NoError(b.t, err)
}

// withoutScripts forbids the page its scripts; questions of the test still run.
func (b *tab) withoutScripts() {
	b.t.Helper()
	_, err := chromedp.Call(b.ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	require.NoError(b.t, err)
}
