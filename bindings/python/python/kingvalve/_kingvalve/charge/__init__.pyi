"""What is in the system, what is missing, what to add next, how fast it leaks."""

from .additive import *
from .before import *
from .evidence import *
from .forecast import *
from .ingress import *
from .inventory import *
from .plan import *
from .response import *
from .rule import *
from .standing import *
from .system import *
from .trend import *
from .tube import *
from .virtual_charge import *
from .weigh_in import *
