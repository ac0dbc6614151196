// Package browser starts a Chromium for tests: without one a test is skipped, and fails where CI=true promises
// one. Its own tests show the demo guide's site as a reader's browser shows it, served from a subfolder of a
// host and opened from disk. No command needs it.
package browser

import (
	"context"
	"flag"
	"os"

	"github.com/chromedp/chromedp"

	"guidegen/build/press"
)

// T is what a test offers: a *testing.T.
type T interface {
	Helper()
	Skip(...any)
	Fatal(...any)
	Cleanup(func())
}

// Path is where the machine's browser is. Tests with -short go without.
func Path(t T) string {
	t.Helper()
	if f := flag.Lookup("test.short"); f != nil && f.Value.String() == "true" {
		t.Skip("needs a browser")
	}
	path := press.Browser()
	if path == "" && os.Getenv("CI") == "true" {
		t.Fatal("no Chromium on a machine that has to have one")
	}
	if path == "" {
		t.Skip("no Chromium here: what a browser does was not tried")
	}
	return path
}

// Start starts a browser that asks for nothing by itself. stop ends it and removes what it wrote.
func Start(path string) (ctx context.Context, stop func(), err error) {
	dir, err := os.MkdirTemp("", "guidegen-browser-")
	if err != nil {
		return nil, nil, err
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.UserDataDir(dir), chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-background-networking", true))
	all, end := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, cancel := chromedp.NewContext(all)
	stop = func() { cancel(); end(); os.RemoveAll(dir) }
	if err := chromedp.Do(ctx); err != nil { // starts it; a timeout here would end it later
		stop()
		return nil, nil, err
	}
	return ctx, stop, nil
}

// Open gives a test a browser of its own.
func Open(t T) context.Context {
	t.Helper()
	ctx, stop, err := Start(Path(t))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(stop)
	return ctx
}
