"""The extension module: each stub beside this one is a module of it, filled by the Rust file of that name."""

from .electrical import *
from .measure import *
from .quantity import *
from .refrigerant import *

__version__: str
