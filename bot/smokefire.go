package bot

import (
	"larderhand/bot/course"
	"larderhand/bot/reply"
)

// sayFireOut says since when the fire has looked out, which is why a ping comes so
// soon: what has reached its target is taken out, the rest relit or made cold.
func (t *Turn) sayFireOut(r *reply.Reply, s course.State, of string) {
	o, ok := t.fireOut(s, of)
	if !ok {
		return
	}
	r.Say("The fire looked out at ", t.clock(o.OutSince), "; the pit was at ", t.units().temp(o.Pit.Temp), " when last read. Still out? ", fireOutDo(o), ": a cold pit with warm meat in it is the worst place for it.")
}

// fireOut is the outlook of pieces whose fire looks out, with Reached only if all of
// them have been at their target.
func (t *Turn) fireOut(s course.State, of string) (out course.Outlook, ok bool) {
	smoking, _ := t.hotPieces(s, nil)
	for i, letter := range among(smoking, of) {
		o := s.Outlook(letter)
		if i == 0 {
			out = o
		}
		out.Reached = out.Reached && o.Reached
	}
	return out, out.FireOut
}

// fireOutDo is what to do with the meat of a fire that is out.
func fireOutDo(o course.Outlook) string {
	if o.Reached {
		return "Take the meat out and start its cooling, don't relight it"
	}
	return "Relight it, or move the meat to the fridge"
}
