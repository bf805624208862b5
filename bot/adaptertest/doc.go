// Package adaptertest is the contract every adapter keeps. It is imported by
// _test.go files only.
//
// To put an adapter to the test, write a function that starts it over a fake of its
// platform (or over nothing, as the terminal does) with the bot it is given, and
// hand that to Exercise:
//
//	func TestContract(t *testing.T) {
//		adaptertest.Exercise(t, func(t testing.TB, b *adaptertest.Bot) adaptertest.Fixture {
//			fake := discordtest.New(t)
//			a := startAdapter(t, fake, b)
//			…
//			return adaptertest.Fixture{Sender: a, Here: …, Has: adaptertest.Abilities{…}, …}
//		})
//	}
//
// The function is called anew for each test, so that nothing one does reaches the
// next. Say, Press and Answer act as one person in one conversation and return once
// the adapter has done everything it does about it; Shown then reads the
// conversation the way that person's app shows it. A Fixture says what its platform
// can do in Has; everything else must still arrive as text, since no part of a reply
// may be lost on any platform.
package adaptertest
