package telegram

import (
	"context"
	"errors"
	"fmt"
	"strconv"

	"larderhand/bot/reply"
	"larderhand/store"
)

// Send delivers a reply to a conversation. It makes each call once; what a failure
// means is in the *store.Failure. A reply that takes several messages and failed in
// the middle goes on there when it is sent again under the same key. The ref names
// the message with the buttons.
func (a *Adapter) Send(ctx context.Context, to store.Address, key string, r reply.Reply) (string, error) {
	p, err := parseAddress(to)
	if err != nil {
		return "", &store.Failure{Kind: store.Refused, Cause: fmt.Errorf("%q: %w", to, err)}
	}
	p = a.resolve(p)
	ref, err := a.post(ctx, p, key, r, 0)
	if err != nil {
		return "", failure(err)
	}
	return ref, nil
}

// Edit changes a message sent before. What no longer fits into that one message is
// refused, as is a change to a message that is gone. A reply without a picture leaves
// none of what was there: since a message with one cannot be made one without, a blank
// takes its place.
func (a *Adapter) Edit(ctx context.Context, to store.Address, ref string, r reply.Reply) error {
	p, t, err := sent(to, ref)
	if err != nil {
		return err
	}
	if t.media && len(r.Files) == 0 {
		blank, err := blankPicture()
		if err != nil {
			return err
		}
		r.Files = []reply.File{blank}
	}
	if err := a.change(ctx, a.resolve(p), t, r); err != nil {
		return failure(err)
	}
	return nil
}

// target is a message of ours.
type target struct {
	id    int
	media bool // with a picture or a document
}

func (t target) ref() string {
	if t.media {
		return "c" + strconv.Itoa(t.id)
	}
	return "t" + strconv.Itoa(t.id)
}

var errRef = errors.New("not the name of a message on Telegram")

func parseRef(ref string) (target, error) {
	if len(ref) < 2 || ref[0] != 'c' && ref[0] != 't' {
		return target{}, errRef
	}
	id, err := strconv.Atoi(ref[1:])
	if err != nil || id <= 0 {
		return target{}, errRef
	}
	return target{id: id, media: ref[0] == 'c'}, nil
}

// sent says where a message of ours is, and which. Its errors are *store.Failure.
func sent(to store.Address, ref string) (place, target, error) {
	p, err := parseAddress(to)
	if err != nil {
		return p, target{}, &store.Failure{Kind: store.Refused, Cause: fmt.Errorf("%q: %w", to, err)}
	}
	t, err := parseRef(ref)
	if err != nil {
		return p, t, &store.Failure{Kind: store.Refused, Cause: err}
	}
	return p, t, nil
}

// post sends a reply, each part once, and gives the ref of the last part.
func (a *Adapter) post(ctx context.Context, p place, key string, r reply.Reply, answers int) (string, error) {
	parts, err := a.compose(ctx, p, r)
	if err != nil || len(parts) == 0 {
		return "", err
	}
	release, err := a.turns.take(ctx, p.chat)
	if err != nil {
		return "", err
	}
	defer release()
	from := a.begun.recall(key, parts)
	ref := ""
	for i := from; i < len(parts); i++ {
		extra := map[string]string{}
		if r.Silent {
			extra["disable_notification"] = "true"
		}
		if answers != 0 && i == 0 {
			extra["reply_parameters"] = fmt.Sprintf(`{"message_id":%d,"allow_sending_without_reply":true}`, answers)
		}
		t, err := a.sendPart(ctx, p, parts[i], extra)
		if err != nil {
			a.begun.note(key, parts, i)
			return "", a.topicTrouble(ctx, p, err)
		}
		ref = t.ref()
	}
	a.begun.note(key, parts, 0)
	return ref, nil
}

// sendPart sends one message. Markup the server cannot read costs the markup, not
// the message, and a picture it cannot show is sent as a file.
func (a *Adapter) sendPart(ctx context.Context, p place, part part, extra map[string]string) (target, error) {
	t, err := a.sendOnce(ctx, p, part, extra)
	switch {
	case saying(err, "can't parse entities"):
		a.doubt(part, err)
		return a.sendOnce(ctx, p, part.unmarked(), extra)
	case part.file != nil && part.file.Picture() && saying(err, "IMAGE_PROCESS_FAILED", "PHOTO_INVALID_DIMENSIONS", "PHOTO_SAVE_FILE_INVALID"):
		part.asDocument = true
		return a.sendOnce(ctx, p, part, extra)
	}
	return t, err
}

func (a *Adapter) sendOnce(ctx context.Context, p place, part part, extra map[string]string) (target, error) {
	params := p.params()
	for k, v := range extra {
		params[k] = v
	}
	if part.markup != "" {
		params["reply_markup"] = part.markup
	}
	var sent struct {
		ID int `json:"message_id"`
	}
	var err error
	if part.file == nil {
		part.text(params, "text")
		params["link_preview_options"] = `{"is_disabled":true}`
		err = a.api.call(ctx, "sendMessage", params, &sent)
	} else {
		part.text(params, "caption")
		method, field := "sendDocument", "document"
		if part.photo() {
			method, field = "sendPhoto", "photo"
		}
		err = a.api.upload(ctx, method, params, field, part.fileName(), part.file.Data, &sent)
	}
	return target{id: sent.ID, media: part.file != nil}, err
}

// doubt notes that a server did not understand our markup.
func (a *Adapter) doubt(part part, err error) {
	if part.timed() && !a.plain.Swap(true) {
		a.Log.Info("the server does not know the mark of instants; times are plain text from here on", "error", err)
		return
	}
	a.Log.Error("the server could not read our markup; the text was sent without", "error", err)
}
