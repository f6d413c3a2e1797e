"""Every command and setting stands in the README, and the README's promises hold."""

from pathlib import Path

import pytest

from journal.cli.app import app
from journal.settings import Settings

README = Path(__file__).resolve().parent.parent.joinpath("README.md").read_text(encoding="utf-8")
COMMANDS = [command.name or command.callback.__name__ for command in app.registered_commands]


@pytest.mark.parametrize("command", COMMANDS)
def test_each_command_is_in_the_readme(command):
    assert f"mouldbook {command}" in README or f"`{command}`" in README


@pytest.mark.parametrize("setting", Settings.model_fields)
def test_each_setting_is_in_the_readme_with_its_meaning(setting):
    assert f"| `MOULDBOOK_{setting.upper()}` | {Settings.model_fields[setting].description} |" in README


@pytest.mark.parametrize("command", ["demo", "test"])
def test_the_two_commands_stand_alone_on_a_line(command):
    assert f"\n    python3 -m journal.setup {command}\n" in README


def test_continuous_integration_calls_the_readme_command():
    script = Path(__file__).resolve().parent.parent.joinpath(".ci", "run").read_text(encoding="utf-8")
    assert "python3 -m journal.setup test" in script
