package browser

// One Chromium for all the tests of this package, and a tab of it for each.

import (
	"context"
	"fmt"
	"os"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// patience is what one step in the browser may take, on a machine with other things to do.
const patience = 90 * time.Second

var shared struct {
	once sync.Once
	ctx  context.Context
	err  error
	stop []func()
}

func TestMain(m *testing.M) {
	code := m.Run()
	for _, stop := range shared.stop {
		stop()
	}
	os.Exit(code)
}

// chromium is the browser that the tests share.
func chromium(t *testing.T) context.Context {
	t.Helper()
	path := Path(t)
	shared.once.Do(func() {
		ctx, stop, err := Start(path)
		if shared.ctx, shared.err = ctx, err; err == nil {
			shared.stop = append(shared.stop, stop)
		}
	})
	require.NoError(t, shared.err)
	return shared.ctx
}

// tab is one tab with storage and cache of its own. It notes what a reader should never meet.
type tab struct {
	t   *testing.T
	ctx context.Context

	mu     sync.Mutex
	base   string // where everything has to come from
	faults []string
	asked  map[network.RequestID]string
	weight map[string]float64 // address → bytes over the wire
}

// newTab opens a tab for pages below an address.
func newTab(t *testing.T, base string) *tab {
	t.Helper()
	b := &tab{t: t, base: base, asked: map[network.RequestID]string{}, weight: map[string]float64{}}
	ctx, cancel := chromedp.NewContext(chromium(t), chromedp.WithNewBrowserContext(), chromedp.WithListener(b.listen))
	t.Cleanup(cancel)
	b.ctx = ctx
	require.NoError(t, chromedp.Do(ctx))
	return b
}

func (b *tab) listen(event any) {
	b.mu.Lock()
	defer b.mu.Unlock()
	fault := func(format string, a ...any) { b.faults = append(b.faults, fmt.Sprintf(format, a...)) }
	switch e := event.(type) {
	case *runtime.EventConsoleAPICalled:
		var says []string
		for _, a := range e.Args {
			says = append(says, strings.Trim(string(a.Value)+" "+a.Description, " "))
		}
		fault("console %s: %s", e.Type, strings.Join(says, " "))
	case *runtime.EventExceptionThrown:
		d := e.ExceptionDetails
		what := d.Text
		if d.Exception != nil {
			what += " " + d.Exception.Description
		}
		fault("exception: %s (%s:%d)", what, d.URL, d.LineNumber)
	case *log.EventEntryAdded:
		fault("%s %s: %s %s", e.Entry.Source, e.Entry.Level, e.Entry.Text, e.Entry.URL)
	case *network.EventRequestWillBeSent:
		url := e.Request.URL
		b.asked[e.RequestID] = url
		if !strings.HasPrefix(url, b.base) && !strings.HasPrefix(url, "data:") && !strings.HasPrefix(url, "blob:"+b.base) && url != "about:blank" {
			fault("asks for %s", url)
		}
	case *network.EventLoadingFinished:
		b.weight[b.asked[e.RequestID]] += e.EncodedDataLength
	case *network.EventLoadingFailed:
		if !e.Canceled {
			fault("cannot load %s: %s", b.asked[e.RequestID], e.ErrorText)
		}
	}
}

// taken hands out what was noted so far and forgets it.
func (b *tab) taken() (faults []string, weight map[string]float64) {
	b.mu.Lock()
	defer b.mu.Unlock()
	faults, weight = b.faults, b.weight
	b.faults, b.weight = nil, map[string]float64{}
	return faults, weight
}

// sound asserts that nothing was noted.
func (b *tab) sound(where string) {
	b.t.Helper()
	faults, _ := b.taken()
	assert.Empty(b.t, faults, where)
}

func (b *tab) do(steps ...chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	defer cancel()
	require.NoError(b.t, chromedp.Do(ctx, steps...))
}

// visit opens a page and waits until it has settled.
func (b *tab) visit(url string) {
	b.t.Helper()
	b.do(chromedp.Navigate(url))
}

// settled waits until styles apply and scripts that were due have run.
const settled = `new Promise(function (done) { requestAnimationFrame(function () { requestAnimationFrame(function () { setTimeout(done, 0, true); }); }); })`

func (b *tab) settle() { b.t.Helper(); eval[bool](b, settled) }

// eval gives the value of a script, promises awaited.
func eval[T any](b *tab, script string) T {
	b.t.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	defer cancel()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise))
	require.NoError(b.t, err, script)
	return v
}

// until waits for a condition of the page; a page that is just coming or going gives an error, and is asked again.
func (b *tab) until(condition, why string) {
	b.t.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	defer cancel()
	script := `(async function () { try { return Boolean(` + condition + `); } catch (e) { return false; } })()`
	for {
		ok, err := chromedp.Run(ctx, chromedp.Evaluate[bool](script, chromedp.EvalAwaitPromise))
		if ok {
			return
		}
		if ctx.Err() != nil {
			require.Fail(b.t, why, "%v", err)
		}
		time.Sleep(50 * time.Millisecond)
	}
}

func call[P, R any](b *tab, name string, f func(context.Context, P) (R, error), params P) {
	b.t.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	defer cancel()
	_, err := f(ctx, params)
	require.NoError(b.t, err, name)
}

// size sets the window in CSS pixels.
func (b *tab) size(width, height int64, scale float64) {
	b.t.Helper()
	call(b, "size", func(ctx context.Context, p emulation.SetDeviceMetricsOverrideParams) (any, error) {
		return chromedp.Call(ctx, emulation.SetDeviceMetricsOverride, p)
	}, emulation.SetDeviceMetricsOverrideParams{Width: width, Height: height, DeviceScaleFactor: scale})
}

// media sets the medium ("" for the screen) and what the reader prefers: name, value, name, value.
func (b *tab) media(medium string, features ...string) {
	b.t.Helper()
	p := emulation.SetEmulatedMediaParams{Media: medium}
	for i := 0; i+1 < len(features); i += 2 {
		p.Features = append(p.Features, &emulation.MediaFeature{Name: features[i], Value: features[i+1]})
	}
	call(b, "media", func(ctx context.Context, p emulation.SetEmulatedMediaParams) (any, error) {
		return chromedp.Call(ctx, emulation.SetEmulatedMedia, p)
	}, p)
}

// fontSize sets what a reader has chosen as the size of plain text, in pixels.
func (b *tab) fontSize(px int64) {
	b.t.Helper()
	call(b, "font size", func(ctx context.Context, p page.SetFontSizesParams) (any, error) {
		return chromedp.Call(ctx, page.SetFontSizes, p)
	}, page.SetFontSizesParams{FontSizes: &page.FontSizes{Standard: px, Fixed: px}})
}

func (b *tab) scripts(on bool) {
	b.t.Helper()
	call(b, "scripts", func(ctx context.Context, p emulation.SetScriptExecutionDisabledParams) (any, error) {
		return chromedp.Call(ctx, emulation.SetScriptExecutionDisabled, p)
	}, emulation.SetScriptExecutionDisabledParams{Value: !on})
}

// before runs a script before those of every page opened from now on.
func (b *tab) before(script string) {
	b.t.Helper()
	call(b, "before", func(ctx context.Context, p page.AddScriptToEvaluateOnNewDocumentParams) (any, error) {
		return chromedp.Call(ctx, page.AddScriptToEvaluateOnNewDocument, p)
	}, page.AddScriptToEvaluateOnNewDocumentParams{Source: script})
}

// on sets the device's clock to noon of a day, "2026-05-15".
func (b *tab) on(day string) {
	b.t.Helper()
	b.before(`(function () {
		var Real = Date, then = new Real('` + day + `T12:00:00').getTime(), start = Real.now();
		function now() { return then + Real.now() - start; }
		window.Date = class extends Real { constructor(...a) { if (a.length) super(...a); else super(now()); } static now() { return now(); } };
	})()`)
}

// withoutWorker keeps the service worker away, which would fetch the whole site behind the page under test.
func (b *tab) withoutWorker() { b.t.Helper(); b.before(`delete Navigator.prototype.serviceWorker`) }
