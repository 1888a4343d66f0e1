"""What every screen stands in: heading, keys, messages, commands, colours, the open book."""
