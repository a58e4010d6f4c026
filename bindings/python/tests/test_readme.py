"""The Python examples of the README files run, and print what the comment behind each `print` says."""

import re
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1]
BLOCK = re.compile(r"^```python\n(.*?)^```", re.DOTALL | re.MULTILINE)


def examples():
    found = []
    for page in (PACKAGE.parents[1] / "README.md", PACKAGE / "README.md"):
        for number, block in enumerate(BLOCK.findall(page.read_text(encoding="utf-8")), start=1):
            found.append(pytest.param(block, id=f"{page.relative_to(PACKAGE.parents[1])}-{number}"))
    return found


def test_there_are_examples():
    assert examples()


@pytest.mark.parametrize("code", examples())
def test_example(code, capsys):
    exec(compile(code, "README.md", "exec"), {"__name__": "readme"})
    promised = re.findall(r"^print\(.*\)\s+# (.+)$", code, re.MULTILINE)
    assert promised, "an example shows what it prints"
    assert capsys.readouterr().out.splitlines() == promised
