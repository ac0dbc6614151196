// Package desk shows a guide's site on this machine while it is being worked on.
// It publishes into a folder of its own, shows what was published last without
// errors, and tells open pages when there is something new.
package desk

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
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
}

// Desk is one guide being shown. Its methods may be called from several goroutines.
type Desk struct {
	options Options
	dir     string // holds the site; removed by Close

	refreshing sync.Mutex // one at a time

	mu      sync.Mutex // of what follows
	version int        // counts refreshes
	state   State
	changed chan struct{} // closed at the next refresh
}

// State is what the last refresh found.
type State struct {
	Site    bool   // some site can be shown
	Sound   bool   // it is that of the guide as it stands
	Summary string // one line
	Text    string // every problem as it prints
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
	return &Desk{options: o, dir: dir, changed: make(chan struct{})}, nil
}

// Close removes what the desk wrote.
func (d *Desk) Close() error { return os.RemoveAll(d.dir) }

func (d *Desk) site() string { return filepath.Join(d.dir, "site") }

// Refresh reads the guide and publishes it anew. With errors in the guide the
// last good site stays.
func (d *Desk) Refresh() State {
	d.refreshing.Lock()
	defer d.refreshing.Unlock()
	s := stateOf(d.publish())
	_, gone := os.Stat(d.site())
	s.Site = !errors.Is(gone, fs.ErrNotExist)
	d.mu.Lock()
	defer d.mu.Unlock()
	d.version++
	d.state = s
	close(d.changed)
	d.changed = make(chan struct{})
	return s
}

// publish brings a fault of the program back as an error: the desk stays up, and
// the last good site with it.
func (d *Desk) publish() (r *build.Report, err error) {
	defer func() {
		if fault := recover(); fault != nil {
			err = fmt.Errorf("a fault of the program, not of the guide: %v", fault)
		}
	}()
	if err := d.options.Source.Again(); err != nil {
		return nil, fmt.Errorf("the guide's folder can't be read: %w", err)
	}
	return build.Publish(build.Options{Source: d.options.Source, Edition: d.options.Edition, Date: d.options.Date(), Preview: d.options.Preview, Out: d.site()})
}

func stateOf(r *build.Report, err error) State {
	if err != nil {
		return State{Summary: "the guide could not be published", Text: err.Error()}
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

// now gives the state, its number, and a channel closed when it is out of date.
func (d *Desk) now() (State, int, <-chan struct{}) {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.state, d.version, d.changed
}
