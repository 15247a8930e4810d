// Package chart draws line charts as SVG and PNG files of the same name.
//
// A [Figure] is data and words; the package lays it out. What has a Label is named beside the data, at the right
// edge or above the plot, where labels move apart instead of overlapping; what has a Name is in a legend between
// title and plot. No words cover the data.
//
// Lines differ in three ways at once, so that a chart can be read printed in gray and by color-blind people: eight
// colors that are even steps of lightness, eight dash patterns, and markers.
//
// A figure that cannot be drawn, with a NaN for instance, is an error. The same figure gives the same bytes.
package chart
