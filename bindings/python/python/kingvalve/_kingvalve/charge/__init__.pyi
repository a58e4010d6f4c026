"""What is in the system, what is missing, what to add next, how fast it leaks."""


from .forecast import *
from .ingress import *
from .inventory import *
from .plan import *
from .response import *
from .rule import *
from .standing import *
from .system import *
from .tube import *
from .weigh_in import *
