"""A group of commands that also takes arguments directly, for the command that is meant most."""

from __future__ import annotations

from typing import Any

import click


class Direct(click.Group):
    """A group whose first word is a command or else an argument of its `direct` command."""

    def __init__(self, *args: Any, direct: str, **settings: Any) -> None:
        super().__init__(*args, **settings)
        self._direct = direct

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Return what is left after putting in the direct command's name, if no other was given."""
        known = [*self.commands, *ctx.help_option_names]
        if not args or args[0] not in known:
            args = [self._direct, *args]
        return super().parse_args(ctx, args)

    def collect_usage_pieces(self, ctx: click.Context) -> list[str]:
        """Return the usage of the direct command; the others stand in their list."""
        return self.commands[self._direct].collect_usage_pieces(ctx)

    def format_options(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the options of the direct command and the list of the commands."""
        click.Command.format_options(self.commands[self._direct], ctx, formatter)
        self.format_commands(ctx, formatter)
