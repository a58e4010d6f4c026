"""Classes of results, made of the tables of the extension module when it is loaded."""

from __future__ import annotations

import re
from functools import update_wrapper
from operator import methodcaller
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable


def finding(self: Any) -> Any:
    """The same in the shape shared by all checks, as :func:`kingvalve.check.run` gives it."""
    return self._finding()


def method(function: Callable[..., Any]) -> Any:
    """A function of the extension module that an instance can be bound to."""

    def call(self: Any, /, *args: Any, **kwargs: Any) -> Any:
        return function(self, *args, **kwargs)

    return update_wrapper(call, function)


def make(
    base: type[Any],
    name: str,
    doc: str,
    fields: list[tuple[str, str]],
    finds: bool,
    functions: tuple[Callable[..., Any], ...],
) -> type[Any]:
    """A class with these attributes; its functions are static, or methods where their first argument is ``self``.

    ``__new__`` among them takes the attributes by keyword.
    """
    body: dict[str, Any] = {"__slots__": (), "__module__": "kingvalve", "__doc__": doc}
    body["__match_args__"] = tuple(field for field, _ in fields)
    for index, (field, what) in enumerate(fields):
        body[field] = property(methodcaller("_at", index), doc=what)
    made_of: list[str] = []
    for function in functions:
        signature = getattr(function, "__text_signature__", None) or ""
        takes_self = signature.startswith("(self")
        if function.__name__ == "__new__":
            made_of = re.findall(r"\w+", re.sub(r"=[^,)]*", "", signature))[1:]
        body[function.__name__] = method(function) if takes_self else staticmethod(function)
    if finds:
        body["finding"] = finding
    body["_made_of"] = made_of
    body["__reduce__"] = reduce if made_of and {*made_of} <= {*body["__match_args__"]} else refuse
    return type(name, (base,), body)


def reduce(self: Any) -> tuple[Any, ...]:
    """As its class and what it was made of."""
    return remake, (type(self), {field: getattr(self, field) for field in self._made_of})


def remake(made: type[Any], fields: dict[str, Any]) -> Any:
    """Out of a pickle."""
    return made(**fields)


def refuse(self: Any) -> Any:
    """Why it has no pickle."""
    raise TypeError(f"a {type(self).__name__} has no pickle; pickle what it was made of, and make it anew")
