package telegram

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"image"
	"image/color"
	"image/png"
	"strconv"

	"larderhand/bot/reply"
	"larderhand/store"
)

var errNoFit = errors.New("it does not fit into the message it is to replace")

// change puts a reply in place of a message. That the message is so already is a
// success.
func (a *Adapter) change(ctx context.Context, p place, t target, r reply.Reply) error {
	parts, err := a.compose(ctx, p, r)
	if err != nil {
		return err
	}
	if len(parts) != 1 || t.media && parts[0].file == nil && units(parts[0].msg.plain) > captionMost {
		return &store.Failure{Kind: store.Refused, Cause: errNoFit}
	}
	release, err := a.turns.take(ctx, p.chat)
	if err != nil {
		return err
	}
	defer release()
	err = a.changeOnce(ctx, p, t, parts[0])
	if saying(err, "can't parse entities") {
		a.doubt(parts[0], err)
		err = a.changeOnce(ctx, p, t, parts[0].unmarked())
	}
	if saying(err, "message is not modified") {
		return nil
	}
	return err
}

func (a *Adapter) changeOnce(ctx context.Context, p place, t target, part part) error {
	params := p.whole().params()
	params["message_id"] = strconv.Itoa(t.id)
	if part.markup != "" {
		params["reply_markup"] = part.markup
	}
	switch {
	case part.file != nil:
		kind := "document"
		if part.photo() {
			kind = "photo"
		}
		media := map[string]string{"type": kind, "media": "attach://file"}
		part.text(media, "caption")
		body, err := json.Marshal(media)
		if err != nil {
			return err
		}
		params["media"] = string(body)
		return a.api.upload(ctx, "editMessageMedia", params, "file", part.fileName(), part.file.Data, nil)
	case t.media:
		part.text(params, "caption")
		return a.api.call(ctx, "editMessageCaption", params, nil)
	}
	part.text(params, "text")
	params["link_preview_options"] = `{"is_disabled":true}`
	return a.api.call(ctx, "editMessageText", params, nil)
}

// blankPicture shows nothing.
func blankPicture() (reply.File, error) {
	img := image.NewPaletted(image.Rect(0, 0, 320, 40), color.Palette{color.Gray{Y: 0xdd}})
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		return reply.File{}, err
	}
	return reply.File{Name: "blank.png", Type: "image/png", Data: b.Bytes()}, nil
}

// Remove takes a message down that was sent before. One that is gone already is no
// failure; one older than 48 hours is refused, and can only be changed.
func (a *Adapter) Remove(ctx context.Context, to store.Address, ref string) error {
	p, t, err := sent(to, ref)
	if err != nil {
		return err
	}
	p = a.resolve(p)
	release, err := a.turns.take(ctx, p.chat)
	if err != nil {
		return failure(err)
	}
	defer release()
	params := p.whole().params()
	params["message_id"] = strconv.Itoa(t.id)
	if err := a.api.call(ctx, "deleteMessage", params, nil); err != nil && !saying(err, "message to delete not found") {
		return failure(err)
	}
	return nil
}

// strip takes the buttons from a message that was overtaken. It is a courtesy: a
// failure changes nothing.
func (a *Adapter) strip(ctx context.Context, p place, t target) {
	params := p.whole().params()
	params["message_id"] = strconv.Itoa(t.id)
	if err := a.api.call(ctx, "editMessageReplyMarkup", params, nil); err != nil && ctx.Err() == nil {
		a.Log.DebugContext(ctx, "the buttons of an old message stay", "error", err)
	}
}
