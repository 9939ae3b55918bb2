"""README says what is so: its list of rules, its example, its commands, the files that it names."""

from __future__ import annotations

import pathlib
import re

import pytest
import yaml
from readme_rules import README, updated

from buildspec import read, validate
from buildspec.cli import main

ROOT = README.parent
TEXT = README.read_text(encoding="utf-8")


def test_the_list_of_rules_is_that_of_the_code() -> None:
    assert updated(TEXT) == TEXT, "run: python tests/readme_rules.py"


def test_the_spec_in_the_guide_passes(tmp_path: pathlib.Path, capsys: pytest.CaptureFixture[str]) -> None:
    block = next(b for b in re.findall(r"```yaml\n(.*?)```", TEXT, re.DOTALL) if b.startswith("buildspec: 1"))
    without_waiver = block.split("waivers:")[0]
    file = tmp_path / "guide.build.yaml"
    file.write_text(without_waiver, encoding="utf-8")
    assert main(["check", str(file)]) == 0, capsys.readouterr().out
    document, said = read.read_text(block, file="guide")
    assert document is not None and not said
    assert validate.check_schema(document, "spec") == ()


def test_files_that_are_named_exist() -> None:
    named = set(re.findall(r"`((?:examples|buildspec|schemas)/[\w./-]+)`", TEXT)) | set(
        re.findall(r"\]\(([\w./-]+)\)", TEXT)
    )
    missing = [name for name in named if "-packet" not in name and not (ROOT / name).exists()]
    assert not missing


def test_the_two_commands_are_there_once_each() -> None:
    commands = re.findall(r"^python3 -m venv .*$", TEXT, re.MULTILINE)
    assert len(commands) == 2
    assert "compile examples/" in commands[0] and commands[1].endswith("-m pytest")


def test_the_hook_is_what_readme_shows() -> None:
    hooks = yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text(encoding="utf-8"))
    assert [hook["id"] for hook in hooks] == ["buildspec-check"]
    assert "- id: buildspec-check" in TEXT
    assert re.search(hooks[0]["files"], "examples/river-gauging-pickup/pickup.build.yaml")
    assert not re.search(hooks[0]["files"], "practice.yaml")
    words = hooks[0]["entry"].split()
    assert words[0] == "buildspec"
    assert main([*words[1:], "examples/river-gauging-pickup/pickup.build.yaml"]) == 0


def test_the_version_is_one() -> None:
    from buildspec import __version__

    assert f"## {__version__}" in (ROOT / "CHANGELOG.md").read_text(encoding="utf-8")
    assert f"rev: v{__version__}" in TEXT
