package browser_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// hear notes what a page complains of and asks for. The browser tells it in order, before it answers the next question.
func (b *tab) hear(event any) {
	b.mu.Lock()
	defer b.mu.Unlock()
	switch e := event.(type) {
	case *runtime.EventConsoleAPICalled:
		if e.Type != runtime.ConsoleAPICalledTypeLog && e.Type != runtime.ConsoleAPICalledTypeDebug && e.Type != runtime.ConsoleAPICalledTypeInfo {
			b.faults = append(b.faults, fmt.Sprintf("console %s: %s", e.Type, words(e.Args)))
		}
	case *runtime.EventExceptionThrown:
		b.faults = append(b.faults, "exception: "+(&chromedp.ExceptionError{ExceptionDetails: e.ExceptionDetails}).Error())
	case *log.EventEntryAdded:
		if e.Entry.Level == log.EntryLevelWarning || e.Entry.Level == log.EntryLevelError {
			b.faults = append(b.faults, fmt.Sprintf("%s %s: %s %s", e.Entry.Source, e.Entry.Level, e.Entry.Text, e.Entry.URL))
		}
	case *network.EventRequestWillBeSent:
		b.requests = append(b.requests, e.Request.URL)
	case *network.EventLoadingFailed:
		if !e.Canceled {
			b.faults = append(b.faults, fmt.Sprintf("request failed: %s %s", e.Type, e.ErrorText))
		}
	case *network.EventResponseReceived:
		if e.Response.Status >= 400 {
			b.faults = append(b.faults, fmt.Sprintf("answer %d: %s", e.Response.Status, e.Response.URL))
		}
	}
}

func words(arguments []*runtime.RemoteObject) string {
	var out []string
	for _, a := range arguments {
		out = append(out, string(a.Value)+a.Description)
	}
	return strings.Join(out, " ")
}

// heard is what the page complained of so far, and what it asked for. An answer comes behind all that was said before it.
func (b *tab) heard() (faults, requests []string) {
	b.t.Helper()
	ask[bool](b, "true")
	b.mu.Lock()
	defer b.mu.Unlock()
	return append([]string(nil), b.faults...), append([]string(nil), b.requests...)
}

// quiet holds a page of the report folder to its word: no complaint, and nothing asked for outside the folder.
func (b *tab) quiet() {
	b.t.Helper()
	faults, requests := b.heard()
	require.Empty(b.t, faults)
	for _, address := range requests {
		inside := strings.HasPrefix(address, "file://") || strings.HasPrefix(address, "data:")
		require.True(b.t, inside, "asks the network for %s", address)
	}
}

// A page with a fault of every kind is not quiet: the test of the tests.
func TestFaultsAreHeard(t *testing.T) {
	const begin = `<!DOCTYPE html><html lang="en"><head><title>t</title><link rel="icon" href="data:,">`
	for name, page := range map[string]string{
		"warning":   begin + `<script>console.warn("too hot")</script>`,
		"exception": begin + `<script>null.part</script>`,
		"policy":    begin + `<meta http-equiv="Content-Security-Policy" content="default-src 'none'"><script>let a = 1</script>`,
		"style":     begin + `<meta http-equiv="Content-Security-Policy" content="default-src 'none'"></head><body><p style="color:red">red</p>`,
		"lost file": begin + `</head><body><img src="lost.png" alt="">`,
		"network":   begin + `</head><body><img src="http://127.0.0.1:9/a.png" alt="">`,
	} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "page.html")
			require.NoError(t, os.WriteFile(path, []byte(page), 0o600))
			b := newTab(t, wide)
			b.openFile(path)
			faults, requests := b.heard()
			require.NotEmpty(t, faults)
			require.Equal(t, name == "network", strings.Contains(strings.Join(requests, " "), "http:"))
		})
	}
}
