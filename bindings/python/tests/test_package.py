"""The package as installed."""

import doctest
import importlib.metadata
import subprocess
import sys

import pytest

import kingvalve as kv


def test_version_and_metadata():
    meta = importlib.metadata.metadata("kingvalve")
    assert kv.__version__ == meta["Version"]
    assert meta["License-Expression"] == "MIT OR Apache-2.0"
    assert sorted(meta.get_all("License-File")) == ["LICENSE-APACHE", "LICENSE-MIT"]
    assert meta.get_all("Project-URL") is None
    assert all("extra ==" in each for each in importlib.metadata.requires("kingvalve"))
    assert meta.get_all("Provides-Extra") == ["plot", "table"]


def test_the_wheel_under_test_is_the_installed_one():
    assert "site-packages" in kv.__file__


def test_import_loads_no_numpy():
    code = "import sys, kingvalve; print(sorted(m for m in ('numpy', 'pandas', 'pyarrow', 'matplotlib', 'json') if m in sys.modules))"
    assert subprocess.check_output([sys.executable, "-c", code], text=True).strip() == "[]"


@pytest.mark.parametrize("module", [kv, kv.check, kv.batch, kv._demo])
def test_docstring_examples(module):
    found = doctest.testmod(module, extraglobs={"kv": kv}, verbose=False)
    assert found.attempted > 0
    assert found.failed == 0


def test_everything_public_has_a_docstring():
    bare = [name for name, each in vars(kv).items() if not name.startswith("_") and not each.__doc__]
    assert bare == []
