"""What to do next: what to rule out, when to clean, how much to weigh in, what to expect, when to stop."""

from collections.abc import Sequence
from typing import Final, Literal, TypeAlias, final

from kingvalve.check import Finding

from ..measure import Verdict
from ..quantity import Mass, Power, Pressure, Site, Temperature, TemperatureDifference, Time, Volume
from ..record import Record
from .ingress import AirIngress
from .inventory import Estimate, Inventory
from .response import Running
from .standing import FullCharge

Look: TypeAlias = Literal["not_looked", "fine", "at_fault"]
AgainstTarget: TypeAlias = Literal["met", "too_little", "too_much", "unresolved"]

COMMON_STEP: Mass
COMMON_REST: Time
COMMON_RUN: Time

@final
class Before(Record):
    __match_args__: Final = (
        "indoor_coil",
        "blower",
        "contactor",
        "outdoor_fan",
        "compressor",
        "pressure_switch",
        "at_fault",
        "not_looked",
    )
    def __new__(
        cls,
        *,
        indoor_coil: Look | None = None,
        blower: Look | None = None,
        contactor: Look | None = None,
        outdoor_fan: Look | None = None,
        compressor: Look | None = None,
        pressure_switch: Look | None = None,
    ) -> Before: ...
    @staticmethod
    def all_fine() -> Before: ...
    @property
    def indoor_coil(self) -> Look: ...
    @property
    def blower(self) -> Look: ...
    @property
    def contactor(self) -> Look: ...
    @property
    def outdoor_fan(self) -> Look: ...
    @property
    def compressor(self) -> Look: ...
    @property
    def pressure_switch(self) -> Look: ...
    @property
    def at_fault(self) -> list[str]: ...
    @property
    def not_looked(self) -> list[str]: ...

@final
class Showing(Record):
    __match_args__: Final = ("superheat", "subcooling", "full", "against_target")
    def __new__(
        cls,
        superheat: TemperatureDifference,
        subcooling: TemperatureDifference,
        full: FullCharge,
        against_target: AgainstTarget,
    ) -> Showing: ...
    @property
    def superheat(self) -> TemperatureDifference: ...
    @property
    def subcooling(self) -> TemperatureDifference: ...
    @property
    def full(self) -> FullCharge: ...
    @property
    def against_target(self) -> AgainstTarget: ...

@final
class OnTarget:
    @staticmethod
    def by_subcooling(verdict: Verdict[TemperatureDifference], /) -> AgainstTarget: ...
    @staticmethod
    def by_superheat(verdict: Verdict[TemperatureDifference], /) -> AgainstTarget: ...

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

@final
class Additive(Record):
    __match_args__: Final = ("kind", "volume", "per", "cautions")
    def __new__(cls, kind: Literal["sealant", "dye"], volume: Volume, per: Power) -> Additive: ...
    def dose(self, capacity: Power) -> Volume: ...
    @property
    def kind(self) -> Literal["sealant", "dye"]: ...
    @property
    def volume(self) -> Volume: ...
    @property
    def per(self) -> Power: ...
    @property
    def cautions(self) -> list[str]: ...
