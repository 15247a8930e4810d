// Package shared lets goroutines read one value at the same time. The race detector
// sees what writes, and the results tell what depends on the others. For tests; safe
// for concurrent use.
package shared

import (
	"reflect"
	"sync"
	"testing"
)

// Read calls read on its own, then often from several goroutines at once, and wants
// the same every time. What it reads is made outside of it.
func Read(t *testing.T, read func() any) {
	t.Helper()
	want := read()
	const readers, times = 4, 8
	var done sync.WaitGroup
	start := make(chan struct{})
	for range readers {
		done.Go(func() {
			<-start
			for range times {
				if got := read(); !reflect.DeepEqual(got, want) {
					t.Errorf("read together %v, alone %v", got, want)
					return
				}
			}
		})
	}
	close(start)
	done.Wait()
}
