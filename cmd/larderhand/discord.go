package main

import (
	"fmt"
	"regexp"
	"strconv"

	"larderhand/bot/discord"
)

// discordFlags say how to be on Discord.
type discordFlags struct {
	Token    string `name:"discord-token" env:"DISCORD_TOKEN" hidden:"" help:"Token of the Discord bot; from the environment only."`
	APIURL   string `name:"discord-api-url" env:"DISCORD_API_URL" placeholder:"URL" help:"Base address in place of Discord's own, such as http://127.0.0.1:8082."`
	DevGuild string `name:"discord-dev-guild" env:"DISCORD_DEV_GUILD" placeholder:"ID" help:"Register the slash commands in this one server only, where they show at once. Default: in every server."`
	Shards   string `name:"discord-shards" env:"DISCORD_SHARDS" default:"1" placeholder:"N" help:"How many connections to hold; a bot in 2,500 servers or more needs several, and auto takes what Discord recommends."`
}

var guildID = regexp.MustCompile(`^(\d{5,20})?$`)

// config names the variable that is wrong.
func (f discordFlags) config() (discord.Config, error) {
	cfg := discord.Config{Token: f.Token, APIURL: f.APIURL, DevGuild: f.DevGuild}
	if _, err := address("DISCORD_API_URL", f.APIURL); err != nil {
		return cfg, err
	}
	if !guildID.MatchString(f.DevGuild) {
		return cfg, fmt.Errorf("DISCORD_DEV_GUILD: %q is no server's id; Copy Server ID in Discord's menu gives it", f.DevGuild)
	}
	if f.Shards == "auto" {
		return cfg, nil
	}
	n, err := strconv.Atoi(f.Shards)
	if err != nil || n < 1 || n > 1000 {
		return cfg, fmt.Errorf("DISCORD_SHARDS: %q is neither a number from 1 on nor auto", f.Shards)
	}
	cfg.Shards = n
	return cfg, nil
}
