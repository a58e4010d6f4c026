"""Run capacitors, supply, circuits, motors."""

from .capacitor import *
from .circuit import *
from .dual import *
from .motor import *
from .part import *
from .rows import *
from .stored import *
from .supply import *
from .wire import *
