"""The extension module: each stub beside this one is a module of it, filled by the Rust file of that name."""

from .air import *
from .column import Column as Column
from .cylinder import *
from .electrical import *
from .estimate import *
from .measure import *
from .quantity import *
from .refrigerant import *
from .visit import *

__version__: str
