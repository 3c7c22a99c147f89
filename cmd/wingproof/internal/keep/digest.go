package keep

import (
	"crypto/sha256"
	"encoding/hex"
	"io"
	"os"
	"runtime"
	"runtime/debug"
	"sync"
)

// chunk is how much of a file is read at a time, bytes.
const chunk = 1 << 20

// FileDigest is the SHA-256 of a file's content, in hexadecimal.
func FileDigest(path string) (string, error) {
	file, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer func() { _ = file.Close() }()
	sum := sha256.New()
	if _, err := io.CopyBuffer(sum, struct{ io.Reader }{file}, make([]byte, chunk)); err != nil {
		return "", err
	}
	return hex.EncodeToString(sum.Sum(nil)), nil
}

// Executable tells the running program from every other: the digest of its file and what was built into it. It is empty where
// the file cannot be read. The file is read once a process.
func Executable() string { return running() }

var running = sync.OnceValue(func() string {
	path := "/proc/self/exe" // the file that runs, also after another took its name
	if runtime.GOOS != "linux" {
		var err error
		if path, err = os.Executable(); err != nil {
			return ""
		}
	}
	digest, err := FileDigest(path)
	if err != nil {
		return ""
	}
	// Elsewhere the file may have been replaced since the start; what was built in is that of the process.
	if built, ok := debug.ReadBuildInfo(); ok {
		return digest + "\n" + built.String()
	}
	return digest
})
