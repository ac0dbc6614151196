// Package press prints pages of a site to PDF with a Chromium that the machine has. The pages are
// read from disk, and nothing else is asked for.
package press

import (
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"net/url"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"guidegen/content/calendar"
)

// ErrNoBrowser says that the machine has no Chromium.
var ErrNoBrowser = errors.New("no Chromium, Chrome or Edge is on this machine")

// How long the browser may take to start, and for one page.
const (
	startWithin = 30 * time.Second
	printWithin = 5 * time.Minute
)

// Job is one page to print.
type Job struct {
	Page    string // slash path below the press's folder
	Booklet bool   // made up with ruled pages to a multiple of four, its contents given page numbers
}

// Press is a browser at work. Close it when done.
type Press struct {
	dir    string
	day    calendar.Date
	ctx    context.Context
	cancel []func()
	scrap  string // the browser's own folder
}

// Open starts the browser at a path for the pages below a folder, dating what it prints.
func Open(browser, dir string, day calendar.Date) (*Press, error) {
	if browser == "" {
		return nil, ErrNoBrowser
	}
	full, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	// As root, and where the system gives no namespaces, Chromium starts only without its
	// sandbox. The pages are our own and load nothing from elsewhere.
	sandboxes := []bool{true, false}
	if runtime.GOOS == "linux" && os.Geteuid() == 0 {
		sandboxes = []bool{false}
	}
	for _, sandbox := range sandboxes {
		var p *Press
		if p, err = start(browser, full, day, sandbox); err == nil {
			return p, nil
		}
	}
	return nil, fmt.Errorf("%s does not start: %w", browser, err)
}

func start(browser, dir string, day calendar.Date, sandbox bool) (*Press, error) {
	p := &Press{dir: dir, day: day}
	var err error
	if p.scrap, err = os.MkdirTemp("", "guidegen-press-"); err != nil {
		return nil, err
	}
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(browser), chromedp.UserDataDir(p.scrap), chromedp.DisableGPU,
		chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-quic", true), chromedp.CombinedOutput(io.Discard))
	if !sandbox {
		opts = append(opts, chromedp.NoSandbox)
	}
	all, stop := chromedp.NewExecAllocator(context.Background(), opts...)
	tab, closeTab := chromedp.NewContext(all)
	p.ctx, p.cancel = tab, []func(){closeTab, stop}
	begun := make(chan error, 1)
	go func() { begun <- chromedp.Do(tab, chromedp.Navigate("about:blank")) }()
	select {
	case err = <-begun:
	case <-time.After(startWithin):
		err = errors.New("no answer within half a minute")
	}
	if err != nil {
		p.Close()
		return nil, err
	}
	return p, nil
}

// Close ends the browser.
func (p *Press) Close() {
	for _, c := range p.cancel {
		c()
	}
	for range 10 { // the browser's last processes may still be writing there
		if os.RemoveAll(p.scrap) == nil {
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
}

// Print prints one page. The same page and day give the same bytes on one machine; another
// machine has other fonts and another Chromium.
func (p *Press) Print(j Job) ([]byte, error) {
	ctx, cancel := context.WithTimeout(p.ctx, printWithin)
	defer cancel()
	pdf, err := p.print(ctx, j)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", j.Page, err)
	}
	return pdf, nil
}

func (p *Press) print(ctx context.Context, j Job) ([]byte, error) {
	file := filepath.ToSlash(filepath.Join(p.dir, filepath.FromSlash(j.Page)))
	if !strings.HasPrefix(file, "/") {
		file = "/" + file
	}
	address := (&url.URL{Scheme: "file", Path: file}).String()
	if err := chromedp.Do(ctx, chromedp.Navigate(address)); err != nil {
		return nil, err
	}
	if err := do(ctx, withoutLocalLinks); err != nil {
		return nil, err
	}
	if !j.Booklet {
		return p.pdf(ctx, true)
	}
	// A page can't know how many it will be. Printed once without pages for notes, it is counted;
	// what the count lacks to a multiple of four is added, and it is printed again.
	if err := do(ctx, fmt.Sprintf(notesPages, 0, ruledLines)); err != nil {
		return nil, err
	}
	first, err := p.pdf(ctx, false)
	if err != nil {
		return nil, err
	}
	add := (4 - Pages(first)%4) % 4
	if err := do(ctx, fmt.Sprintf(notesPages, add, ruledLines)); err != nil {
		return nil, err
	}
	var numbers strings.Builder
	at := Destinations(first)
	for _, id := range slices.Sorted(maps.Keys(at)) {
		fmt.Fprintf(&numbers, "[%s,%d],", strconv.Quote(id), at[id])
	}
	if err := do(ctx, fmt.Sprintf(pageNumbers, numbers.String())); err != nil {
		return nil, err
	}
	pdf, err := p.pdf(ctx, true)
	if err == nil && Pages(pdf)%4 != 0 {
		err = fmt.Errorf("%d pages, where %d were counted and %d added", Pages(pdf), Pages(first), add)
	}
	return pdf, err
}

// Links to pages beside this one would stand in a PDF with the folder they were printed from.
const withoutLocalLinks = `for (const a of document.querySelectorAll("a[href]")) {
	const to = a.getAttribute("href");
	if (!to.startsWith("#") && !/^https?:/.test(to)) a.removeAttribute("href");
}`

// ruledLines fill a page of A5 (templates/css/booklet.css).
const ruledLines = 20

// notesPages leaves so many pages for notes before the back page, each with so many lines.
const notesPages = `{
	const kept = window.keptNotes ??= document.querySelector(".notes-page");
	for (const n of document.querySelectorAll(".notes-page")) n.remove();
	const back = document.querySelector(".back-page");
	for (let i = 0; i < %[1]d; i++) {
		const n = kept.cloneNode(true);
		n.removeAttribute("aria-labelledby");
		for (const e of n.querySelectorAll("[id]")) e.removeAttribute("id");
		n.classList.add("whole"); // a page of its own, and ruled to its end
		const rules = n.querySelectorAll(".rule");
		for (let k = rules.length; k && k < %[2]d; k++) n.append(rules[0].cloneNode(true));
		back.before(n);
	}
}`

// pageNumbers writes the numbers of pages into the contents.
const pageNumbers = `{
	const at = new Map([%s]);
	for (const e of document.querySelectorAll(".pg")) e.textContent = at.get(e.dataset.for) ?? "";
}`

func do(ctx context.Context, script string) error {
	_, err := chromedp.Run(ctx, chromedp.Evaluate[bool]("(() => {"+script+"\nreturn true;})()"))
	return err
}

func (p *Press) pdf(ctx context.Context, tagged bool) ([]byte, error) {
	yes := true
	r, err := chromedp.Call(ctx, page.PrintToPDF, page.PrintToPDFParams{PrintBackground: &yes, PreferCSSPageSize: &yes,
		GenerateTaggedPDF: &tagged, GenerateDocumentOutline: &tagged})
	if err != nil {
		return nil, err
	}
	return numbered(dated(r.Data, p.day)), nil
}
