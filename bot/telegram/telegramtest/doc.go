// Package telegramtest is a Telegram Bot API for tests: a real HTTP server on
// loopback that keeps chats, people, messages and buttons, answers a bot as the
// published documents say, and fails the test when the bot breaks a published
// rule. It is imported by _test.go files only.
//
// The test plays the people:
//
//	tg := telegramtest.New(t)
//	startBot(t, tg.URL(), tg.Token())             // the code under test
//	ines := tg.User("Ines")
//	club := tg.Group("Quarry Lane Smokehouse Club", ines)
//	asked := club.Say(ines, "/cure@"+tg.Username()+" 5 lb")
//	card := club.AwaitAfter(asked)                // what the bot said, as Ines reads it
//	answer := club.Press(ines, card, "Flipped").Await()
//
// Rules are checked on every call: against the machine-readable description in the
// folder named by LARDERHAND_SPECS when that is set, and always against the limits
// written here. A call that breaks one fails the test even if an injected fault
// then refuses it. What a well-made bot can run into (a deleted topic, a blocked
// user, a moved group) is answered with the server's own error and fails nothing.
//
// Error texts follow the published Bot API server (tdlib/telegram-bot-api, Client.cpp,
// and tdlib/td) where a comment does not say otherwise.
package telegramtest
