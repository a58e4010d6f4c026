"""The extension module: each stub beside this one is a module of it, filled by the Rust file of that name."""

from .air import *
from .charge import *
from .column import Column as Column
from .cycle import *
from .cylinder import *
from .electrical import *
from .estimate import *
from .fault import *
from .measure import *
from .quantity import *
from .record import Record as Record
from .refrigerant import *
from .tightness import *
from .visit import *

__version__: str
