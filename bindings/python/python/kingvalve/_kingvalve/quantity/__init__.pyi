"""Quantities, as Rust's `kingvalve::quantity` has them."""

from .base import Quantity as Quantity
from .bulk import *
from .electric import *
from .energy import *
from .leak import *
from .pressure import *
from .rate import *
from .ratio import *
from .site import Site as Site
from .temperature import *
