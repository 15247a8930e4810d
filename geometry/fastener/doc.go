// Package fastener holds what keeps a fork together: threads, bolted joints and the torque wrench.
//
//	bolt     torque = K·d·preload          K nut factor, d nominal diameter (m)
//	wrench   setting = torque·L/(L + e·cos θ)
//
// L and e are the levers of the wrench and of an adapter at the angle θ (m, rad). Records are plain structs: fill
// in the fields and call Validate, which reports every fault at once as *[units.RangeError]. Methods are total on
// valid records. Everything here is safe for concurrent use. Torques come from the maker's manual.
//
// Sources: J. E. Shigley, R. G. Budynas and J. K. Nisbett, Mechanical Engineering Design, 9th edition, chapter 8;
// moments about the fastener for the wrench.
package fastener
