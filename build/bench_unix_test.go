//go:build unix

package build

import (
	"bytes"
	"encoding/csv"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime/debug"
	"runtime/metrics"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"github.com/yuin/goldmark"
	"gopkg.in/yaml.v3"

	"guidegen/build/figures"
	"guidegen/build/guide"
	"guidegen/build/view"
	"guidegen/content"
)

// Each turn does the whole of a command with a generated guide. Beside Go's own figures are reported the CPU that a
// turn took, the most memory held at once and, where a site is written, its bytes for each fly of each water.
func BenchmarkPublish(b *testing.B) {
	measure(b, func(o Options) (*Report, error) {
		o.Out = filepath.Join(b.TempDir(), "site")
		return Publish(o)
	})
}

func BenchmarkProof(b *testing.B) { measure(b, Proof) }

func BenchmarkReckon(b *testing.B) {
	measure(b, func(o Options) (*Report, error) {
		_, r, err := Reckon(o)
		return r, err
	})
}

// What it costs until the desk shows a water's page after a save.
func BenchmarkSave(b *testing.B) {
	measure(b, func(o Options) (*Report, error) {
		o.Edition = Public
		l, r, err := Open(o, nil)
		require.NoError(b, err)
		_, ok, err := l.File(view.WaterPage(l.plan.book.Waters[0]))
		require.True(b, ok)
		return r, err
	})
}

// The least that a site costs: every file read, every record decoded with yaml.v3, every sheet with encoding/csv, every
// account converted with goldmark, the figures reckoned once, and the same bytes written into the same files. Publish's
// CPU over this, in one run on one machine, is how far the program is from it. What is reckoned is all of
// figures.Reckon, advice with it, so that the floor is a little high.
func BenchmarkFloor(b *testing.B) {
	for _, s := range sizes {
		b.Run(s.String(), func(b *testing.B) {
			o := Options{Source: &Source{Files: generate(1, s)}, Edition: Public, Date: generatedDay, Out: filepath.Join(b.TempDir(), "site")}
			before := cpu(b)
			_, err := Publish(o)
			require.NoError(b, err)
			published := cpu(b) - before
			written := map[string][]byte{}
			require.NoError(b, fs.WalkDir(os.DirFS(o.Out), ".", func(name string, d fs.DirEntry, err error) error {
				if err != nil || d.IsDir() {
					return err
				}
				written[name], err = os.ReadFile(filepath.Join(o.Out, name))
				return err
			}))
			g, err := Read(o.Source, o.Date, &content.Problems{})
			require.NoError(b, err)
			edition := guide.Cut(g, false)
			before = cpu(b)
			for b.Loop() {
				decode(b, o.Source.Files)
				figures.Reckon(edition, o.Date)
				out := b.TempDir()
				for name, data := range written {
					to := filepath.Join(out, name)
					require.NoError(b, os.MkdirAll(filepath.Dir(to), 0o755))
					require.NoError(b, os.WriteFile(to, data, 0o644))
				}
			}
			floor := (cpu(b) - before) / time.Duration(b.N)
			b.ReportMetric(floor.Seconds(), "cpu-s/op")
			b.ReportMetric(published.Seconds()/floor.Seconds(), "publish/floor")
		})
	}
}

// decode reads every file of a guide with a library for its form, and keeps nothing.
func decode(b *testing.B, files fs.FS) {
	require.NoError(b, fs.WalkDir(files, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(files, name)
		require.NoError(b, err)
		var record any
		switch filepath.Ext(name) {
		case ".yaml":
			return yaml.Unmarshal(text, &record)
		case ".csv":
			r := csv.NewReader(bytes.NewReader(text))
			r.FieldsPerRecord = -1
			_, err = r.ReadAll()
			return err
		case ".md":
			if parts := bytes.SplitN(text, []byte("---\n"), 3); len(parts) == 3 {
				require.NoError(b, yaml.Unmarshal(parts[1], &record))
				text = parts[2]
			}
			return goldmark.Convert(text, io.Discard)
		}
		return nil
	}))
}

var sizes = []size{{4, 58}, {10, 60}, {30, 120}}

func measure(b *testing.B, run func(Options) (*Report, error)) {
	for _, s := range sizes {
		b.Run(s.String(), func(b *testing.B) {
			o := Options{Source: &Source{Files: generate(1, s)}, Date: generatedDay}
			b.ReportAllocs()
			debug.FreeOSMemory() // what the benchmark before left
			peak := watchMemory()
			start := cpu(b)
			site := ""
			for b.Loop() {
				r, err := run(o)
				require.NoError(b, err)
				require.True(b, r.Sound())
				site = r.Out
			}
			b.ReportMetric((cpu(b)-start).Seconds()/float64(b.N), "cpu-s/op")
			b.ReportMetric(float64(peak())/1e6, "peak-MB")
			if site != "" {
				b.ReportMetric(float64(bytesOf(b, site))/float64(s.waters*s.listed()), "site-B/pair")
			}
		})
	}
}

// cpu is what the process has used so far, for itself and in the system.
func cpu(b *testing.B) time.Duration {
	var u syscall.Rusage
	require.NoError(b, syscall.Getrusage(syscall.RUSAGE_SELF, &u))
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// watchMemory looks every 5 ms at the memory that Go holds, until the function returned asks for the most of it.
func watchMemory() func() uint64 {
	held := []metrics.Sample{{Name: "/memory/classes/total:bytes"}, {Name: "/memory/classes/heap/released:bytes"}}
	done, most := make(chan bool), make(chan uint64)
	go func() {
		var peak uint64
		for {
			metrics.Read(held)
			peak = max(peak, held[0].Value.Uint64()-held[1].Value.Uint64())
			select {
			case <-done:
				most <- peak
				return
			case <-time.After(5 * time.Millisecond):
			}
		}
	}()
	return func() uint64 { done <- true; return <-most }
}

func bytesOf(b *testing.B, dir string) (n int64) {
	require.NoError(b, fs.WalkDir(os.DirFS(dir), ".", func(_ string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		info, err := d.Info()
		n += info.Size()
		return err
	}))
	return n
}
