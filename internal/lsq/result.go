package lsq

// Result is where a search ended.
type Result struct {
	Squares float64 // sum over model and prior
	Steps   int     // tried
	Reason  Reason
}

// Reason is why a search ended.
type Reason int

const (
	Stationary  Reason = iota // J explains nothing of the residuals that is left
	SmallStep                 // the next step would change nothing
	Stopped                   // by Quit, or more steps than allowed
	Canceled                  // by its context
	OutOfDomain               // the model does not hold at the start, or beyond where the search ended
)

var reasons = [...]string{"stationary", "small step", "stopped", "canceled", "out of domain"}

// String is the reason in words.
func (r Reason) String() string { return reasons[r] }

// Converged tells whether the search ended at a minimum.
func (r Reason) Converged() bool { return r <= SmallStep }
