"""Units-safe math for refrigeration and air-conditioning service.

Quantities are made by unit words and read by the same words::

    >>> import kingvalve as kv
    >>> site = kv.Site(elevation=kv.feet(130))
    >>> print(f"{site.absolute(kv.psig(62)):.1f}")
    76.6 psia

Errors have one base, :class:`Error`, and are ``ValueError``, ``KeyError`` or ``TypeError`` as well.
"""

from . import batch as batch
from . import check as check
from ._demo import demo as demo
from ._errors import *  # noqa: F403
from ._kingvalve import *  # noqa: F403
from ._kingvalve import __version__


def __getattr__(name: str) -> object:
    # `kv.plot` without importing matplotlib for those who draw nothing.
    if name == "plot":
        import importlib

        return importlib.import_module("kingvalve.plot")
    raise AttributeError(f"module 'kingvalve' has no attribute {name!r}")
