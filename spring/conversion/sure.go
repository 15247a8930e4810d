package conversion

import "example.org/forkcurve/spring/setup"

// known is how well the numbers of the job are known.
func (j Job) known() setup.Tolerance {
	if j.Known != nil {
		return *j.Known
	}
	return setup.Usual()
}

// sure is how well those of the converted fork are: its legs are filled anew, its spring has a
// class of its own, and a length of its own where the preload does not begin at a reading with it loose.
func (p *planner) sure(s part) setup.Tolerance {
	t := p.known()
	for _, l := range p.Legs {
		t.Filled[l.Side&1] = max(setup.Usual().Residual, p.gasSpread(l, p.byLevel()))
	}
	if s.Spread != 0 {
		t.Rate = s.Spread
	}
	if p.Caliper == nil {
		t.FreeLength = LengthSpread * s.free
	}
	if now := p.Present.Friction; now > p.ConvertedFriction {
		t.Friction *= p.ConvertedFriction / now
	}
	return t
}

// uncertainty is that of what a fork does, and where it comes from; nil where it has none to tell.
func (p *planner) uncertainty(s setup.Spec, known setup.Tolerance) (*setup.Uncertainty, []setup.Contribution) {
	b, err := s.Budget(setup.Question{Load: p.rider.Axial, Exponent: p.RideExponent, There: p.Event}, known)
	if err != nil {
		return nil, nil
	}
	return &b.Total, b.Parts
}
