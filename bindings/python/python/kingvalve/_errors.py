"""What the library refuses to do, said in one sentence with the value, its unit, the limit and what to do."""

__all__ = ["Error", "Inconsistent", "OutOfRange", "UnknownName", "Unreadable", "WrongKind"]


class Error(Exception):
    """Base of every error this package raises itself.

    ``field`` is the path of the field at fault (``readings[2].value``), or ``None`` where the input had no fields.
    """

    field: str | None

    def __init__(self, message: str, field: str | None = None) -> None:
        super().__init__(message, field)
        self.field = field

    def __str__(self) -> str:
        return str(self.args[0])


class OutOfRange(Error, ValueError):
    """A value outside the range in which the method holds."""


class UnknownName(Error, KeyError):
    """A name (refrigerant, unit, check, field) nobody knows; the text gives the nearest known ones."""


class Unreadable(Error, ValueError):
    """Text or JSON that is not what it should be."""


class Inconsistent(Error, ValueError):
    """Values that contradict one another, or from which what is asked cannot be had."""


class WrongKind(Error, TypeError):
    """A quantity of the wrong kind, or a bare number where a quantity is wanted."""
