package main

import (
	"bufio"
	"context"
	"io"
	"net/http"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"guidegen/build"
	"guidegen/build/desk"
)

// The desk says where it is to be found, answers there, and ends when told to;
// it writes nothing into the guide or beside it.
func TestDesk(t *testing.T) {
	top := t.TempDir()
	guide := filepath.Join(top, "guide")
	_, errs, status := call(t, "", "blank", "guide", guide)
	require.Equal(t, fine, status, errs)
	before := sums(t, top)
	src, err := build.Find(guide, ".")
	require.NoError(t, err)
	defer src.Close()

	read, write := io.Pipe()
	c := &command{out: write, err: io.Discard}
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan error, 1)
	go func() { done <- c.serve(ctx, desk.Options{Source: src, Date: today}) }()
	address := ""
	said := bufio.NewScanner(read)
	for address == "" && said.Scan() {
		if m := regexp.MustCompile(`^open (http://127\.0\.0\.1:\d+/) `).FindStringSubmatch(said.Text()); m != nil {
			address = m[1]
		}
	}
	require.NotEmpty(t, address)
	go io.Copy(io.Discard, read)
	resp, err := http.Get(address)
	require.NoError(t, err)
	defer resp.Body.Close()
	body, err := io.ReadAll(resp.Body)
	require.NoError(t, err)
	assert.Equal(t, http.StatusOK, resp.StatusCode)
	assert.Contains(t, string(body), "Flies of our waters")
	cancel()
	assert.NoError(t, <-done)
	assert.Equal(t, before, sums(t, top))
}
