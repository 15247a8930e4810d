// Package explore is what the page computes: from a [State], which a reader sets and an address carries, to
// the numbers and words of every view. It is plain Go, so that its tests need no browser; the page runs it
// as wasm.
//
// All numbers it hands to the page are in the units the page shows. [View] holds what changes with every
// move of a slider; [State.Sure], [State.Why], [State.Ride] and [State.Lesson] are asked for on their own.
package explore
