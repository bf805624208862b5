package telegramtest_test

import (
	"encoding/json"
	"strconv"
	"testing"

	tgbotapi "github.com/go-telegram-bot-api/telegram-bot-api/v5"

	"larderhand/bot/telegram/telegramtest"
)

// topical is what the library leaves out of a message.
type topical struct {
	Message struct {
		MessageID int    `json:"message_id"`
		Text      string `json:"text"`
		Thread    int    `json:"message_thread_id"`
		IsTopic   bool   `json:"is_topic_message"`
		Answered  *struct {
			MessageID int             `json:"message_id"`
			Created   json.RawMessage `json:"forum_topic_created"`
		} `json:"reply_to_message"`
	} `json:"message"`
}

func topicals(t *testing.T, bot *tgbotapi.BotAPI) []topical {
	t.Helper()
	resp, err := bot.MakeRequest("getUpdates", tgbotapi.Params{})
	if err != nil {
		t.Fatal(err)
	}
	var out []topical
	if err := json.Unmarshal(resp.Result, &out); err != nil {
		t.Fatal(err)
	}
	drain(t, bot)
	return out
}

func say(bot *tgbotapi.BotAPI, r *telegramtest.Room, thread int, text string) error {
	p := tgbotapi.Params{"chat_id": chatID(r), "text": text}
	p.AddNonZero("message_thread_id", thread)
	_, err := bot.MakeRequest("sendMessage", p)
	return err
}

func TestTopics(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	ines := tg.User("Ines")
	forum := tg.Forum(clubName, ines)
	juniper := forum.NewTopic(ines, "Juniper belly")
	drain(t, bot)
	juniper.Say(ines, "/batch 3")
	forum.Say(ines, "/batch")
	got := topicals(t, bot)
	if len(got) != 2 {
		t.Fatalf("updates: %+v", got)
	}
	if m := got[0].Message; m.Thread != juniper.Thread() || !m.IsTopic || m.Answered == nil || m.Answered.Created == nil {
		t.Errorf("in the topic: %+v", m)
	}
	if m := got[1].Message; m.Thread != 0 || m.IsTopic || m.Answered != nil {
		t.Errorf("in General: %+v", m)
	}

	if err := say(bot, forum, juniper.Thread(), "day 2"); err != nil {
		t.Fatal(err)
	}
	if err := say(bot, forum, 0, "all batches"); err != nil {
		t.Fatal(err)
	}
	in := juniper.Await(1)
	if len(in) != 1 || in[0].Text != "day 2" || in[0].Thread != juniper.Thread() {
		t.Errorf("topic shows %+v", in)
	}
	if general := forum.Await(1); len(general) != 1 || general[0].Text != "all batches" {
		t.Errorf("General shows %+v", general)
	}

	// An answer without a topic lands where the answered message stands.
	if _, err := bot.MakeRequest("sendMessage", tgbotapi.Params{"chat_id": chatID(forum), "text": "yes",
		"reply_parameters": `{"message_id":` + strconv.Itoa(got[0].Message.MessageID) + `}`}); err != nil {
		t.Fatal(err)
	}
	if in := juniper.Await(2); in[1].Text != "yes" {
		t.Errorf("topic shows %+v", in)
	}
}

func TestTopicGone(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	ines := tg.User("Ines")
	forum := tg.Forum(clubName, ines)
	juniper, honey := forum.NewTopic(ines, "Juniper"), forum.NewTopic(ines, "Honey")
	juniper.CloseTopic(ines)
	refused(t, say(bot, forum, juniper.Thread(), "x"), 400, "TOPIC_CLOSED")
	juniper.ReopenTopic(ines)
	if err := say(bot, forum, juniper.Thread(), "x"); err != nil {
		t.Error(err)
	}
	juniper.DeleteTopic()
	refused(t, say(bot, forum, juniper.Thread(), "x"), 400, "message thread not found")
	if len(juniper.Messages()) != 0 {
		t.Error("a deleted topic still shows messages")
	}
	forum.TopicsOff()
	refused(t, say(bot, forum, honey.Thread(), "x"), 400, "message thread not found")
	if v := tg.Violations(); len(v) != 0 {
		t.Errorf("a topic that was there once is no mistake: %q", v)
	}
}

// In a group without topics an answer carries a number that is no topic's.
func TestThreadsOutsideTopics(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	ines := tg.User("Ines")
	club := tg.Supergroup(clubName, ines)
	if err := say(bot, club, 0, "hello"); err != nil {
		t.Fatal(err)
	}
	hello := club.Await(1)[0]
	drain(t, bot)
	club.Reply(ines, hello, "/batch")
	got := topicals(t, bot)
	if m := got[0].Message; m.Thread != hello.ID || m.IsTopic {
		t.Errorf("answer: %+v", m)
	}
	tg.Allow("message_thread_id")
	refused(t, say(bot, club, hello.ID, "x"), 400, "message thread not found")
	if v := tg.Violations(); len(v) != 1 {
		t.Errorf("violations: %q", v)
	}
}

func TestTopicsThatNeverWere(t *testing.T) {
	tg := start(t)
	bot := client(t, tg)
	forum := tg.Forum(clubName, tg.User("Ines"))
	tg.Allow("message_thread_id")
	refused(t, say(bot, forum, 1, "General"), 400, "message thread not found")
	refused(t, say(bot, forum, 4711, "nowhere"), 400, "message thread not found")
	if v := tg.Violations(); len(v) != 2 {
		t.Errorf("violations: %q", v)
	}
}
