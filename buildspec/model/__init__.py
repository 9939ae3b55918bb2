"""The records of a build: what the later stages read. Immutable, in base units, no behaviour.

Base units: A, V, W, ohm, m, mm² (conductor sections only), m² (surfaces), kg, N, s, Ah, °C, and
fractions between 0 and 1. Every record that comes from a file carries `at`, the path it was read
from, so that any later stage can point at it.

Three layers of records, each made by one stage from the last:
`Resolved` (names, parts, routes, circuits, designations), `Sized` (conductor, device and holder of
each circuit with the reason), and the diagnostics of the rules.
"""

from __future__ import annotations

from buildspec.model.circuits import Circuit, Contact, Job, Protection, Quote, Resolved, Terminal, Wire
from buildspec.model.items import (
    Accessory,
    Battery,
    Block,
    Channel,
    Fastening,
    Hole,
    Isolation,
    OwnState,
    Panel,
    Reserve,
    Supply,
    Work,
)
from buildspec.model.parts import (
    AnchorTrait,
    BatteryTrait,
    BlockTrait,
    ChargerTrait,
    ContactTrait,
    CutOffTrait,
    Electrical,
    Envelope,
    Inrush,
    Lamp,
    LinkTrait,
    MaterialTrait,
    OutletTrait,
    PanelTrait,
    Part,
    Trips,
)
from buildspec.model.practice import Beaten, Choice, Conductor, FusePart, Gate, Practice, Shop
from buildspec.model.sizing import Ampacity, Device, Fault, FaultSet, Near, Opening, Reason, Sized, Sizing
from buildspec.model.vehicle import (
    Alternator,
    Axle,
    Axles,
    Carried,
    Engine,
    Ground,
    Neighbour,
    Place,
    Route,
    Run,
    Signal,
    Vehicle,
)

__all__ = [
    "Accessory",
    "Alternator",
    "Ampacity",
    "AnchorTrait",
    "Axle",
    "Axles",
    "Battery",
    "BatteryTrait",
    "Beaten",
    "Block",
    "BlockTrait",
    "Carried",
    "Channel",
    "ChargerTrait",
    "Choice",
    "Circuit",
    "Conductor",
    "Contact",
    "ContactTrait",
    "CutOffTrait",
    "Device",
    "Electrical",
    "Engine",
    "Envelope",
    "Fastening",
    "Fault",
    "FaultSet",
    "FusePart",
    "Gate",
    "Ground",
    "Hole",
    "Inrush",
    "Isolation",
    "Job",
    "Lamp",
    "LinkTrait",
    "MaterialTrait",
    "Near",
    "Neighbour",
    "Opening",
    "OutletTrait",
    "OwnState",
    "Panel",
    "PanelTrait",
    "Part",
    "Place",
    "Practice",
    "Protection",
    "Quote",
    "Reason",
    "Reserve",
    "Resolved",
    "Route",
    "Run",
    "Shop",
    "Signal",
    "Sized",
    "Sizing",
    "Supply",
    "Terminal",
    "Trips",
    "Vehicle",
    "Wire",
    "Work",
]
