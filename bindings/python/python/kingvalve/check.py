"""Every check by name: JSON text or plain dicts in, a finding in the same form out.

    >>> import kingvalve as kv
    >>> "superheat" in kv.check.names()
    True
    >>> finding = kv.check.run("run_capacitor_under_load", kv.check.example("run_capacitor_under_load"))
    >>> finding["verdict"]
    'unresolved'

Quantities stand in the dicts as they are; JSON has their value and unit:

    >>> case = kv.check.example("superheat")
    >>> case["suction_line"]["value"] = kv.fahrenheit(58)
    >>> kv.check.run("superheat", case)["verdict"] in ("within", "outside", "unresolved", None)
    True
"""

from typing import Any, overload

from ._kingvalve import check as _check

__all__ = ["Finding", "example", "names", "run", "schema"]


class Finding(dict[str, Any]):
    """A finding: the dict that its JSON form is, shown in notebooks as text with its cautions."""

    def _repr_html_(self) -> str:
        from ._html import finding

        cautions = [str(each["text"]) for each in self.get("cautions", [])]
        return finding(str(self.get("text", "")), cautions, [str(each) for each in self.get("next", [])])


def names() -> list[str]:
    """The name of every check.

    Returns
    -------
    list of str
    """
    return _check.names()


def schema(name: str) -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of what a check takes.

    Parameters
    ----------
    name : str
        One of ``names()``.

    Returns
    -------
    dict

    Raises
    ------
    UnknownName
        A check nobody knows; the text gives near names.

    Notes
    -----
    A schema says the form; what the values must be to each other the check itself says.

    Examples
    --------
    >>> "suction_pressure" in kv.check.schema("superheat")["properties"]
    True
    """
    return _read(_check.schema(name))


def example(name: str) -> dict[str, Any]:
    """An input the check takes: an invented case, to copy from.

    Parameters
    ----------
    name : str
        One of ``names()``.

    Returns
    -------
    dict

    Raises
    ------
    UnknownName
        A check nobody knows; the text gives near names.

    Examples
    --------
    >>> kv.check.example("superheat")["refrigerant"]
    'R-410A'
    """
    return _read(_check.example(name))


@overload
def run(name: str, data: str) -> str: ...
@overload
def run(name: str, data: dict[str, Any]) -> Finding: ...
def run(name: str, data: str | dict[str, Any]) -> str | Finding:
    """Runs a check: JSON text in gives JSON text out, a dict gives a dict.

    Parameters
    ----------
    name : str
        One of ``names()``.
    data : str or dict
        Of the form of ``schema(name)``.

    Returns
    -------
    str or Finding
        A dict that is shown as text, where a dict was given.

    Raises
    ------
    UnknownName
        A check nobody knows; the text gives near names.
    Unreadable
        Input of another form; ``error.field`` names the field.
    OutOfRange, Inconsistent
        A reading or limit that cannot be; ``error.field`` names the field.
    WrongKind
        A dict with something that JSON does not hold.

    Notes
    -----
    Source: the finding's ``sources``. Range and accuracy: those of the check's own function.

    Examples
    --------
    >>> kv.check.run("superheat", kv.check.example("superheat"))["verdict"]
    'within'
    """
    if isinstance(data, str):
        return _check.run(name, data)
    from ._json import text

    return _found(_check.run(name, text(data)))


def _found(text: str) -> Finding:
    return Finding(_read(text))


def _read(text: str) -> dict[str, Any]:
    # Imported where it is used: the package loads nothing it may not need.
    import json

    read: dict[str, Any] = json.loads(text)
    return read
