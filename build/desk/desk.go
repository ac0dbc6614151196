// Package desk shows a guide's site on this machine while it is being worked on. After a change the guide is read and
// reckoned anew, each page is drawn when it is asked for, and all are checked beside that. It shows the guide as it was
// last without errors, and tells open pages when there is something new.
package desk

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"sync"

	"guidegen/build"
	"guidegen/content"
	"guidegen/content/calendar"
)

// Options are what a desk is asked for.
type Options struct {
	Source  *build.Source
	Edition build.Edition
	Date    func() calendar.Date // the day the guide is built for, asked at each refresh
	Preview bool                 // what is dated later is left out
	Told    func(State)          // called after each reading and after each check; nil for nobody
}

// Desk is one guide being shown. Its methods may be called from several goroutines.
type Desk struct {
	options Options
	photos  photos // removed by Close

	refreshing sync.Mutex // one at a time
	endCheck   context.CancelFunc
	checking   sync.WaitGroup

	mu      sync.Mutex // of what follows
	shown   *build.Live
	state   State
	changed chan struct{} // closed when state changes
}

// State is what the last refresh found.
type State struct {
	Site    bool   // some site can be shown
	Sound   bool   // no error was found so far: what is shown is the guide as it is
	Checked bool   // every page was drawn and looked at
	Summary string // one line
	Text    string // every problem as it prints

	drawn, found int // how often what is shown changed, and what is known of it
}

// photos is a folder of files made of photos.
type photos string

func (p photos) Get(address string) []byte {
	b, err := os.ReadFile(filepath.Join(string(p), filepath.Base(address)))
	if err != nil {
		return nil // it is made again
	}
	return b
}

func (p photos) Put(address string, data []byte) {
	name := filepath.Join(string(p), filepath.Base(address))
	if os.WriteFile(name+".part", data, 0o600) == nil {
		_ = os.Rename(name+".part", name) // else it is made again
	}
}

// New makes a desk; nothing is shown before the first Refresh. The error is ours.
func New(o Options) (*Desk, error) {
	dir, err := os.MkdirTemp("", "guidegen-desk-*")
	if err != nil {
		return nil, err
	}
	if o.Edition == build.AnyEdition {
		o.Edition = build.Public
	}
	if o.Told == nil {
		o.Told = func(State) {}
	}
	return &Desk{options: o, photos: photos(dir), endCheck: func() {}, changed: make(chan struct{})}, nil
}

// Close ends a check and removes what the desk wrote.
func (d *Desk) Close() error {
	d.refreshing.Lock()
	defer d.refreshing.Unlock()
	d.stopChecking()
	return os.RemoveAll(string(d.photos))
}

func (d *Desk) stopChecking() {
	d.endCheck()
	d.checking.Wait()
}

// Refresh reads the guide anew and shows it, and begins to check every page of it. With errors in the guide what was
// last without stays.
func (d *Desk) Refresh() State {
	d.refreshing.Lock()
	defer d.refreshing.Unlock()
	d.stopChecking()
	live, r, err := d.open()
	s := stateOf(r, err)
	if !s.Sound {
		return d.show(s, d.shown)
	}
	before := d.shown
	s.Summary += "; checking every page"
	s = d.show(s, live)
	var ctx context.Context
	ctx, d.endCheck = context.WithCancel(context.Background())
	d.checking.Go(func() { d.check(ctx, live, before) })
	return s
}

// show makes a state the desk's own.
func (d *Desk) show(s State, live *build.Live) State {
	d.mu.Lock()
	s.Site, s.drawn, s.found = live != nil, d.state.drawn, d.state.found+1
	if live != d.shown || s.Sound != d.state.Sound || !s.Checked {
		s.drawn++
	}
	d.shown, d.state = live, s
	close(d.changed)
	d.changed = make(chan struct{})
	d.mu.Unlock()
	d.options.Told(s)
	return s
}

// check looks at every page. With errors among them what was shown before is shown again.
func (d *Desk) check(ctx context.Context, live, before *build.Live) {
	s := func() (s State) {
		defer outlive(func(err error) { s = stateOf(nil, err) })
		return stateOf(live.Check(ctx))
	}()
	if ctx.Err() != nil {
		return
	}
	s.Checked = true
	if !s.Sound {
		live = before
	}
	d.show(s, live)
}

// open reads the guide and lays out its site.
func (d *Desk) open() (live *build.Live, r *build.Report, err error) {
	defer outlive(func(fault error) { live, err = nil, fault })
	if err := d.options.Source.Again(); err != nil {
		return nil, nil, fmt.Errorf("the guide's folder can't be read: %w", err)
	}
	o := build.Options{Source: d.options.Source, Edition: d.options.Edition, Date: d.options.Date(), Preview: d.options.Preview}
	return build.Open(o, d.photos)
}

// outlive hands a fault of the program over as an error: the desk stays up, and the last good site with it.
func outlive(told func(error)) {
	if fault := recover(); fault != nil {
		told(fmt.Errorf("a fault of the program, not of the guide: %v", fault))
	}
}

func stateOf(r *build.Report, err error) State {
	if err != nil {
		return State{Summary: "the guide could not be shown", Text: err.Error()}
	}
	var b bytes.Buffer
	for _, p := range r.Problems {
		r.Collector().Print(&b, p)
	}
	s := State{Sound: r.Sound(), Text: b.String()}
	errs, warnings, notes := r.Count(content.Error), r.Count(content.Warning), r.Count(content.Note)
	s.Summary = fmt.Sprintf("errors: %d, warnings: %d, notes: %d", errs, warnings, notes)
	if s.Sound {
		s.Summary = fmt.Sprintf("%d pages; %s", r.Pages, s.Summary)
		if r.Later != "" {
			s.Summary += "; left out as later than " + r.Date.String() + ": " + r.Later
		}
	}
	return s
}

// now gives the state, what is shown, and a channel closed when they are out of date.
func (d *Desk) now() (State, *build.Live, <-chan struct{}) {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.state, d.shown, d.changed
}
