"""Run capacitors, supply, circuits, motors."""


from .capacitor import *
from .circuit import *
from .motor import *
from .part import *
from .rows import *
from .supply import *
