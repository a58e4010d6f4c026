"""Every notebook runs from top to bottom, and draws what it says it draws."""

from pathlib import Path

import nbformat
import pytest
from nbclient import NotebookClient

BOOKS = sorted((Path(__file__).parents[3] / "examples" / "notebooks").glob("*.ipynb"))


def test_there_are_notebooks():
    assert len(BOOKS) >= 5


@pytest.mark.filterwarnings("ignore")
@pytest.mark.parametrize("book", BOOKS, ids=lambda book: book.stem)
def test_notebook(book):
    notebook = nbformat.read(book, as_version=4)
    assert not any(cell.get("outputs") for cell in notebook.cells), "committed without its outputs"
    NotebookClient(notebook, timeout=120, kernel_name="python3").execute()
    shown = [output for cell in notebook.cells for output in cell.get("outputs", [])]
    assert not any(output.get("name") == "stderr" for output in shown)
    drawn = sum("image/png" in output.get("data", {}) for output in shown)
    assert drawn >= 1
