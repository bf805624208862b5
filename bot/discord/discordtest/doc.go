// Package discordtest is a Discord for tests: real HTTP and a real gateway
// WebSocket on loopback, a small model of guilds, channels, threads, members
// and messages behind it, and a driver that does what people do in a client.
// It is imported by _test.go files only.
//
// It is built from the published documents (discord/discord-api-docs, folder
// developers/) and checks every request it gets:
//
//   - against the platform's own OpenAPI description, when the folder named by
//     LARDERHAND_SPECS holds discord-openapi.json; its own answers and events
//     are held against it as well;
//   - against the limits the prose documents publish for bots, which are
//     stricter in places and run always.
//
// A breach fails the test with a sentence that says which rule it was, and is
// answered with 400 as the platform would.
//
//	s := discordtest.New(t)
//	club := s.AddGuild("Quarry Lane Smokehouse Club")
//	curing := club.AddChannel("curing")
//	ines := s.AddPerson("Ines")
//	club.Join(ines)
//
//	startTheBot(t, s.URL(), s.Token())      // the code under test
//	s.WaitCommands()
//
//	reply := ines.At(curing).Slash("cure", discordtest.Opt("weight", "5 lb")).WaitReply()
//	again := ines.At(curing).Press(reply, "Flipped").WaitReply()
//	_ = again.Text
//
// Methods that wait end the test with the latest traffic when nothing comes;
// like testing.T's own Fatal they belong on the test's goroutine. Nothing
// sleeps: time that rules depend on (three seconds to answer, fifteen minutes
// of token) is read from a Clock the test moves.
package discordtest
