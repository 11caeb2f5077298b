package trial

import (
	"os/exec"
	"testing"
)

// Chromium is the path of a browser to look at pages in; the test is skipped where there is
// none, and CI installs it.
func Chromium(t testing.TB) string {
	t.Helper()
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	t.Skip("there is no Chromium")
	return ""
}
