package data

import (
	"bytes"
	"testing"
)

// BenchmarkFirstFork is what the first lookup of a program costs.
func BenchmarkFirstFork(b *testing.B) {
	for b.Loop() {
		if _, err := load().Fork("M07"); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkEveryFork is what a program pays that looks at the whole dataset.
func BenchmarkEveryFork(b *testing.B) {
	for b.Loop() {
		for range load().Forks() {
		}
	}
}

// BenchmarkDecode reads a file as large as the whole dataset.
func BenchmarkDecode(b *testing.B) {
	var text bytes.Buffer
	if err := Encode(&text, Reference()); err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(text.Len()))
	for b.Loop() {
		if _, err := Decode(bytes.NewReader(text.Bytes())); err != nil {
			b.Fatal(err)
		}
	}
}
