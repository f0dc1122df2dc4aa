package plan

// Goes says what keeps an order from being worked out in this shop, as [Prepared.Evaluate] would; nil when nothing does.
func (p *Prepared) Goes(o Order) error {
	_, err := p.read(o)
	return err
}
