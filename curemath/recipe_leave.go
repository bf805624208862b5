package curemath

// leaveOut says of every line that cures, or may, and is not the mix now used,
// that it is not to go in beside it.
func (c *RecipeCheck) leaveOut(r *Rewrite) {
	replaced := r.Lines[0].Was
	for _, l := range c.Lines {
		line := RewriteLine{Name: l.Name, Was: l.Said, LeaveOut: true}
		switch {
		case l.Kind == LineCure && l.cure && l.Said == replaced && l.ReadAs == r.Mix.Name:
			continue // the mix now used, by its weight
		case l.Kind == LineCure && l.cure, l.Kind == LineUnmeasured && l.cure:
			line.Note = "the mix above takes its place"
		case l.Kind == LineUnknown && hintsAtCure(l.Name):
			line.Note = "it may be a cure: the mix above takes its place"
		case l.Kind == LineUnknown && (mayBeCure(l.Name) || l.Name == ""):
			line.Note = "it may salt or cure: say what is in it"
		default:
			continue
		}
		if line.Name == "" {
			line.Name = l.Said
		}
		r.Lines = append(r.Lines, line)
	}
}
