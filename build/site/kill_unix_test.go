//go:build linux || darwin

package site

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestMain lets the test binary act as a run that is killed at a given step.
func TestMain(m *testing.M) {
	if target := os.Getenv("GUIDEGEN_KILLED_RUN"); target != "" {
		at, _ := strconv.Atoi(os.Getenv("GUIDEGEN_KILL_AT"))
		var mu sync.Mutex
		err := publish(plan(target), pages(os.Getenv("GUIDEGEN_VERSION")), func(string) error {
			mu.Lock()
			defer mu.Unlock()
			if at--; at == 0 {
				_ = syscall.Kill(os.Getpid(), syscall.SIGKILL)
				select {}
			}
			return nil
		}, os.Getenv("GUIDEGEN_NO_EXCHANGE") != "")
		if err != nil {
			os.Stderr.WriteString(err.Error())
			os.Exit(1)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// run starts a run in a process of its own; it is killed before its k-th step, or after a time.
func run(t *testing.T, target, version string, noExchange bool, k int, after time.Duration) (killed bool) {
	t.Helper()
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), "GUIDEGEN_KILLED_RUN="+target, "GUIDEGEN_VERSION="+version, "GUIDEGEN_KILL_AT="+strconv.Itoa(k))
	if noExchange {
		cmd.Env = append(cmd.Env, "GUIDEGEN_NO_EXCHANGE=1")
	}
	require.NoError(t, cmd.Start())
	if after > 0 {
		time.AfterFunc(after, func() { _ = cmd.Process.Kill() })
	}
	err := cmd.Wait()
	if err == nil {
		return false
	}
	var exit *exec.ExitError
	require.True(t, errors.As(err, &exit))
	require.Equal(t, syscall.SIGKILL, exit.Sys().(syscall.WaitStatus).Signal(), "the run failed by itself")
	return true
}

func TestAKillAtAnyStep(t *testing.T) {
	for _, noExchange := range []bool{false, true} {
		dir := t.TempDir()
		target := filepath.Join(dir, "published")
		require.NoError(t, publish(plan(target), pages("one"), passing, noExchange))
		one := snapshot(t, target)
		require.NoError(t, publish(plan(target), pages("two"), passing, noExchange))
		two := snapshot(t, target)
		require.NoError(t, publish(plan(target), pages("one"), passing, noExchange))

		olds, news, gaps := 0, 0, 0
		for k := 1; run(t, target, "two", noExchange, k, 0); k++ {
			if _, err := os.Lstat(target); noExchange && errors.Is(err, os.ErrNotExist) {
				gaps++
				s, err := open(plan(target), passing, noExchange)
				require.NoError(t, err, "step %d: the gap can't be repaired", k)
				require.NoError(t, s.Close())
			}
			switch got := snapshot(t, target); got["index.html"] {
			case one["index.html"]:
				olds++
				require.Equal(t, one, got, "step %d", k)
			default:
				news++
				require.Equal(t, two, got, "step %d", k)
			}
			// The next run clears up, even if it is killed while doing so.
			for j := 1; j <= 2; j++ {
				run(t, target, "one", noExchange, j, 0)
			}
			require.NoError(t, publish(plan(target), pages("one"), passing, noExchange))
			require.Equal(t, one, snapshot(t, target), "step %d", k)
			entries, err := os.ReadDir(dir)
			require.NoError(t, err)
			require.Len(t, entries, 1, "step %d: something is left", k)
		}
		assert.Greater(t, olds, 8)
		assert.Greater(t, news, 3)
		assert.Equal(t, noExchange, gaps > 0)
	}
}

func TestAKillAtAnyMoment(t *testing.T) {
	dir := t.TempDir()
	target := filepath.Join(dir, "published")
	require.NoError(t, publish(plan(target), pages("two"), passing, false))
	two := snapshot(t, target)
	require.NoError(t, publish(plan(target), pages("one"), passing, false))
	one := snapshot(t, target)
	for after := time.Millisecond; after < 30*time.Millisecond; after += time.Millisecond {
		run(t, target, "two", false, 0, after)
		if got := snapshot(t, target); got["index.html"] == one["index.html"] {
			require.Equal(t, one, got)
		} else {
			require.Equal(t, two, got)
		}
		require.NoError(t, publish(plan(target), pages("one"), passing, false))
		require.Equal(t, map[string]bool{"published": true}, names(t, dir))
	}
}

func names(t *testing.T, dir string) map[string]bool {
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	out := map[string]bool{}
	for _, e := range entries {
		out[e.Name()] = true
	}
	return out
}
