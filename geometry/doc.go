// Package geometry holds the shape of a fork and of the machine around it: tubes, the room a leg offers a coil
// spring, the chassis that turns a rider into a load on the fork axis, and caliper reading and collar that set
// preload. What holds a fork together is in geometry/fastener.
//
// Symbols and units
//
//	ε   rake, steering axis from the vertical            rad
//	o   total offset, clamp offset plus axle lead        m
//	R   front wheel radius                               m
//	w   wheelbase                                        m
//	N   front wheel load, vertical                       N
//	B   braking force at the front contact patch         N
//	m_u unsprung mass at the front                       kg
//	x   travel along the fork axis from full extension   m
//
// Formulas
//
//	trail            (R·sin ε − o) / cos ε
//	load on the axis (N − m_u·g)·cos ε + B·sin ε
//	wheel rate       k / cos² ε
//	rake lost        x·cos ε / w   when the front sinks by x along the axis
//
// Records here are plain structs: fill in the fields and call Validate, which reports every fault at once as
// *[units.RangeError]. Methods are total on valid records. Everything here is safe for concurrent use.
//
// Sources: statics of a rigid body and virtual work (any mechanics textbook). The trail formula is that of J. P.
// Meijaard, J. M. Papadopoulos, A. Ruina and A. L. Schwab, Linearized dynamics equations for the balance and steer
// of a bicycle, Proc. R. Soc. A 463 (2007), with the wheel radius written out.
package geometry
