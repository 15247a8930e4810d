package data

import "testing"

// BenchmarkFirstFork is what the first lookup of a program costs.
func BenchmarkFirstFork(b *testing.B) {
	for b.Loop() {
		if _, err := load().Fork("M07"); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkEveryFork reads the whole dataset.
func BenchmarkEveryFork(b *testing.B) {
	for b.Loop() {
		for range load().Forks() {
		}
	}
}
