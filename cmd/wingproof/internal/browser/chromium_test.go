package browser_test

import (
	"context"
	"os"
	"os/exec"
	"sync"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// required tells whether a missing browser is a failure: WINGPROOF_BROWSER=required.
func required() bool { return os.Getenv("WINGPROOF_BROWSER") == "required" }

// missing ends a test for want of something on this machine: by a failure where it is required, else by a skip that says why.
func missing(t *testing.T, why string) {
	t.Helper()
	if required() {
		t.Fatal(why)
	}
	t.Skip(why)
}

// findChromium is the path of the browser; empty: there is none.
func findChromium() string {
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	return ""
}

// browser is the one browser of all tests; each test has tabs of its own.
type browser struct {
	ctx   context.Context
	close func()
	err   error
}

var running struct {
	sync.Once
	browser
}

// theBrowser starts the browser with the first test that wants it.
func theBrowser(t *testing.T) context.Context {
	t.Helper()
	path := findChromium()
	if path == "" {
		missing(t, "no chromium here: browser tests not run")
	}
	running.Do(func() { running.browser = startBrowser(path) })
	require.NoError(t, running.err)
	return running.ctx
}

func startBrowser(path string) browser {
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(path),
		chromedp.DisableGPU,
		chromedp.Flag("disable-component-update", true),
		chromedp.Flag("no-sandbox", os.Getuid() == 0), // a browser refuses its sandbox to root
		chromedp.Flag("lang", "en-GB"),
	)
	allocator, stop := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, cancel := chromedp.NewContext(allocator)
	err := chromedp.Do(ctx) // with no step: starts the browser alone
	return browser{ctx, func() { cancel(); stop() }, err}
}

// closeBrowser ends the browser and removes its profile.
func closeBrowser() {
	if running.close != nil {
		running.close()
	}
}
