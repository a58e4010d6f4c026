"""What to do next: what to rule out, when to clean, how much to weigh in, what to expect, when to stop."""

from collections.abc import Sequence
from typing import Final, Literal, final

from kingvalve.check import Finding

from ..quantity import Mass, Pressure, Site, Temperature, Time
from ..record import Record
from .before import Before, Showing
from .evidence import Estimate
from .ingress import AirIngress
from .inventory import Inventory
from .response import Running

COMMON_STEP: Mass
COMMON_REST: Time
COMMON_RUN: Time

@final
class Action(Record):
    __match_args__: Final = ("do", "air", "at_fault", "look_at", "step", "form", "wait", "because")
    @property
    def do(self) -> Literal[
        "repair_and_evacuate", "rule_out", "clean_coil", "dry_and_steady", "weigh", "stop"
    ]: ...
    @property
    def air(self) -> AirIngress | None: ...
    @property
    def at_fault(self) -> list[str]: ...
    @property
    def look_at(self) -> list[str]: ...
    @property
    def step(self) -> Mass | None: ...
    @property
    def form(self) -> Literal["liquid_throttled", "vapour_or_liquid"] | None: ...
    @property
    def wait(self) -> Time | None: ...
    @property
    def because(self) -> str | None: ...

@final
class Plan(Record):
    __match_args__: Final = (
        "action",
        "now",
        "missing",
        "expected_standing",
        "expected_running",
        "next_steps",
        "cautions",
    )
    @staticmethod
    def next(
        inventory: Inventory,
        site: Site,
        *,
        metering: Literal["orifice", "valve"],
        cylinder: Mass,
        before: Before | None = None,
        outdoor_coil: Literal["not_looked", "clean", "dirty", "wet", "dry_steady"] = ...,
        step: Mass | None = None,
        showing: Showing | None = None,
        standing_at: Temperature | Sequence[Temperature] | None = None,
        as_predicted: bool = True,
    ) -> Plan: ...
    @property
    def action(self) -> Action: ...
    @property
    def now(self) -> Estimate[Mass]: ...
    @property
    def missing(self) -> Estimate[Mass] | None: ...
    @property
    def expected_standing(self) -> Estimate[Pressure] | None: ...
    @property
    def expected_running(self) -> Running | None: ...
    @property
    def next_steps(self) -> list[str]: ...
    @property
    def cautions(self) -> list[str]: ...
    def finding(self) -> Finding: ...
