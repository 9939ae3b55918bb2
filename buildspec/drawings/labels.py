"""The words on the sheets, each from one place."""

from __future__ import annotations

from buildspec import show
from buildspec.model import Circuit, Device, Isolation, Panel, Protection, Resolved, Sized, Wire

OWN = "vehicle’s own"
SHORT = {
    "mini-blade": "mini blade",
    "maxi-blade": "maxi blade",
    "cartridge-a1": "cartridge",
    "strip-m5": "strip M5",
    "strip-m8": "strip M8",
    "post-cube": "cube",
    "limiter-strip": "limiter",
    "class-t": "class T",
}
"""Fuse family → what fits beside a symbol; the fuse map has the whole name."""


def device_of(sized: Sized, circuit: Circuit, protection: Protection) -> Device | None:
    sizing = sized.sizings.get(circuit.key)
    devices = sizing.devices if sizing else ()
    return next((d for d in devices if d.designation == protection.designation), None)


def area_mm2(sized: Sized, circuit: Circuit) -> float | None:
    """Section of its conductor [mm²], None where it is the vehicle's own."""
    if circuit.existing and circuit.conductor is None:
        return None
    sizing = sized.sizings.get(circuit.key)
    return sizing.conductor.area_mm2 if sizing else None


def size(sized: Sized, circuit: Circuit) -> str:
    """`2.5 mm²`, `14 AWG`, or `vehicle's own`."""
    sizing = sized.sizings.get(circuit.key)
    if sizing is None or (circuit.existing and circuit.conductor is None):
        return OWN
    return show.size(sizing.conductor)


def length(sized: Sized, wire: Wire) -> str:
    return show.length(wire.cut_m, sized.build.practice)


def wire_sentence(sized: Sized, circuit: Circuit, wire: Wire) -> str:
    """The whole of a conductor in words, for its description."""
    words = ", ".join(wire.route.places)
    if circuit.existing:
        return (
            f"the vehicle’s own {wire.role} of circuit {circuit.number}, {size(sized, circuit)}, by {words}"
        )
    return (
        f"{wire.role} of circuit {circuit.number}, {size(sized, circuit)}, {show.colour(wire.colour)} ({wire.colour}), "
        f"{length(sized, wire)}, from {wire.start.item} {wire.start.pin} to {wire.end.item} {wire.end.pin}, by {words}"
    )


def rating(sized: Sized, circuit: Circuit, protection: Protection) -> tuple[str, str]:
    """(`15 A`, `blade`), (`15 A`, `limit`)."""
    device = device_of(sized, circuit, protection)
    amps = device.rating_a if device else protection.rating_a
    words = show.amps(amps) if amps is not None else "—"
    family = device.family if device else protection.family
    return words, "limit" if protection.kind == "channel" else SHORT.get(family, family)


def fuse_colour(sized: Sized, circuit: Circuit, protection: Protection) -> str:
    """Colour of a fuse's body in words, `` where no standard gives it one."""
    device = device_of(sized, circuit, protection)
    return device.colour if device and device.kind == "fuse" else ""


def state(protection: Protection) -> str:
    """`, out` or `, off` until a reserve is used."""
    return "" if protection.fitted else ", off" if protection.kind == "channel" else ", out"


def protection_line(sized: Sized, circuit: Circuit, protection: Protection) -> str:
    """Rating, family, and whether it is out or off until a reserve is used."""
    amps, family = rating(sized, circuit, protection)
    colour = fuse_colour(sized, circuit, protection)
    return f"{amps} {family}".strip() + (f", {colour}" if colour else "") + state(protection)


def protection_sentence(sized: Sized, circuit: Circuit, protection: Protection) -> str:
    kind = "electronic limit" if protection.kind == "channel" else "fuse"
    text = f"{kind} of circuit {circuit.number}, {protection_line(sized, circuit, protection)}, at {protection.place}"
    return f"{text}, position {protection.position} of {protection.host}" if protection.host else text


def place(build: Resolved, name: str) -> str:
    found = build.places.get(name)
    return found.words if found else name


def load_amps(sized: Sized, circuit: Circuit) -> str:
    """Current that the circuit is laid for."""
    if circuit.kind == "reserve" and circuit.allow_a is not None:
        return f"up to {show.amps(circuit.allow_a)}"
    sizing = sized.sizings.get(circuit.key)
    return show.amps(sizing.design_a) if sizing else ""


def designation(build: Resolved, name: str) -> str:
    """Designation of a node by its name; signals have only their name."""
    for found in (
        build.batteries,
        build.panels,
        build.blocks,
        build.isolation,
        build.supplies,
        build.accessories,
        build.reserves,
    ):
        if name in found:
            made: str = found[name].designation
            return made
    return name


def title(build: Resolved, name: str) -> str:
    """What a node is, in a few words."""
    if name in build.batteries:
        return f"{name} battery"
    for found in (build.panels, build.blocks, build.isolation, build.supplies, build.accessories):
        if name in found:
            made: str = found[name].part.title
            return made
    return build.signals[name].words if name in build.signals else name


def node_place(build: Resolved, name: str) -> str:
    """Place of a node, by name."""
    if name in build.panels:
        return build.panels[name].module_at
    for found in (
        build.batteries,
        build.blocks,
        build.isolation,
        build.supplies,
        build.signals,
        build.accessories,
        build.reserves,
    ):
        if name in found:
            made: str = found[name].place
            return made
    return ""


def battery_facts(build: Resolved, name: str) -> tuple[str, ...]:
    trait = build.batteries[name].part.battery
    if trait is None:
        return ()
    kind = trait.chemistry.upper() if trait.chemistry in ("agm", "efb") else trait.chemistry.replace("-", " ")
    facts = [f"{show.plain(trait.capacity_ah, 1)} Ah, {kind}"]
    if trait.cranking_a:
        facts.append(f"{show.plain(trait.cranking_a, 0)} A cranking")
    return tuple(facts)


def way(item: Isolation) -> str:
    """How and when an isolation device joins both sides."""
    trait = item.part.link
    if item.type == "dc-dc":
        return f"one way, {item.ends[0]} to {item.ends[1]}"
    if item.type == "momentary-link":
        return "only while its key is held" if item.switch else "only while it is held"
    if item.type == "voltage-relay" and trait and trait.join_v and trait.part_v:
        return f"from {show.plain(trait.join_v, 2)} V, apart below {show.plain(trait.part_v, 2)} V"
    return {"voltage-relay": "by voltage", "manual-switch": "by hand"}.get(
        item.type, item.type.replace("-", " ")
    )


def listed(parts: list[str]) -> str:
    return parts[0] if len(parts) == 1 else ", ".join(parts[:-1]) + " and " + parts[-1]


def meeting(build: Resolved) -> str:
    """One sentence: how the start and the house side meet."""
    roles = {name: item.role for name, item in build.batteries.items()}
    if len(set(roles.values())) < 2:
        words = (
            listed([f"{b.designation} ({n})" for n, b in build.batteries.items()]) if roles else "no battery"
        )
        return f"Everything hangs on one side: {words}."
    ways = [
        f"{item.designation} ({way(item)})"
        for item in build.isolation.values()
        if roles.get(item.ends[0]) != roles.get(item.ends[1])
    ]
    ways += [
        f"{circuit.feeds[0].designation if circuit.feeds else circuit.number} (a conductor, always)"
        for circuit in build.circuits
        if circuit.kind == "tie"
        and roles.get(circuit.source, "") != roles.get(circuit.target, "")
        and circuit.source in roles
        and circuit.target in roles
    ]
    return (
        f"Start and house meet only through {listed(ways)}."
        if ways
        else "Start and house do not meet anywhere."
    )


def panel_facts(panel: Panel) -> str:
    trait = panel.part.panel
    if trait is None:
        return ""
    kind = "solid-state" if trait.kind == "solid-state" else "rockers"
    return f"{kind}, {trait.channels} channels; at most {show.amps(trait.total_a)}"
