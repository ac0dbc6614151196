package press

// Finding a Chromium. None is fetched: what the machine has is used, or nothing.

import (
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
)

// names are what Chromium and its kin are called on the path.
var names = []string{"chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome", "msedge", "microsoft-edge", "microsoft-edge-stable"}

// places are where they stand on systems that put them on no path.
func places() []string {
	switch runtime.GOOS {
	case "darwin":
		return []string{"/Applications/Chromium.app/Contents/MacOS/Chromium", "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
			"/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge"}
	case "windows":
		var l []string
		for _, root := range []string{os.Getenv("ProgramFiles"), os.Getenv("ProgramFiles(x86)"), os.Getenv("LocalAppData")} {
			if root != "" {
				l = append(l, filepath.Join(root, `Chromium\Application\chrome.exe`), filepath.Join(root, `Google\Chrome\Application\chrome.exe`),
					filepath.Join(root, `Microsoft\Edge\Application\msedge.exe`))
			}
		}
		return l
	}
	return nil
}

// Browser is the path of a Chromium on this machine, "" where there is none.
func Browser() string {
	for _, n := range names {
		if p, err := exec.LookPath(n); err == nil {
			return p
		}
	}
	for _, p := range places() {
		if info, err := os.Stat(p); err == nil && info.Mode().IsRegular() {
			return p
		}
	}
	return ""
}
