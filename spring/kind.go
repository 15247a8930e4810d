package spring

// The kinds of springs by the words that files and reports use for them: a dataset, a job, the
// JSON of a plan.
const (
	KindCoil        = "coil"
	KindProgressive = "progressive"
	KindRateTable   = "rate-table"
	KindStack       = "stack"
	KindNested      = "nested"
	KindMeasured    = "measured"
	KindTopOut      = "top-out"
	KindBumpStop    = "bump-stop"
)

// Kind is what a technician calls a spring, as "coil" or "dual-rate spring".
func Kind(s Spec) string {
	switch s.(type) {
	case CoilSpec:
		return "coil"
	case ProgressiveSpec, RateTableSpec:
		return "progressive spring"
	case StackSpec:
		return "dual-rate spring"
	case NestedSpec:
		return "nested springs"
	case TopOutSpec:
		return "top-out spring"
	case BumpStopSpec:
		return "bump stop"
	case MeasuredSpec:
		return "measured spring"
	}
	return "spring"
}
