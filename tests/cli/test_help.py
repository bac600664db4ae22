"""Every command has help with an example."""

from __future__ import annotations

import click
import pytest
from click.testing import CliRunner

from partsbin.cli.main import COMMANDS, main
from partsbin.cli.types import CONDITION_WORDS, GRADE_WORDS
from partsbin.stock.words import Condition, Grade


def commands() -> dict[str, click.Command]:
    """Return all commands by their full name."""
    found: dict[str, click.Command] = {}
    context = click.Context(main)
    for name in COMMANDS:
        command = main.get_command(context, name)
        assert command is not None
        found[name] = command
        if isinstance(command, click.Group):
            found.update({f"{name} {sub}": c for sub, c in command.commands.items()})
    return found


ALL = commands()


@pytest.mark.parametrize("name", ALL)
def test_help_has_an_example(name: str) -> None:
    """The help of every command ends what it says with an example of that command."""
    result = CliRunner().invoke(main, [*name.split(), "--help"])
    assert result.exit_code == 0
    assert "Example:" in result.stdout
    assert f"partsbin {name}" in result.stdout


@pytest.mark.parametrize("name", ALL)
def test_every_option_has_a_meaning(name: str) -> None:
    """No option stands in the help without a word, unless its name says all."""
    plain = {"note", "grade", "copies", "most"}
    for parameter in ALL[name].params:
        if isinstance(parameter, click.Option):
            assert parameter.help or parameter.name in plain, parameter.name


READING = {n: c for n, c in ALL.items() if not isinstance(c, click.Group) and n != "demo"}


@pytest.mark.parametrize("name", READING)
def test_every_command_speaks_to_scripts(name: str) -> None:
    """Every command but the walk through the demo has --json."""
    assert any("--json" in parameter.opts for parameter in READING[name].params)


def test_words_of_the_options_are_those_of_the_record() -> None:
    """Grades and conditions are the same on the command line and in the database."""
    assert tuple(Grade) == GRADE_WORDS
    assert tuple(Condition) == CONDITION_WORDS
