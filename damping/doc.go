// Package damping holds what resists the motion of a telescopic fork.
package damping
