"""The README names every command and every setting there is."""

import re

import pytest

from tests.project.source import ROOT, modules

COMMANDS = sorted(
    module.name.rpartition(".")[2]
    for module in modules()
    if ".management.commands." in module.name and not module.path.stem.startswith("_")
)
SETTINGS = sorted(
    set(re.findall(r'env\.\w+\(\s*"([A-Z_]+)"', (ROOT / "plots/settings.py").read_text(encoding="utf-8")))
)


def test_there_are_commands_and_settings_to_look_for():
    assert {"demo", "test", "signinlink"} <= set(COMMANDS)
    assert {"SITE_URL", "DATABASE_URL", "SECRET_KEY"} <= set(SETTINGS)


@pytest.mark.parametrize("command", COMMANDS)
def test_the_readme_names_the_command(command):
    assert re.search(rf"manage\.py {command}\b", (ROOT / "README.md").read_text(encoding="utf-8"))


@pytest.mark.parametrize("setting", SETTINGS)
def test_the_readme_names_the_setting(setting):
    assert f"`{setting}`" in (ROOT / "README.md").read_text(encoding="utf-8")
