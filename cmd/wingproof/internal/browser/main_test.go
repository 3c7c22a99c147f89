package browser_test

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
)

// root is the temporary folder of everything that these tests make; it is removed behind them.
var root string

func TestMain(m *testing.M) {
	var err error
	if root, err = os.MkdirTemp("", "wingproof-browser-"); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	status := m.Run()
	closeBrowser()
	if err := os.RemoveAll(root); err != nil {
		fmt.Fprintln(os.Stderr, err)
	}
	os.Exit(status)
}

// program is the built wingproof, made once.
var program = sync.OnceValues(func() (string, error) {
	path := filepath.Join(root, "wingproof")
	out, err := exec.Command("go", "build", "-o", path, "wingproof/cmd/wingproof").CombinedOutput()
	if err != nil {
		return "", fmt.Errorf("go build: %w\n%s", err, out)
	}
	return path, nil
})

// shop is the demo's folder with one sheet issued and, behind that, the report of the day: every kind of page is there. It is
// made once and only read; a test that writes takes a copy.
var shop = sync.OnceValues(func() (string, error) {
	wingproof, err := program()
	if err != nil {
		return "", err
	}
	dir := filepath.Join(root, "sandreed")
	for _, arguments := range [][]string{
		{"demo", "--dir", dir},
		{"report", "--program", dir, "--issue", "S. I."},
		{"report", "--program", dir},
	} {
		if out, err := exec.Command(wingproof, arguments...).CombinedOutput(); err != nil {
			return "", fmt.Errorf("wingproof %v: %w\n%s", arguments, err, out)
		}
	}
	return dir, nil
})

// shopFolder is the demo's folder, to be read only. Without a browser it is not made.
func shopFolder(t *testing.T) string {
	t.Helper()
	theBrowser(t)
	dir, err := shop()
	require.NoError(t, err)
	return dir
}

// copyOfShop is a copy of the demo's folder for a test that changes it. What was computed is kept in it, so that nothing is
// computed again.
func copyOfShop(t *testing.T) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "sandreed")
	require.NoError(t, os.CopyFS(dir, os.DirFS(shopFolder(t))))
	return dir
}
