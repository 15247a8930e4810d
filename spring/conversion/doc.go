// Package conversion plans the change from a fork's present springs, usually
// air, to coil springs: which rate, how much preload, how much oil, what the fork
// then does, and what would stop a careful technician.
//
// [Plan] takes a [Job] and returns a [Report]. It finds the coil rate that would
// stand in for the present springs by three criteria,
//
//	sag force      k = (W − F_r(x_s)) / (x_s + p)
//	energy         k = 2·(E(0.9·L) − E_r(0.9·L)) / ((0.9·L + p)² − p²)
//	least squares  k = Σ(F − F_r)·(x + p) / Σ(x + p)²    over 10 % to 85 % of travel
//
// with the load W on the axis, the sag x_s aimed for, the aimed preload p, the
// travel L, the present fork's force F and energy E, and the force F_r and
// energy E_r of what will be there beside the coil: the gas over the aimed oil, and
// pressurized dampers and top-out springs that stay. Sag force is a matter
// of rest (n = 1); the other two compare the stroke of a landing, from full
// extension with the ride exponent of the job. The three differ by up to a
// quarter, because an air spring and a coil are different curves; all are shown,
// and the job says which one picks. Energies and forces at full travel
// are those of a landing unless another start is told, rates about the sag as ridden. [Band] tells
// what is not known of the rate: start of the stroke, exponent and warmth of the gas beside the criterion.
//
// Where no present spring is worth matching, [RiderAlone] plans by the sag alone; where no rider was weighed,
// [RiderOf] finds who rides the present fill; where a test bench has shown what the fork does,
// [setup.Spec.AsMeasured] makes it the one to match. [Check] judges a build that stands.
// [PlanAir] fills an air fork, kept or gone back to from coils, here and where it will be ridden.
//
// A spring on the shelf of which the rate changes, as one of two rates, is held against the
// rate of the coil that would do the same by the job's criterion at the same preload.
//
// Each coil on the shelf then gets the preload, within the range given and from
// [LeastPreload] up, that brings its sag nearest to the target, unless that gains less
// than the sag is known to, and the oil, within its range and what is safe, that brings its
// energy to full travel nearest to that of the present fork. What did not fit in the ranges
// is reported as given up. The candidates are ranked: those without a [Stop] first,
// then by [Weights], usually how near the rate is to the chosen criterion's and how few cautions.
//
// Each converted leg has its own room and bath. With inside V, metal V_m, oil V_o and the
// travel taking A·L of the gas, V − V_m − V_o is left at full travel; two legs get oil that
// leaves both the same. The level is what to set, since it leaves that gas whatever V is. Warm,
// the oil swells into gas that was closed in cold, and all of it is hotter:
//
//	ratio r = 1 + A·L/V_g    peak p = p_a·(V_g,cold + A·L)/(V_g + A·L)·T/T_cold·rⁿ − p_a
//
// No fill is advised that, once warm, locks or passes [StopGapRatio] or [StopGapPressure] at
// the 97.5th percentile of what is known: of the level read, or where none is read of the
// volume and of the inside of the leg.
// A fill is chosen with twice that margin, so that of a thousand forks so built none fails.
//
// What the coil asks of rebound damping is a range between two rules, the same
// damping ratio about the sag and the same speed of return from a depth, less the
// friction that goes, in clicks of the usual size; see package damping. Compression needs equal or slightly
// less damping for a stiffer spring (common practice, no source).
//
// Each fork's sag, energy and drift come with their standard uncertainty by what is known of
// the job, and with what each input adds to it; [Chances] are those of a normal distribution
// about the plan.
//
// Whatever a careful technician would stop at is a [Finding] with a code, a
// number, its limit and the reason. Computed values are starting points; the
// maker's manual and licensed practice prevail.
//
// A report holds its job, the cautions of the work, and is its own JSON; package sheet
// writes it for people. Plan may be called from any number of goroutines; a report is
// plain values, safe to read from many as long as none changes it.
//
// Sources: statics, and the closed forms of packages spring, oil and helical.
// The limits behind the findings name their source where they are defined; most
// are common practice.
package conversion
