"""Moist air, airflow, capacity, temperature split, and what a piece of work changed."""


from .coil import *
from .flow import *
from .moist import *
from .split import *
from .standard import *
from .work import *
