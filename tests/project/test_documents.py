"""The README names every command and every setting there is."""

import re

from tests.project.source import ROOT, modules

README = (ROOT / "README.md").read_text(encoding="utf-8")


def test_the_readme_names_every_command():
    commands = {
        module.name.rpartition(".")[2]
        for module in modules()
        if ".management.commands." in module.name and not module.path.stem.startswith("_")
    }
    assert {"demo", "test", "signinlink"} <= commands
    assert {name for name in commands if not re.search(rf"manage\.py {name}\b", README)} == set()


def test_the_readme_names_every_setting():
    text = (ROOT / "plots/settings.py").read_text(encoding="utf-8")
    settings = set(re.findall(r'env\.\w+\(\s*"([A-Z_]+)"', text))
    assert {"SITE_URL", "DATABASE_URL", "SECRET_KEY"} <= settings
    assert {name for name in settings if f"`{name}`" not in README} == set()
