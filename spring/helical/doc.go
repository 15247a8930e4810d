// Package helical is the round-wire helical compression spring as a machine
// part: from wire, diameter, coils and material to rate, stress, bind and mass.
package helical
