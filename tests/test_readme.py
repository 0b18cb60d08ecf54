"""The commands that the README shows are there, and take what it gives them."""

import re
import shlex
from pathlib import Path

import pytest
from django.core.management import get_commands, load_command_class

ROOT = Path(__file__).resolve().parents[1]
README = (ROOT / "README.md").read_text()
#: Typed after each other in a block of code.
SHOWN = sorted(set(re.findall(r"(?m)^    \S*python3? manage\.py (.+?)(?:\s+#.*)?$", README)))
#: Only the demo and the tests use it.
NOT_SHOWN = {"load_invented_clinic"}


@pytest.mark.parametrize("line", SHOWN)
def test_a_command_it_shows_can_be_typed(line: str) -> None:
    name, *arguments = shlex.split(line)
    if name == "test":
        return  # all that follows is pytest's
    command = load_command_class(get_commands()[name], name)
    command.create_parser("manage.py", name).parse_args(arguments)


def test_every_command_of_ours_is_in_it() -> None:
    ours = {path.stem for path in ROOT.glob("clinic/**/management/commands/*.py")}
    missing = {one for one in ours - NOT_SHOWN - {"__init__"} if f"manage.py {one}" not in README}
    assert not missing
    assert len(SHOWN) > 10
