package discordtest

// route is one endpoint. Its pattern is the path template of the OpenAPI
// description, which is how request and response schemas are found.
type route struct {
	pattern string
	act     func(*call) answer
	limits  func(*call) // the published limits for bots; runs with the model locked
	open    bool        // the token in the path is the authorization
}

// routes is the table of everything the fake answers.
var routes = []route{
	{pattern: "GET /gateway", act: getGateway, open: true},
	{pattern: "GET /gateway/bot", act: getGatewayBot},
	{pattern: "GET /users/@me", act: getMe},
	{pattern: "GET /users/@me/guilds", act: listMyGuilds},
	{pattern: "DELETE /users/@me/guilds/{guild_id}", act: leaveGuild},
	{pattern: "POST /users/@me/channels", act: openDM},
	{pattern: "GET /users/{user_id}", act: getUser},
	{pattern: "GET /applications/@me", act: getApplication},
	{pattern: "GET /oauth2/applications/@me", act: getApplication},

	{pattern: "GET /applications/{application_id}/commands", act: listCommands},
	{pattern: "PUT /applications/{application_id}/commands", act: putCommands, limits: commandsLimits},
	{pattern: "POST /applications/{application_id}/commands", act: postCommand, limits: commandLimits},
	{pattern: "DELETE /applications/{application_id}/commands/{command_id}", act: deleteCommand},
	{pattern: "GET /applications/{application_id}/guilds/{guild_id}/commands", act: listCommands},
	{pattern: "PUT /applications/{application_id}/guilds/{guild_id}/commands", act: putCommands, limits: commandsLimits},
	{pattern: "POST /applications/{application_id}/guilds/{guild_id}/commands", act: postCommand, limits: commandLimits},
	{pattern: "DELETE /applications/{application_id}/guilds/{guild_id}/commands/{command_id}", act: deleteCommand},

	{pattern: "POST /interactions/{interaction_id}/{interaction_token}/callback", act: answerInteraction, limits: callbackLimits, open: true},
	{pattern: "POST /webhooks/{webhook_id}/{webhook_token}", act: followUp, limits: followUpLimits, open: true},
	{pattern: "GET /webhooks/{webhook_id}/{webhook_token}/messages/@original", act: getAnswer, open: true},
	{pattern: "PATCH /webhooks/{webhook_id}/{webhook_token}/messages/@original", act: editAnswer, limits: answerEditLimits, open: true},
	{pattern: "DELETE /webhooks/{webhook_id}/{webhook_token}/messages/@original", act: deleteAnswer, open: true},
	{pattern: "GET /webhooks/{webhook_id}/{webhook_token}/messages/{message_id}", act: getAnswer, open: true},
	{pattern: "PATCH /webhooks/{webhook_id}/{webhook_token}/messages/{message_id}", act: editAnswer, limits: answerEditLimits, open: true},
	{pattern: "DELETE /webhooks/{webhook_id}/{webhook_token}/messages/{message_id}", act: deleteAnswer, open: true},

	{pattern: "GET /channels/{channel_id}", act: getChannel},
	{pattern: "PATCH /channels/{channel_id}", act: patchChannel, limits: channelLimits},
	{pattern: "DELETE /channels/{channel_id}", act: removeChannel},
	{pattern: "POST /channels/{channel_id}/typing", act: typing},
	{pattern: "GET /channels/{channel_id}/messages", act: listMessages},
	{pattern: "POST /channels/{channel_id}/messages", act: createMessage, limits: messageLimits},
	{pattern: "GET /channels/{channel_id}/messages/{message_id}", act: getMessage},
	{pattern: "PATCH /channels/{channel_id}/messages/{message_id}", act: editMessage, limits: messageEditLimits},
	{pattern: "DELETE /channels/{channel_id}/messages/{message_id}", act: deleteMessage},

	{pattern: "POST /channels/{channel_id}/messages/{message_id}/threads", act: startThreadFromMessage, limits: threadLimits},
	{pattern: "POST /channels/{channel_id}/threads", act: startThreadAlone, limits: threadLimits},
	{pattern: "GET /channels/{channel_id}/threads/archived/public", act: listArchived},
	{pattern: "GET /channels/{channel_id}/thread-members", act: listThreadMembers},
	{pattern: "PUT /channels/{channel_id}/thread-members/@me", act: joinThread},
	{pattern: "DELETE /channels/{channel_id}/thread-members/@me", act: quitThread},
	{pattern: "GET /channels/{channel_id}/thread-members/{user_id}", act: getThreadMember},
	{pattern: "PUT /channels/{channel_id}/thread-members/{user_id}", act: addThreadMember},
	{pattern: "DELETE /channels/{channel_id}/thread-members/{user_id}", act: removeThreadMember},

	{pattern: "GET /guilds/{guild_id}", act: getGuild},
	{pattern: "GET /guilds/{guild_id}/channels", act: listChannels},
	{pattern: "GET /guilds/{guild_id}/roles", act: listRoles},
	{pattern: "GET /guilds/{guild_id}/members", act: listMembers},
	{pattern: "GET /guilds/{guild_id}/members/{user_id}", act: getMember},
	{pattern: "GET /guilds/{guild_id}/threads/active", act: listActiveThreads},
}
